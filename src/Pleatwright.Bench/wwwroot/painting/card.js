// The graphics card: one for the page, whoever draws with it. It knows strands and pleats as numbers (StitchedNumbers) and makes pictures of parts of the cloth.
import { clothFragment, clothVertex, contactFragment, fewerFragment, lightFragment, meanFragment, mottleFragment, sheetVertex, strandFragment, strandVertex, yarnFragment } from "./shaders.js";

export const STRAND_BYTES = 76;

const PRETENDED = /swiftshader|llvmpipe|softpipe|software|basic render/i;

let card; // undefined until it is asked for, null where there is none

// The card; null where the browser has none, or it cannot hold what we draw. One that is only made believe by the processor is slower than the plain look and holds
// up the page; it is not taken, unless it is asked for, as tests do. Not every browser keeps it back when told so: then it is known by the name it gives itself.
export function theCard() {
  if (card === undefined) card = Card.open();
  return card?.lost ? null : card;
}

function nameOf(gl) {
  const telling = gl.getExtension("WEBGL_debug_renderer_info");
  return String(gl.getParameter(telling ? telling.UNMASKED_RENDERER_WEBGL : gl.RENDERER));
}

class Card {
  static open() {
    try {
      const canvas = document.createElement("canvas");
      const gl = canvas.getContext("webgl2", { alpha: true, antialias: false, depth: false, stencil: false, premultipliedAlpha: true, preserveDrawingBuffer: true, failIfMajorPerformanceCaveat: !globalThis.anyCard });
      if (gl && !globalThis.anyCard && PRETENDED.test(nameOf(gl))) { gl.getExtension("WEBGL_lose_context")?.loseContext(); return null; }
      return gl?.getExtension("EXT_color_buffer_float") || gl?.getExtension("EXT_color_buffer_half_float") ? new Card(canvas, gl) : null;
    } catch { return null; }
  }

  constructor(canvas, gl) {
    this.canvas = canvas; this.gl = gl;
    this.lost = false;
    this.pieces = new Set(); // what lies on the card now
    this.programs = new Map();
    canvas.addEventListener("webglcontextlost", (e) => { e.preventDefault(); this.lost = true; this.tell(); });
    canvas.addEventListener("webglcontextrestored", () => { this.lost = false; this.programs.clear(); this.buffers = this.yarnSheet = null; gl.getExtension("EXT_color_buffer_float"); this.tell(); });
  }

  tell() { for (const piece of [...this.pieces]) piece.cardChanged(); }

  program(numbers, name) {
    const key = name + numbers;
    let p = this.programs.get(key);
    if (p) return p;
    if (this.programs.size > 60) { for (const old of this.programs.values()) this.gl.deleteProgram(old.it); this.programs.clear(); }
    const [vertex, fragment] = {
      cloth: [clothVertex, clothFragment], strand: [strandVertex, strandFragment], contact: [strandVertex, contactFragment],
      mottle: [() => sheetVertex, mottleFragment], yarn: [() => sheetVertex, yarnFragment],
      fewer: [() => sheetVertex, fewerFragment], mean: [() => sheetVertex, meanFragment], light: [() => sheetVertex, lightFragment],
    }[name].map((make) => make(numbers));
    const gl = this.gl, it = gl.createProgram();
    for (const [kind, text] of [[gl.VERTEX_SHADER, vertex], [gl.FRAGMENT_SHADER, fragment]]) {
      const shader = gl.createShader(kind);
      gl.shaderSource(shader, text); gl.compileShader(shader); gl.attachShader(it, shader); gl.deleteShader(shader);
      if (!gl.getShaderParameter(shader, gl.COMPILE_STATUS) && !gl.isContextLost()) throw new Error(`${name}: ${gl.getShaderInfoLog(shader)}`);
    }
    gl.linkProgram(it);
    if (!gl.getProgramParameter(it, gl.LINK_STATUS) && !gl.isContextLost()) throw new Error(`${name}: ${gl.getProgramInfoLog(it)}`);
    const places = new Map();
    p = { it, place: (uniform) => { if (!places.has(uniform)) places.set(uniform, gl.getUniformLocation(it, uniform)); return places.get(uniform); } };
    this.programs.set(key, p);
    return p;
  }

  sheet(format, width, height, filter = this.gl.NEAREST) {
    const gl = this.gl, t = gl.createTexture();
    gl.bindTexture(gl.TEXTURE_2D, t);
    gl.texStorage2D(gl.TEXTURE_2D, 1, format, width, height);
    for (const side of [gl.TEXTURE_MIN_FILTER, gl.TEXTURE_MAG_FILTER]) gl.texParameteri(gl.TEXTURE_2D, side, filter);
    gl.texParameteri(gl.TEXTURE_2D, gl.TEXTURE_WRAP_T, gl.CLAMP_TO_EDGE);
    return t;
  }

  frame(...textures) {
    const gl = this.gl, f = gl.createFramebuffer();
    gl.bindFramebuffer(gl.FRAMEBUFFER, f);
    textures.forEach((t, i) => gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0 + i, gl.TEXTURE_2D, t, 0));
    gl.drawBuffers(textures.map((_, i) => gl.COLOR_ATTACHMENT0 + i));
    return f;
  }

  // Sheets of samples: relief, fibres, contact, and for means three of every few samples.
  room(width, height, every) {
    const gl = this.gl, b = this.buffers;
    if (b && b.width === width && b.height === height && b.every === every) return b;
    if (b) { for (const t of b.textures) gl.deleteTexture(t); for (const f of b.frames) gl.deleteFramebuffer(f); gl.deleteRenderbuffer(b.depth); }
    const fewWide = Math.ceil(width / every), fewHigh = Math.ceil(height / every);
    const [relief, fibre, contact] = [gl.RGBA16F, gl.RGBA8, gl.RGBA8].map((f) => this.sheet(f, width, height));
    const [few, passing, near, wider] = [0, 1, 2, 3].map(() => this.sheet(gl.R16F, fewWide, fewHigh, gl.LINEAR));
    const depth = gl.createRenderbuffer();
    gl.bindRenderbuffer(gl.RENDERBUFFER, depth);
    gl.renderbufferStorage(gl.RENDERBUFFER, gl.DEPTH_COMPONENT24, width, height);
    const toRelief = this.frame(relief, fibre);
    gl.framebufferRenderbuffer(gl.FRAMEBUFFER, gl.DEPTH_ATTACHMENT, gl.RENDERBUFFER, depth);
    const [toContact, toFew, toPassing, toNear, toWider] = [contact, few, passing, near, wider].map((t) => this.frame(t));
    return this.buffers = { width, height, every, fewWide, fewHigh, relief, fibre, contact, few, passing, near, wider, depth, toRelief, toContact, toFew, toPassing, toNear, toWider,
      textures: [relief, fibre, contact, few, passing, near, wider], frames: [toRelief, toContact, toFew, toPassing, toNear, toWider] };
  }

  // Draws a part of a piece, so many pixels wide and high; the picture then stands on the canvas. Numbers: see GraphicsNumbers.
  // Roughly is sooner: a sample a pixel where that will do.
  draw(piece, left, top, pixelsPerMm, width, height, roughly = false) {
    const gl = this.gl, n = piece.numbers;
    const sampling = Math.min(8, Math.max(roughly || pixelsPerMm > 26 ? 1 : 2, Math.ceil((roughly ? 0.6 : 1) * n.LeastSamples / pixelsPerMm)));
    const perMm = pixelsPerMm * sampling, margin = Math.ceil(n.Margin * perMm) + 1;
    const wide = width * sampling + 2 * margin, high = height * sampling + 2 * margin;
    const originX = left - margin / perMm, originY = top - margin / perMm;
    const whole = perMm * n.Finest < n.MergeBelow;
    const mottle = piece.mottle(), yarns = this.yarns(piece.text), every = Math.max(1, Math.floor(perMm / 8)), room = this.room(wide, high, every);
    if (this.canvas.width !== width || this.canvas.height !== height) { this.canvas.width = width; this.canvas.height = height; }
    const take = (name) => {
      const p = this.program(piece.text, name);
      gl.useProgram(p.it);
      gl.uniform1f(p.place("perMm"), perMm);
      gl.uniform2f(p.place("origin"), originX, originY);
      gl.uniform2f(p.place("size"), wide, high);
      return p;
    };
    gl.viewport(0, 0, wide, high);
    gl.disable(gl.CULL_FACE);
    gl.disable(gl.BLEND);

    // Cloth.
    gl.bindFramebuffer(gl.FRAMEBUFFER, room.toRelief);
    gl.disable(gl.DEPTH_TEST);
    gl.depthMask(true);
    gl.clearBufferfv(gl.COLOR, 0, [-1.5 * n.Depth, 0, 0, 1]);
    gl.clearBufferfv(gl.COLOR, 1, [0.5, 0.5, 0, 1]);
    gl.clearBufferfv(gl.DEPTH, 0, [1]);
    const cloth = take("cloth");
    gl.uniform1i(cloth.place("columns"), piece.columns);
    [mottle.forms, mottle.tones, yarns].forEach((t, i) => { gl.activeTexture(gl.TEXTURE0 + i); gl.bindTexture(gl.TEXTURE_2D, t); gl.uniform1i(cloth.place(["forms", "tones", "yarns"][i]), i); });
    gl.uniform2f(cloth.place("down"), mottle.from, 1 / (mottle.step * mottle.rows));
    gl.bindVertexArray(piece.cloth());
    const bottom = originY + high / perMm, row = n.NodeLines * n.Line;
    const first = Math.max(0, Math.floor((originY / n.Line - n.Top) / n.NodeLines)), last = Math.min(piece.rows - 2, Math.ceil((bottom - n.Top * n.Line) / row));
    if (last >= first) gl.drawElements(gl.TRIANGLES, 6 * (piece.columns - 1) * (last - first + 1), gl.UNSIGNED_INT, 4 * 6 * (piece.columns - 1) * first);

    // Strands; the highest on top.
    const seen = piece.seen(originY, bottom, whole);
    gl.enable(gl.DEPTH_TEST);
    gl.depthFunc(gl.LESS);
    const strand = take("strand");
    gl.uniform1f(strand.place("contact"), 0);
    for (const b of seen) { gl.bindVertexArray(b.array); gl.drawArraysInstanced(gl.TRIANGLE_STRIP, 0, 4, b.count); }
    gl.disable(gl.DEPTH_TEST);

    // What stitches keep from the cloth beside them.
    gl.bindFramebuffer(gl.FRAMEBUFFER, room.toContact);
    gl.clearBufferfv(gl.COLOR, 0, [1, 1, 1, 1]);
    gl.enable(gl.BLEND);
    gl.blendFunc(gl.DST_COLOR, gl.ZERO);
    const contact = take("contact");
    gl.uniform1f(contact.place("contact"), n.ContactReach);
    for (const b of seen) { gl.bindVertexArray(b.array); gl.drawArraysInstanced(gl.TRIANGLE_STRIP, 0, 4, b.count); }
    gl.disable(gl.BLEND);

    // How high it is around.
    gl.bindVertexArray(null);
    gl.activeTexture(gl.TEXTURE0);
    gl.viewport(0, 0, room.fewWide, room.fewHigh);
    const fewer = take("fewer");
    gl.uniform1i(fewer.place("heights"), 0);
    gl.uniform1i(fewer.place("every"), every);
    gl.bindFramebuffer(gl.FRAMEBUFFER, room.toFew);
    gl.bindTexture(gl.TEXTURE_2D, room.relief);
    gl.drawArrays(gl.TRIANGLES, 0, 3);
    const mean = take("mean");
    gl.uniform1i(mean.place("heights"), 0);
    const over = (from, frame, x, y, radius) => {
      gl.bindFramebuffer(gl.FRAMEBUFFER, frame);
      gl.bindTexture(gl.TEXTURE_2D, from);
      gl.uniform2i(mean.place("way"), x, y);
      gl.uniform1i(mean.place("radius"), radius);
      gl.drawArrays(gl.TRIANGLES, 0, 3);
    };
    const close = Math.max(1, Math.round(n.NearReach * perMm / every)), about = Math.max(1, Math.round(n.WiderReach * Math.min(n.Pitch, n.WidestPitch) * perMm / every));
    over(room.few, room.toPassing, 1, 0, close);
    over(room.passing, room.toNear, 0, 1, close);
    over(room.near, room.toPassing, 1, 0, about);
    over(room.passing, room.toWider, 0, 1, about);

    // Light.
    gl.bindFramebuffer(gl.FRAMEBUFFER, null);
    gl.viewport(0, 0, width, height);
    const light = take("light");
    ["reliefs", "fibres", "contacts", "nears", "widers", "palette"].forEach((name, i) => {
      gl.activeTexture(gl.TEXTURE0 + i);
      gl.bindTexture(gl.TEXTURE_2D, [room.relief, room.fibre, room.contact, room.near, room.wider, piece.palette()][i]);
      gl.uniform1i(light.place(name), i);
    });
    gl.uniform1i(light.place("sampling"), sampling);
    gl.uniform1i(light.place("margin"), margin);
    gl.uniform1i(light.place("high"), height);
    gl.uniform2f(light.place("fewer"), 1 / (room.fewWide * every), 1 / (room.fewHigh * every));
    gl.drawArrays(gl.TRIANGLES, 0, 3);
    return this.canvas;
  }

  // Chance for the yarns of every cloth.
  yarns(numbers) {
    if (this.yarnSheet) return this.yarnSheet;
    const gl = this.gl, p = this.program(numbers, "yarn");
    this.yarnSheet = this.sheet(gl.RGBA8, 256, 256);
    const frame = this.frame(this.yarnSheet);
    gl.useProgram(p.it);
    gl.viewport(0, 0, 256, 256);
    gl.bindVertexArray(null);
    gl.disable(gl.DEPTH_TEST);
    gl.disable(gl.BLEND);
    gl.drawArrays(gl.TRIANGLES, 0, 3);
    gl.deleteFramebuffer(frame);
    return this.yarnSheet;
  }
}

// A stitched piece as it lies on the card, sent again when the card was lost.
export class OnCard {
  constructor(card, changed) {
    this.card = card; this.changed = changed;
    this.blocks = new Map(); // by number: { near, far }, each with its bytes and, once drawn, its buffer
    card.pieces.add(this);
  }

  cardChanged() {
    this.clothArray = this.colours = this.forms = null;
    for (const block of this.blocks.values()) for (const side of ["near", "far"]) if (block[side]) block[side].array = block[side].buffer = null;
    this.changed();
  }

  close() { this.card.pieces.delete(this); this.begin(this.text ?? "", []); this.letClothGo(); }

  // Another cloth, or other threads: nothing of what was holds.
  begin(text, colours) {
    for (const key of [...this.blocks.keys()]) this.takeAway(key);
    this.text = text;
    this.numbers = Object.fromEntries([...text.matchAll(/const float (\w+) = ([-\d.e]+);/g)].map(([, name, value]) => [name, parseFloat(value)]));
    this.threads = colours;
    if (!this.card.lost) for (const t of [this.colours, this.forms?.forms, this.forms?.tones]) if (t) this.card.gl.deleteTexture(t);
    this.colours = this.forms = null;
  }

  letClothGo() {
    const gl = this.card.gl;
    if (this.clothArray && !this.card.lost) { gl.deleteVertexArray(this.clothArray); gl.deleteBuffer(this.clothBuffer); gl.deleteBuffer(this.clothIndex); }
    this.clothArray = null;
  }

  // Of cloth that lies on the card already only what moved is sent again.
  setNodes(columns, nodes) {
    const was = this.nodes, gl = this.card.gl;
    const lies = this.clothArray && !this.card.lost && this.columns === columns && was.length === nodes.length;
    this.columns = columns; this.nodes = nodes; this.rows = nodes.length / 3 / columns;
    if (!lies) { this.letClothGo(); return; }
    let first = 0, last = nodes.length;
    while (first < last && was[first] === nodes[first]) first++;
    while (last > first && was[last - 1] === nodes[last - 1]) last--;
    if (first === last) return;
    gl.bindBuffer(gl.ARRAY_BUFFER, this.clothBuffer);
    gl.bufferSubData(gl.ARRAY_BUFFER, 4 * first, nodes, first, last - first);
  }

  cloth() {
    if (this.clothArray) return this.clothArray;
    const gl = this.card.gl, c = this.columns, index = new Uint32Array(6 * (c - 1) * (this.rows - 1));
    for (let row = 0, at = 0; row < this.rows - 1; row++)
      for (let k = 0; k < c - 1; k++) {
        const i = row * c + k;
        index[at++] = i; index[at++] = i + 1; index[at++] = i + c;
        index[at++] = i + 1; index[at++] = i + c + 1; index[at++] = i + c;
      }
    this.clothArray = gl.createVertexArray();
    gl.bindVertexArray(this.clothArray);
    this.clothBuffer = gl.createBuffer();
    gl.bindBuffer(gl.ARRAY_BUFFER, this.clothBuffer);
    gl.bufferData(gl.ARRAY_BUFFER, this.nodes, gl.STATIC_DRAW);
    gl.enableVertexAttribArray(0);
    gl.vertexAttribPointer(0, 3, gl.FLOAT, false, 12, 0);
    this.clothIndex = gl.createBuffer();
    gl.bindBuffer(gl.ELEMENT_ARRAY_BUFFER, this.clothIndex);
    gl.bufferData(gl.ELEMENT_ARRAY_BUFFER, index, gl.STATIC_DRAW);
    return this.clothArray;
  }

  // What makes no two pleats alike.
  mottle() {
    if (this.forms) return this.forms;
    const card = this.card, gl = card.gl, n = this.numbers, from = n.Top * n.Line, long = (this.rows - 1) * n.NodeLines * n.Line;
    const rows = Math.min(4096, Math.max(1, Math.ceil(long / 0.15))), step = long / rows, wide = Math.min(4096, this.columns);
    const forms = card.sheet(gl.RGBA16F, wide, rows, gl.LINEAR), tones = card.sheet(gl.RGBA8, wide, rows, gl.LINEAR), frame = card.frame(forms, tones), p = card.program(this.text, "mottle");
    gl.useProgram(p.it);
    gl.uniform1f(p.place("step"), step);
    gl.uniform1f(p.place("from"), from);
    gl.viewport(0, 0, wide, rows);
    gl.bindVertexArray(null);
    gl.disable(gl.DEPTH_TEST);
    gl.disable(gl.BLEND);
    gl.drawArrays(gl.TRIANGLES, 0, 3);
    gl.deleteFramebuffer(frame);
    return this.forms = { forms, tones, from, step, rows };
  }

  palette() {
    if (this.colours) return this.colours;
    const gl = this.card.gl, bytes = new Uint8Array(256 * 4);
    this.threads.slice(0, 256).forEach((hex, i) => bytes.set([1, 3, 5].map((at) => parseInt(hex.slice(at, at + 2), 16)).concat(255), 4 * i));
    this.colours = gl.createTexture();
    gl.bindTexture(gl.TEXTURE_2D, this.colours);
    gl.texImage2D(gl.TEXTURE_2D, 0, gl.SRGB8_ALPHA8, 256, 1, 0, gl.RGBA, gl.UNSIGNED_BYTE, bytes);
    for (const side of [gl.TEXTURE_MIN_FILTER, gl.TEXTURE_MAG_FILTER]) gl.texParameteri(gl.TEXTURE_2D, side, gl.NEAREST);
    return this.colours;
  }

  // The millimetres between which what was put there lies, or lay.
  put(key, whole, bytes) {
    const numbers = new Float32Array(bytes.buffer, bytes.byteOffset, bytes.byteLength / 4), block = this.blocks.get(key) ?? {};
    let top = Infinity, bottom = -Infinity;
    for (let i = 0; i < numbers.length; i += STRAND_BYTES / 4) {
      const reach = Math.abs(numbers[i + 3]) + Math.abs(numbers[i + 5]) * (Math.abs(numbers[i + 6]) + Math.abs(numbers[i + 7]) + Math.abs(numbers[i + 8]) + numbers[i + 9] + this.numbers.ContactReach);
      top = Math.min(top, numbers[i + 1] - reach); bottom = Math.max(bottom, numbers[i + 1] + reach);
    }
    const side = whole ? "far" : "near", old = block[side];
    this.free(old);
    block[side] = { bytes, count: bytes.byteLength / STRAND_BYTES, top, bottom };
    this.blocks.set(key, block);
    return [Math.min(top, old?.top ?? top), Math.max(bottom, old?.bottom ?? bottom)];
  }

  takeAway(key) {
    const block = this.blocks.get(key);
    this.blocks.delete(key);
    if (!block) return null;
    const sides = [block.near, block.far].filter((s) => s);
    sides.forEach((s) => this.free(s));
    return [Math.min(...sides.map((s) => s.top)), Math.max(...sides.map((s) => s.bottom))];
  }

  free(side) {
    if (side?.array && !this.card.lost) { this.card.gl.deleteVertexArray(side.array); this.card.gl.deleteBuffer(side.buffer); }
  }

  // Blocks that may be seen between two heights; from afar strands are one, and so they are until they are known one by one.
  seen(top, bottom, whole) {
    const seen = [];
    for (const key of [...this.blocks.keys()].sort((a, b) => a - b)) {
      const block = this.blocks.get(key), side = (whole ? block.far : block.near) ?? block.far ?? block.near;
      if (side.count === 0 || side.bottom < top || side.top > bottom) continue;
      if (!side.array) this.send(side);
      seen.push(side);
    }
    return seen;
  }

  send(side) {
    const gl = this.card.gl;
    side.array = gl.createVertexArray();
    gl.bindVertexArray(side.array);
    side.buffer = gl.createBuffer();
    gl.bindBuffer(gl.ARRAY_BUFFER, side.buffer);
    gl.bufferData(gl.ARRAY_BUFFER, side.bytes, gl.STATIC_DRAW);
    [[4, 0], [4, 16], [4, 32], [4, 48], [2, 64], [1, 72]].forEach(([count, at], i) => {
      gl.enableVertexAttribArray(i);
      gl.vertexAttribPointer(i, count, i === 5 ? gl.INT : gl.FLOAT, false, STRAND_BYTES, at);
      gl.vertexAttribDivisor(i, 1);
    });
  }
}
