// A font the maker chose: its letters drawn by the browser, one picture a letter.

const CAPITAL = 192, MOST_ACROSS = 4096;
const canvas = document.createElement("canvas"), pen = canvas.getContext("2d", { willReadFrequently: true });
let face = null, has = null, kept = null, size = CAPITAL, turn = 0;

// Takes a font's bytes; gives the reason, as the end of a sentence, where it cannot be read, and else nothing.
export async function take(bytes) {
  try {
    const own = Uint8Array.from(bytes), known = charactersOf(new DataView(own.buffer));
    const next = new FontFace(`lettering-${++turn}`, own.buffer);
    await next.load();
    if (face) document.fonts.delete(face);
    document.fonts.add(next);
    [face, has] = [next, known];
    pen.font = `1000px "${face.family}"`;
    const high = pen.measureText("H").actualBoundingBoxAscent;
    size = CAPITAL * 1000 / (has(72) && high > 0 ? high : 700);
    return "";
  } catch {
    return "this is no font that can be read here, or it is broken; use a TrueType or OpenType file";
  }
}

// Draws a character: its width, height and base line in pixels; nothing where the font has none. Another font never stands in.
export function draw(character) {
  if (!has?.(character.codePointAt(0))) return "";
  pen.font = `${size}px "${face.family}"`;
  const m = pen.measureText(character);
  const left = Math.ceil(m.actualBoundingBoxLeft) + 1, up = Math.ceil(m.actualBoundingBoxAscent) + 1;
  const width = left + Math.ceil(m.actualBoundingBoxRight) + 1, height = up + Math.ceil(m.actualBoundingBoxDescent) + 1;
  if (!(width > 2 && height > 2 && width < MOST_ACROSS && height < MOST_ACROSS)) return "";
  [canvas.width, canvas.height] = [width, height];
  pen.font = `${size}px "${face.family}"`;
  pen.fillText(character, left, up);
  kept = pen.getImageData(0, 0, width, height);
  return `${width},${height},${up}`;
}

// The pixels of the character last drawn.
export function pixels(view) { view.set(new Uint8Array(kept.data.buffer)); }

// Which characters a font has, by its table "cmap" (ISO/IEC 14496-22, formats 4 and 12). The browser would draw what is lacking in another font and not say so.
function charactersOf(file) {
  let cmap = 0;
  for (let i = 0, n = file.getUint16(4); i < n; i++)
    if (file.getUint32(12 + 16 * i) === 0x636d6170) cmap = file.getUint32(12 + 16 * i + 8);
  if (cmap === 0) throw new RangeError("no cmap");
  const ranges = [];
  for (let i = 0, n = file.getUint16(cmap + 2); i < n; i++) {
    const at = cmap + file.getUint32(cmap + 4 + 8 * i + 4), format = file.getUint16(at);
    if (format === 12)
      for (let g = 0, groups = file.getUint32(at + 12); g < groups; g++) ranges.push([file.getUint32(at + 16 + 12 * g), file.getUint32(at + 20 + 12 * g)]);
    if (format === 4)
      for (let s = 0, two = file.getUint16(at + 6); s < two; s += 2) ranges.push([file.getUint16(at + 16 + two + s), file.getUint16(at + 14 + s)]);
  }
  if (ranges.length === 0) throw new RangeError("no characters");
  return (code) => code !== 0xffff && ranges.some(([from, to]) => code >= from && code <= to);
}
