// The graphics card: one for the page, whoever draws with it. It knows strands and pleats as numbers (StitchedNumbers) and makes pictures of parts of the cloth.
import { clothFragment, clothVertex, contactFragment, lightFragment, meanFragment, sheetVertex, strandFragment, strandVertex } from "./shaders.js";

export const STRAND_BYTES = 76;

let card; // undefined until it is asked for, null where there is none

// The card; null where the browser has none, or it cannot hold what we draw.
export function theCard() {
  if (card === undefined) card = Card.open();
  return card?.lost ? null : card;
}

class Card {
  static open() {
    try {
      const canvas = document.createElement("canvas");
      const gl = canvas.getContext("webgl2", { alpha: true, antialias: false, depth: false, stencil: false, premultipliedAlpha: true, preserveDrawingBuffer: true });
      return gl?.getExtension("EXT_color_buffer_float") || gl?.getExtension("EXT_color_buffer_half_float") ? new Card(canvas, gl) : null;
    } catch { return null; }
  }

  constructor(canvas, gl) {
    this.canvas = canvas; this.gl = gl;
    this.lost = false;
    this.pieces = new Set(); // what lies on the card now
    this.programs = new Map();
    canvas.addEventListener("webglcontextlost", (e) => { e.preventDefault(); this.lost = true; this.tell(); });
    canvas.addEventListener("webglcontextrestored", () => { this.lost = false; this.programs.clear(); this.buffers = null; gl.getExtension("EXT_color_buffer_float"); this.tell(); });
  }

  tell() { for (const piece of [...this.pieces]) piece.cardChanged(); }

  program(numbers, name) {
    const key = name + numbers;
    let p = this.programs.get(key);
    if (p) return p;
    if (this.programs.size > 60) { for (const old of this.programs.values()) this.gl.deleteProgram(old.it); this.programs.clear(); }
    const [vertex, fragment] = {
      cloth: [clothVertex, clothFragment], strand: [strandVertex, strandFragment], contact: [strandVertex, contactFragment],
      mean: [() => sheetVertex, meanFragment], light: [() => sheetVertex, lightFragment],
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

  // Sheets of samples: relief, fibres, contact, and three for means.
  room(width, height) {
    const gl = this.gl, b = this.buffers;
    if (b && b.width === width && b.height === height) return b;
    if (b) { for (const t of b.textures) gl.deleteTexture(t); for (const f of b.frames) gl.deleteFramebuffer(f); gl.deleteRenderbuffer(b.depth); }
    const sheet = (format) => {
      const t = gl.createTexture();
      gl.bindTexture(gl.TEXTURE_2D, t);
      gl.texStorage2D(gl.TEXTURE_2D, 1, format, width, height);
      for (const side of [gl.TEXTURE_MIN_FILTER, gl.TEXTURE_MAG_FILTER]) gl.texParameteri(gl.TEXTURE_2D, side, gl.NEAREST);
      return t;
    };
    const [relief, fibre, contact, passing, near, wider] = [gl.RGBA16F, gl.RGBA8, gl.RGBA8, gl.R16F, gl.R16F, gl.R16F].map(sheet);
    const depth = gl.createRenderbuffer();
    gl.bindRenderbuffer(gl.RENDERBUFFER, depth);
    gl.renderbufferStorage(gl.RENDERBUFFER, gl.DEPTH_COMPONENT24, width, height);
    const frame = (...textures) => {
      const f = gl.createFramebuffer();
      gl.bindFramebuffer(gl.FRAMEBUFFER, f);
      textures.forEach((t, i) => gl.framebufferTexture2D(gl.FRAMEBUFFER, gl.COLOR_ATTACHMENT0 + i, gl.TEXTURE_2D, t, 0));
      gl.drawBuffers(textures.map((_, i) => gl.COLOR_ATTACHMENT0 + i));
      return f;
    };
    const toRelief = frame(relief, fibre);
    gl.framebufferRenderbuffer(gl.FRAMEBUFFER, gl.DEPTH_ATTACHMENT, gl.RENDERBUFFER, depth);
    const toContact = frame(contact), toPassing = frame(passing), toNear = frame(near), toWider = frame(wider);
    return this.buffers = { width, height, relief, fibre, contact, passing, near, wider, depth, toRelief, toContact, toPassing, toNear, toWider,
      textures: [relief, fibre, contact, passing, near, wider], frames: [toRelief, toContact, toPassing, toNear, toWider] };
  }

  // Draws a part of a piece, so many pixels wide and high; the picture then stands on the canvas. Numbers: see GraphicsNumbers.
  draw(piece, left, top, pixelsPerMm, width, height) {
    const gl = this.gl, n = piece.numbers;
    const sampling = Math.min(8, Math.max(pixelsPerMm > 26 ? 1 : 2, Math.ceil(n.LeastSamples / pixelsPerMm)));
    const perMm = pixelsPerMm * sampling, margin = Math.ceil(n.Margin * perMm) + 1;
    const wide = width * sampling + 2 * margin, high = height * sampling + 2 * margin;
    const originX = left - margin / perMm, originY = top - margin / perMm;
    const whole = perMm * n.Finest < n.StrandsMerge;
    const room = this.room(wide, high);
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
    const mean = take("mean");
    gl.uniform1i(mean.place("heights"), 0);
    gl.activeTexture(gl.TEXTURE0);
    const over = (from, frame, x, y, radius) => {
      gl.bindFramebuffer(gl.FRAMEBUFFER, frame);
      gl.bindTexture(gl.TEXTURE_2D, from);
      gl.uniform2i(mean.place("way"), x, y);
      gl.uniform1i(mean.place("radius"), radius);
      gl.drawArrays(gl.TRIANGLES, 0, 3);
    };
    const close = Math.max(1, Math.round(0.2 * perMm)), about = Math.max(1, Math.round(0.27 * Math.min(n.Pitch, 4) * perMm));
    over(room.relief, room.toPassing, 1, 0, close);
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
    gl.drawArrays(gl.TRIANGLES, 0, 3);
    return this.canvas;
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
    this.clothArray = this.colours = null;
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
    if (this.colours && !this.card.lost) this.card.gl.deleteTexture(this.colours);
    this.colours = null;
  }

  letClothGo() {
    const gl = this.card.gl;
    if (this.clothArray && !this.card.lost) { gl.deleteVertexArray(this.clothArray); gl.deleteBuffer(this.clothBuffer); gl.deleteBuffer(this.clothIndex); }
    this.clothArray = null;
  }

  setNodes(columns, nodes) {
    this.columns = columns; this.nodes = nodes; this.rows = nodes.length / 3 / columns;
    this.letClothGo();
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
