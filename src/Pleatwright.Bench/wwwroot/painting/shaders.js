// What a graphics card does with the stitched piece (GLSL ES 3.00). The same form and light as Relief and Shading in src/Pleatwright/Stitched; every number of either comes
// as a constant from there, by the name it has there (GraphicsNumbers), and StitchedLookTests compares the pictures.
//
// Cloth and strands go into a relief: height, slopes and shade in one texture, the way of fibres and of what it is in another. A place is in samples,
// its first row on top.
const head = (numbers) => `#version 300 es
precision highp float; precision highp int; precision highp sampler2D;
${numbers}
uniform float perMm;   // samples to a millimetre
`;

const place = `
uniform vec2 origin;   // millimetres at the first sample
uniform vec2 size;     // samples across and down
vec4 at(vec2 mm) { return vec4((mm - origin) * perMm / size * 2.0 - 1.0, 0.0, 1.0); }
`;

export const clothVertex = (numbers) => `${head(numbers)}${place}
layout(location = 0) in vec3 node;
uniform int columns;
out vec3 lies;
void main() {
  lies = vec3(float(gl_VertexID % columns), Top + NodeLines * float(gl_VertexID / columns), node.z);
  gl_Position = at(node.xy);
}`;

// Chance that is the same as the core's, Grain.
const grain = `
uint mixed(uint h) { h ^= h >> 16; h *= 0x85EBCA6Bu; h ^= h >> 13; h *= 0xC2B2AE35u; return h ^ (h >> 16); }
float grainAt(int x, int y, int purpose) { return float(int(mixed(uint(x) * 0x9E3779B1u ^ mixed(uint(y) * 0x85EBCA77u ^ uint(purpose) * 0xC2B2AE3Du)))) / 2147483647.0; }
float grainAlong(float x, int y, int purpose) {
  float from = floor(x), t = x - from;
  t = t * t * (3.0 - 2.0 * t);
  return mix(grainAt(int(from), y, purpose), grainAt(int(from) + 1, y, purpose), t);
}`;

// What makes no two pleats alike (Unevenness), made once for a cloth: a column a pleat, a row each hair's breadth down it.
export const mottleFragment = (numbers) => `${head(numbers)}${grain}
uniform float step, from;   // millimetres from row to row, and where the first lies
layout(location = 0) out vec4 form;  // rise, dimple, fullness, lean
layout(location = 1) out vec4 tone;  // tone, how much higher it stands
float rising(float at, int pleat, int purpose) { return grainAlong(at + RiseStep, pleat, purpose) - grainAlong(at - RiseStep, pleat, purpose); }
void main() {
  int pleat = int(gl_FragCoord.x);
  float v = from + gl_FragCoord.y * step, row = (v / Line - 1.0) / PerSpace, off = row - round(row);
  float rise = Soft * rising(v / SoftLong, pleat, SoftPurpose) + Bulge * rising(v / BulgeLong, pleat, BulgePurpose) + Ripple * rising(v / RippleLong, pleat, RipplePurpose);
  float dimple = off * exp(-off * off * DimpleSharp) * (Dimpled + DimpleChance * grainAt(pleat, int(round(row)), DimplePurpose));
  float lean = Leans * grainAlong(v / LeanLong, pleat, LeanPurpose) + Sways * grainAlong(v / SwayLong, pleat, SwayPurpose) + Aslant * grainAt(pleat, 0, AslantPurpose);
  form = vec4(rise, dimple, 1.0 + Fuller * grainAlong(v / FullLong, pleat, FullPurpose), lean);
  float stands = Up * grainAlong(v / UpLong, pleat, UpPurpose) + Tall * grainAt(pleat, 0, TallPurpose);
  tone = vec4(grainAlong(v / ToneLong, pleat, TonePurpose), stands / (Up + Tall), 0.0, 0.0) * 0.5 + 0.5;
}`;

// No two yarns alike (ClothWeave): chance for a yarn across and a yarn down, for each place where they cross, and for how far they wander.
export const yarnFragment = (numbers) => `${head(numbers)}${grain}
layout(location = 0) out vec4 chance;
void main() {
  ivec2 p = ivec2(gl_FragCoord.xy);
  chance = vec4(grainAt(p.x, 0, YarnPurpose), grainAt(p.y, 0, YarnPurpose), grainAt(p.x, p.y, KnotPurpose), grainAt(p.x, 0, WanderPurpose)) * 0.5 + 0.5;
}`;

export const clothFragment = (numbers) => `${head(numbers)}
in vec3 lies;
uniform sampler2D forms, tones, yarns;
uniform vec2 down;   // where the first row of the forms lies, and rows to a millimetre over how many there are
layout(location = 0) out vec4 relief;
layout(location = 1) out vec4 fibre;
float wander(float at) {
  int i = int(floor(at));
  float one = texelFetch(yarns, ivec2(i & (Yarns - 1), 0), 0).a, next = texelFetch(yarns, ivec2((i + 1) & (Yarns - 1), 0), 0).a;
  return mix(one, next, at - floor(at)) * 2.0 - 1.0;
}
void main() {
  float a = lies.x, d = lies.y, held = lies.z;
  float perRight = dFdx(a) * perMm, perDown = dFdy(a) * perMm, gradient = max(1e-6, length(vec2(perRight, perDown)));
  float local = min(1.0, 1.0 / (gradient * Pitch));
  float deep = Depth * (WideDeep + (1.0 - WideDeep) * local) * clamp((perMm / gradient - PleatSeen) / PleatWhole, 0.0, 1.0) * (1.0 - HeldShallow * held);
  float sunk = Depth * Tuck * held, tucks = -Depth * Tuck * dFdy(held) * perMm;
  float on = floor(a), v = d * Line;
  vec2 there = vec2((on + 0.5) / float(textureSize(forms, 0).x), (v - down.x) * down.y);
  vec4 form = textureLod(forms, there, 0.0);
  vec2 toned = textureLod(tones, there, 0.0).rg * 2.0 - 1.0;
  float tone = 1.0 + Toned * toned.r, rise = form.x + form.y * (1.0 - HeldSmooth * held), share = a - on;
  share += form.w * share * (1.0 - share);
  float side = 2.0 * share - 1.0, q = min(1.0, abs(side)), x = max(1.0 / 256.0, 1.0 - q * q), p = pow(x, CrownRound), h = p - 1.0;
  float slope = (share < 0.5 ? 4.0 : -4.0) * CrownRound * q * p / x * deep * form.z;
  vec2 rises = vec2(slope * perRight, slope * perDown + rise * (1.0 + h) + tucks);
  float weave = clamp((perMm / max(1.0, gradient * Pitch) * Warp - YarnSeen) / YarnWhole, 0.0, 1.0);
  if (weave > 0.0) {
    float u = (a * Pitch + Aside * side * side * side) * Turned / Warp, w = v / Weft;
    u += Wanders * wander(w * WarpOften) + WandersFinely * wander(w * WarpFinely + float(Yarns) / 3.0);
    w += Wanders * wander(u * WeftOften + float(Yarns) / 7.0) + WandersFinely * wander(u * WeftFinely + float(Yarns) / 2.0);
    float fu = floor(u), fw = floor(w), su = u - fu - 0.5, sw = w - fw - 0.5;
    ivec2 yarn = ivec2(int(fu), int(fw)) & (Yarns - 1);
    vec3 chance = texelFetch(yarns, yarn, 0).rgb * 2.0 - 1.0;
    bool over = ((yarn.x + yarn.y) & 1) == 0;
    float thick = -2.0 * YarnSteep * (1.0 + YarnThick * chance.b) * weave * Pitch;
    float across = (over ? su : YarnAlong * su) * thick, along = (over ? YarnAlong * sw : sw) * thick;
    rises += vec2(across * perRight - along * perDown, across * perDown + along * perRight);
    tone *= 1.0 + weave * (YarnLight - YarnDark * (over ? su * su : sw * sw) + YarnTone * (over ? chance.r : chance.g) + KnotTone * chance.b);
  }
  relief = vec4(h * deep * form.z - sunk + Depth * (Up + Tall) * toned.g * (1.0 + h) * (1.0 - held), rises, tone);
  fibre = vec4(0.5, 0.5, 1.0 / 255.0, 1.0);
}`;

// A strand: Strand in the core, its numbers in this order. Drawn as a box that it lies in; contact is how far beside itself it keeps the light from the cloth.
export const strandVertex = (numbers) => `${head(numbers)}${place}
layout(location = 0) in vec4 first;   // middle, along
layout(location = 1) in vec4 second;  // across, offset, lean
layout(location = 2) in vec4 third;   // bow, half width, apex, dip
layout(location = 3) in vec4 fourth;  // half length, turn, phase, shade
layout(location = 4) in vec2 fifth;   // stands, casts
layout(location = 5) in float thread;
uniform float contact;
out vec2 on;
flat out vec4 s1, s2, s3, s4; flat out vec2 s5; flat out float of;
void main() {
  vec2 corner = vec2(float(gl_VertexID & 1), float(gl_VertexID >> 1)) * 2.0 - 1.0;
  float beside = contact * fifth.y;
  if (contact > 0.0 && fifth.y == 0.0) { gl_Position = vec4(2.0, 2.0, 2.0, 1.0); return; }
  float reach = abs(second.z) * Apart + abs(second.w) + abs(third.x) * (1.0 - Swells) + third.y + beside;
  on = vec2(corner.x, corner.y * reach);
  s1 = first; s2 = second; s3 = third; s4 = fourth; s5 = fifth; of = thread;
  gl_Position = at(first.xy + first.zw * on.x + second.xy * on.y);
}`;

const strandForm = `
in vec2 on;
flat in vec4 s1, s2, s3, s4; flat in vec2 s5; flat in float of;
float across(float t, float t8) { return (on.y - (s2.z * (Apart - Together * t8) + s2.w * t + s3.x * (Swells - t * t))) / s3.y; }`;

export const strandFragment = (numbers) => `${head(numbers)}${strandForm}
layout(location = 0) out vec4 relief;
layout(location = 1) out vec4 fibre;
const float Round = 6.2831853;
void main() {
  float t = on.x, t2 = t * t, t4 = t2 * t2, t8 = t4 * t4, c = across(t, t8), c2 = c * c;
  if (c2 >= 1.0) discard;
  float lean = s2.w, bow = s3.x, halfWidth = s3.y, apex = s3.z, dip = s3.w, halfLength = s4.x, turn = s4.y, stands = s5.x;
  float seen = stands > 1.0 ? 0.0 : clamp((turn * perMm - TurnSeen) / TurnWhole, 0.0, 1.0), ridge = Ridge * halfWidth * seen;
  float perT = 2.0 * Round * halfLength / turn, begin = s4.z * Round;
  float grains = clamp((halfWidth * perMm - FibreSeen) / FibreWhole, 0.0, 1.0);
  float thick = stands > 1.0 ? FlatRound * halfWidth / stands : Roundness * halfWidth;
  float rise = sqrt(max(1.0 - c2, LeastRise)), twist = t * perT + c * Slants + begin + Loose * sin(t * LooseOften + begin * LooseBegin);
  float height = apex - thick - dip * (SinkSoon * t2 + (1.0 - SinkSoon) * t4 * t2) + thick * rise, wave = 0.0, slant = 0.0;
  if (seen > 0.0) { wave = sin(twist); slant = cos(twist); height += ridge * slant * rise; }
  float shift = lean - 2.0 * bow * t;
  float alongSlope = -dip * (2.0 * SinkSoon * t + 6.0 * (1.0 - SinkSoon) * t4 * t) - ridge * perT * wave;
  float crossSlope = (-thick * c / rise - ridge * Slants * wave) / halfWidth;
  alongSlope -= crossSlope * shift;
  float det = s1.z * s2.y - s1.w * s2.x;
  vec2 ofT = vec2(s2.y, -s2.x) / det, ofO = vec2(-s1.w, s1.z) / det;
  vec2 slope = alongSlope * ofT + crossSlope * ofO;
  float aslant = (AslantAll + AslantPly * seen * wave + AslantAcross * c) * halfLength;
  vec2 runs = normalize(s1.zw + s2.xy * (shift + aslant));
  float shade = s4.w * (1.0 + PlyShade * seen * slant) * (MiddleShade - EdgeShade * c2 * c2 * c2);
  if (grains > 0.0) {
    float coarse = sin(c * CoarseAcross + twist * CoarseAlong + begin * CoarseBegin) * sin(c * CoarseAcross2 - twist * CoarseAlong2);
    float middle = sin(c * MiddleAcross + twist * MiddleAlong + begin * MiddleBegin) * sin(t * MiddleOften + begin * MiddleBegin2);
    shade *= 1.0 + grains * (Coarse * coarse + Middle * middle + Fine * sin(c * FineAcross - twist * FineAlong));
  }
  relief = vec4(height, slope, shade);
  fibre = vec4(runs * 0.5 + 0.5, (of + 2.0) / 255.0, 1.0);
  gl_FragDepth = clamp(0.5 - height / 16.0, 0.0, 0.999);
}`;

// How much light is left to the cloth beside a stitch; laid one over the other they multiply.
export const contactFragment = (numbers) => `${head(numbers)}${strandForm}
out vec4 left;
void main() {
  float t = on.x, t2 = t * t, t4 = t2 * t2, t8 = t4 * t4, c = abs(across(t, t8)), reach = ContactReach / s3.y;
  if (c >= 1.0 + reach) discard;
  left = vec4(ContactLeft + (1.0 - ContactLeft) * smoothstep(0.0, 1.0, (c - 1.0) / reach));
}`;

export const sheetVertex = `#version 300 es
void main() { gl_Position = vec4(float(gl_VertexID & 1) * 4.0 - 1.0, float(gl_VertexID >> 1) * 4.0 - 1.0, 0.0, 1.0); }`;

// Heights seen from a little farther off: of so many samples across and down one.
export const fewerFragment = (numbers) => `${head(numbers)}
uniform sampler2D heights;
uniform int every;
out vec4 mean;
void main() {
  ivec2 first = ivec2(gl_FragCoord.xy) * every, last = textureSize(heights, 0) - 1;
  float sum = 0.0;
  for (int y = 0; y < every; y++) for (int x = 0; x < every; x++) sum += texelFetch(heights, min(first + ivec2(x, y), last), 0).r;
  mean = vec4(sum / float(every * every));
}`;

// The mean height over a line about a sample; once across and once down.
export const meanFragment = (numbers) => `${head(numbers)}
uniform sampler2D heights;
uniform ivec2 way;
uniform int radius;
out vec4 mean;
void main() {
  ivec2 here = ivec2(gl_FragCoord.xy), last = textureSize(heights, 0) - 1;
  float sum = 0.0;
  for (int i = -radius; i <= radius; i++) sum += texelFetch(heights, clamp(here + way * i, ivec2(0), last), 0).r;
  mean = vec4(sum / float(2 * radius + 1));
}`;

export const lightFragment = (numbers) => `${head(numbers)}
uniform sampler2D reliefs, fibres, contacts, nears, widers, palette;
uniform int sampling, margin, high;
uniform vec2 fewer;   // one over the samples across and down that the means stand for
out vec4 colour;
vec4 lit(ivec2 s) {
  vec4 r = texelFetch(reliefs, s, 0), f = texelFetch(fibres, s, 0);
  int of = int(f.z * 255.0 + 0.5) - 2;
  if (of == -2) return vec4(0.0);
  float height = r.x;
  float flatly = length(Toward.xy), steep = Toward.z / max(flatly, 1e-3), blocked = 0.0;
  vec2 toward = Toward.xy / flatly;
  for (int i = 0; i < ShadowCount; i++) {
    float far = ShadowSteps[i] * Reach;
    ivec2 there = s + ivec2(round(far * toward * perMm));
    float over = (i < SharpSteps ? texelFetch(reliefs, there, 0).x : textureLod(nears, (vec2(there) + 0.5) * fewer, 0.0).x) - height - far * steep;
    blocked = max(blocked, over / (ShadowSoft + ShadowSofter * far));
  }
  float light = 1.0 - ShadowDark * min(1.0, blocked);
  float near = max(0.0, textureLod(nears, (vec2(s) + 0.5) * fewer, 0.0).x - height), wider = max(0.0, textureLod(widers, (vec2(s) + 0.5) * fewer, 0.0).x - height);
  float tight = exp(near * -NearDark), about = exp(wider * (-WiderDark / Depth)), open = tight * tight * about;
  vec3 n = normalize(vec3(-r.yz, 1.0));
  float facing = dot(n, Toward), sky = (n.z * SkyFaces - n.y * SkyAbove - n.x * SkyLeft + SkyLeast) * Around;
  vec3 own = texelFetch(palette, ivec2(of + 1, 0), 0).rgb;
  float most = max(own.r, max(own.g, own.b)), back = Back * (1.0 - open);
  if (of < 0) {
    float lamped = max(0.0, (facing + WrapCloth) / (1.0 + WrapCloth)) * light * tight * Lamp;
    vec3 falls = (lamped * Warm + sky * max(open, about * sqrt(tight)) * Cool) * r.w * texelFetch(contacts, s, 0).r;
    return vec4(own * falls / ClothMean / (1.0 - back * own) * Strength, 1.0);
  }
  vec2 way = f.xy * 2.0 - 1.0;
  vec3 fibre = normalize(vec3(way, dot(r.yz, way)) + vec3(0.0, 0.0, 1e-5)), between = normalize(Toward + vec3(0.0, 0.0, 1.0));
  float alongLamp = dot(fibre, Toward), alongHalf = dot(fibre, between), aslant = sqrt(max(0.0, 1.0 - alongLamp * alongLamp));
  float wrapped = max(0.0, (facing + WrapThread) / (1.0 + WrapThread)), faces = clamp(facing * FacesSteep + FacesLeast, 0.0, 1.0) * light;
  float first = alongHalf + SheenShift, second = alongHalf + GlowShift;
  float sheen = exp(first * first * -SheenSharp) * faces * open, glow = exp(second * second * -GlowSharp) * faces * open;
  float lamped = mix(wrapped, aslant, FibreShare) * faces * Lamp * r.w + glow * Glow;
  vec3 falls = lamped * Warm + sky * open * r.w * Cool, coloured = 1.0 + (falls / ThreadMean - 1.0) * (1.0 - Paler * most * most);
  float white = sheen * Sheen * (SheenLeast + SheenOwn * dot(own, Eye)) * (1.0 - PalerSheen * most * most);
  return vec4((own * coloured / (1.0 - back * own) + white * Warm) * Strength, 1.0);
}
float encoded(float v) {
  if (v > HighlightFrom) v = HighlightFrom + (1.0 - HighlightFrom) * (1.0 - exp(-(v - HighlightFrom) / (1.0 - HighlightFrom)));
  return v <= 0.0031308 ? 12.92 * max(0.0, v) : 1.055 * pow(v, 1.0 / 2.4) - 0.055;
}
void main() {
  ivec2 first = ivec2(int(gl_FragCoord.x), high - 1 - int(gl_FragCoord.y)) * sampling + margin;
  vec4 sum = vec4(0.0);
  for (int y = 0; y < sampling; y++) for (int x = 0; x < sampling; x++) sum += lit(first + ivec2(x, y));
  if (sum.a == 0.0) { colour = vec4(0.0); return; }
  vec3 c = sum.rgb / sum.a;
  float a = sum.a / float(sampling * sampling);
  colour = vec4(vec3(encoded(c.r), encoded(c.g), encoded(c.b)) * a, a);
}`;
