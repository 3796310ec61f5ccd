// Paints pleated cloth on canvas. It knows millimetres and pixels and nothing of the craft: every cell comes packed in
// two bytes (thread + 1 or 0, marks), every row with its own pitch. What is painted how is in the folder painting.
import { backRow } from "./painting/back.js";
import { chartRow, latticeRow } from "./painting/chart.js";
import { paintBareGathering, paintCloth } from "./painting/cloth.js";
import { luminance, mix, overInk } from "./painting/colour.js";
import { Lit } from "./painting/lit.js";
import { BACK, CHART, STITCHED } from "./painting/looks.js";
import { ClothMap } from "./painting/map.js";
import { paintMargin } from "./painting/margin.js";
import { paintArea, paintCursor, paintGrip, paintHandle, paintImage, paintLoupe, paintMirror, paintRing } from "./painting/over.js";
import { Paper } from "./painting/paper.js";
import { Place } from "./painting/place.js";
import { paintLegs } from "./painting/route.js";
import { paintShapes } from "./painting/shapes.js";
import { stitchRow } from "./painting/stitched.js";

const painters = new Map();
let nextHandle = 1;

export const painterOf = (handle) => painters.get(handle);

class Painter extends Place {
  constructor(host, margin) {
    super(margin);
    this.host = host;
    this.paper = new Paper(host);
    this.threads = [];
    this.done = null;
    this.rings = new Int32Array(0);
    this.ringChosen = -1;
    this.route = null;
    this.back = null;
    this.under = new Float64Array(0);
    this.above = new Float64Array(0);
    this.cursor = null;
    this.area = null;
    this.loupe = null;
    this.handles = { places: [], words: [], beside: 0 };
    this.mirror = null; // the valley drawn about, and the one opposite the hand or 0
    this.observer = new ResizeObserver(() => this.resize());
    this.observer.observe(host);
    this.scheme = matchMedia("(prefers-color-scheme: dark)");
    this.onScheme = () => this.refresh();
    this.scheme.addEventListener("change", this.onScheme);
    this.map = null;
    this.lit = null; // where the graphics card draws the stitched look
    this.resize();
    document.fonts?.ready.then(() => { this.paper.forget(); this.refresh(); }); // letters in the page's own font
  }

  close() {
    this.map?.close();
    this.lit?.close();
    this.observer.disconnect();
    this.scheme.removeEventListener("change", this.onScheme);
  }

  refresh() { this.readTokens(); this.paint(); }

  readTokens() {
    const style = getComputedStyle(this.host);
    const token = (name) => style.getPropertyValue(name).trim();
    this.tokens = { ink: token("--ink"), muted: token("--ink-soft"), accent: token("--accent"), font: style.fontFamily };
  }

  resize() {
    const box = this.host.getBoundingClientRect();
    const dpr = window.devicePixelRatio || 1;
    const width = Math.max(1, Math.round(box.width)), height = Math.max(1, Math.round(box.height));
    const style = getComputedStyle(this.host), px = (side) => parseFloat(style[`padding${side}`]) || 0;
    const inset = { left: px("Left"), top: px("Top"), right: px("Right"), bottom: px("Bottom") };
    const covered = ["left", "top", "right", "bottom"].some((side) => inset[side] !== this.inset[side]);
    if (width === this.width && height === this.height && dpr === this.paper.dpr && !covered) return;
    this.inset = inset;
    const dx = (width - this.width) / 2, dy = (height - this.height) / 2;
    this.width = width; this.height = height;
    this.paper.size(width, height, dpr);
    if (this.userView) { this.ox += dx; this.oy += dy; this.keepInSight(); } else this.fit();
    this.refresh();
  }

  // The edges, and a drawer or a form where one lies open: a sheet from below, or beside.
  covered() {
    const c = { ...this.inset }, box = this.host.getBoundingClientRect();
    if (!this.host.closest(".table")) return c;
    for (const over of document.querySelectorAll(".drawer:not([hidden]), .docked[open]")) {
      const b = over.getBoundingClientRect();
      if (b.width > box.width * 0.8) c.bottom = Math.max(c.bottom, box.bottom - b.top);
      else if (b.left - box.left > box.right - b.right) c.right = Math.max(c.right, box.right - b.left);
      else c.left = Math.max(c.left, b.right - box.left);
    }
    return c;
  }

  setCells(fresh) {
    const c = this.cloth;
    const old = this.cells;
    this.cells = fresh;
    this.map?.paintSoon();
    if (old.length !== fresh.length || !this.scale) { this.paint(); return; }
    if (this.isLit) { this.paintSoon(); return; }
    // Only the rows and valleys that changed are painted again.
    let changed = 0;
    const patches = [];
    for (let row = 0, at = 0; row < c.rows; row++) {
      let from = 0, to = -1;
      for (let v = 1; v <= c.valleys; v++, at += 2) {
        if (old[at] === fresh[at] && old[at + 1] === fresh[at + 1]) continue;
        if (to < 0) from = v;
        to = v;
        changed++;
      }
      if (to < 0) continue;
      const last = patches[patches.length - 1];
      if (last && last.bottom === row - 1 && Math.abs(last.from - from) < 12 && Math.abs(last.to - to) < 12) {
        last.bottom = row; last.from = Math.min(last.from, from); last.to = Math.max(last.to, to);
      } else patches.push({ top: row, bottom: row, from, to });
    }
    if (patches.length === 0) return;
    if (patches.length > 60 || changed > c.valleys * c.rows / 3) { this.paint(); return; }
    for (const p of patches) this.paintPatch(p);
  }

  paintSoon() {
    if (this.frame) return;
    this.frame = requestAnimationFrame(() => { this.frame = 0; this.paint(); });
  }

  paint() {
    const g = this.paper.ctx;
    this.paper.clean(g, this.width, this.height);
    if (!this.cloth || !this.scale || this.cells.length === 0) return;
    if (this.isLit) this.paintLit();
    else this.paintPlain();
    paintMargin(this);
    this.paintOver();
    this.map?.frame();
  }

  // Whether the graphics card draws the look there is.
  get isLit() { return this.look === STITCHED && this.lit !== null && this.lit.shows; }

  paintLit(all = false) {
    try {
      if (all) this.lit.paintAll();
      else this.lit.paint(() => this.paintPlain());
      paintBareGathering(this);
    } catch (e) {
      // A card that cannot do what it promised: the plain look serves.
      console.warn(e);
      this.lit.close();
      this.lit = null;
      this.paper.clean(this.paper.ctx, this.width, this.height);
      this.paintPlain();
    }
  }

  paintPlain() {
    const g = this.paper.ctx;
    paintCloth(this);
    this.paintLattice(0, this.cloth.rows - 1, 1, this.cloth.valleys);
    paintShapes(this, this.under);
    this.paintRows(0, this.cloth.rows - 1, 1, this.cloth.valleys);
    paintShapes(this, this.above);
    if (this.look === BACK && this.back) paintLegs(this, g, this.back);
  }

  paintPatch({ top, bottom, from, to }) {
    const g = this.paper.ctx, bleed = Math.max(2, this.cloth.line * this.scale * 0.4);
    const xs = [this.x(from - 1, top), this.x(to + 1, top), this.x(from - 1, bottom), this.x(to + 1, bottom)];
    const left = Math.min(...xs) - bleed, right = Math.max(...xs) + bleed;
    const y0 = this.y(top * 2) - bleed, y1 = this.y(bottom * 2 + 2) + bleed;
    if (right < 0 || left > this.width || y1 < 0 || y0 > this.height) return;
    g.setTransform(this.paper.dpr, 0, 0, this.paper.dpr, 0, 0);
    g.save();
    g.beginPath();
    g.rect(left, y0, right - left, y1 - y0);
    g.clip();
    paintCloth(this, left, right);
    const around = [Math.max(0, top - 1), Math.min(this.cloth.rows - 1, bottom + 1), Math.max(1, from - 3), Math.min(this.cloth.valleys, to + 3)];
    this.paintLattice(...around);
    paintShapes(this, this.under);
    this.paintRows(...around);
    paintShapes(this, this.above);
    if (this.look === BACK && this.back) paintLegs(this, g, this.back);
    g.restore();
  }

  // The bare bricks of the chart, where they are large enough to see; bands lie over them.
  paintLattice(top, bottom, from, to) {
    if (this.look === CHART && this.cloth.line * this.scale >= 5) this.paintRows(top, bottom, from, to, true);
  }

  paintRows(top, bottom, from, to, bare = false) {
    const c = this.cloth;
    top = Math.max(top, Math.floor((0 - this.oy) / (2 * c.line * this.scale)) - 1);
    bottom = Math.min(bottom, Math.ceil((this.height - this.oy) / (2 * c.line * this.scale)) + 1);
    for (let row = top; row <= bottom; row++) {
      const w = this.pitch(row) * this.scale;
      if (!(w > 0)) continue;
      const reach = (px) => (this.look === BACK ? -1 : 1) * (px - this.ox) / w + c.centre;
      const seen = [reach(0), reach(this.width)].sort((a, b) => a - b);
      const v0 = Math.max(from, Math.floor(seen[0]) - 1), v1 = Math.min(to, Math.ceil(seen[1]) + 1);
      if (bare) latticeRow(this, row, v0, v1, w);
      else if (this.look === STITCHED) stitchRow(this, row, v0, v1, w);
      else if (this.look === BACK) backRow(this, row, v0, v1, w);
      else chartRow(this, row, v0, v1, w);
    }
  }

  faint(v, row) { return this.done !== null && !this.done[row * this.cloth.valleys + v - 1]; }

  paintOver() {
    const g = this.paper.ink;
    this.paper.clean(g, this.width, this.height);
    if (!this.cloth || !this.scale) return;
    if (this.route) paintLegs(this, g, this.route);
    for (let i = 0; i < this.rings.length; i += 5) paintRing(this, g, i);
    if (this.mirror) paintMirror(this, g, this.mirror[0]);
    if (this.area) paintArea(this, g, this.area);
    if (this.mirror && this.cursor) paintImage(this, g, this.mirror[1], this.cursor[1]);
    if (this.cursor) paintCursor(this, g, ...this.cursor);
    this.handles.words.forEach((words, i) => (this.handles.places[i * 3 + 2] ? paintGrip : paintHandle)(this, g, this.handles.places[i * 3], this.handles.places[i * 3 + 1], words, this.handles.beside));
    if (this.loupe) paintLoupe(this, g, this.loupe);
  }
}

// ---- The door -------------------------------------------------------------------------------------------------------

export function open(id, margin) {
  const host = document.getElementById(id);
  if (!host) return 0;
  const handle = nextHandle++;
  painters.set(handle, new Painter(host, margin));
  return handle;
}

export function close(handle) { painters.get(handle)?.close(); painters.delete(handle); }

export function setCloth(handle, pleats, rows, perSpace, gatheringRows, above, below, lineMm, colour, pitch) {
  const p = painters.get(handle);
  const dark = luminance(colour) < 0.2;
  const pitches = pitch.slice();
  const before = p.cloth;
  p.cloth = {
    pleats, valleys: pleats - 1, centre: pleats / 2, rows, perSpace, gatheringRows, above, below, line: lineMm, colour,
    pitch: pitches, even: pitches.every((x) => x === pitches[0]),
    rule: mix(colour, dark ? "#ffffff" : "#3b2d1a", 0.16), edge: mix(colour, dark ? "#ffffff" : "#3b2d1a", 0.45),
    shade: mix(colour, "#000000", 0.3),
    gatherInk: mix(colour, dark ? "#cfe3f5" : "#1d3d5c", 0.62), holdingInk: mix(colour, dark ? "#ffffff" : "#3b2d1a", 0.3),
    centreInk: mix(colour, dark ? "#ffd9a8" : "#7a3b00", 0.75),
  };
  p.cells = new Uint8Array(0);
  p.done = null;
  p.paper.forget();
  const same = before && before.pleats === pleats && before.rows === rows && before.line === lineMm && before.pitch[0] === pitches[0];
  if (!same && !(before && p.userView)) p.fit(); else if (!p.scale) p.fit();
}

export function setThreads(handle, colours, letters, strands, covers) {
  const p = painters.get(handle), s = strands.slice(), c = covers.slice();
  p.threads = colours === "" ? [] : colours.split(" ").map((colour, i) =>
    ({ colour, letter: letters[i], strands: s[i], cover: c[i], over: overInk(colour) }));
}

export function setCells(handle, cells) { painters.get(handle).setCells(cells.slice()); }
export function setDone(handle, done) { const p = painters.get(handle); p.done = done.length === 0 ? null : done.slice(); p.paint(); }
export function setLook(handle, look) { const p = painters.get(handle); if (p.look !== look) { p.look = look; p.paint(); p.map?.paintSoon(); } }
export function setCursor(handle, valley, row) { const p = painters.get(handle); p.cursor = valley > 0 ? [valley, row] : null; p.paintOver(); }
export function setMirror(handle, axis, image) { const p = painters.get(handle); p.mirror = axis > 0 ? [axis, image] : null; p.paintOver(); }
export function setHandles(handle, places, words, beside) { const p = painters.get(handle); p.handles = { places, words, beside }; p.paintOver(); }
export function setLoupe(handle, x, y, left, top, width, height, nearer, words) {
  const p = painters.get(handle);
  if (!p) return;
  p.loupe = width > 0 ? { x, y, left, top, width, height, nearer, words } : null;
  p.paintOver();
}
export function free(handle) { const p = painters.get(handle); if (!p) return []; const c = p.covered(); return [c.left, c.top, p.width - c.right, p.height - c.bottom]; }
export function setArea(handle, from, to, top, bottom) { const p = painters.get(handle); p.area = from > 0 ? [from, to, top, bottom] : null; p.paintOver(); }
export function setRings(handle, rings, chosen) { const p = painters.get(handle); p.rings = rings.slice(); p.ringChosen = chosen; p.paintOver(); }
export function setBack(handle, legs) { const p = painters.get(handle); p.back = legs.length === 0 ? null : legs.slice(); if (p.look === BACK) p.paint(); }
// The stitched look by the graphics card: whether there is one, then pleats and strands as StitchedNumbers has them.
export function light(handle, picture) { const p = painters.get(handle); p.lit ??= new Lit(p, picture); if (!p.lit.can) p.lit = null; return p.lit !== null; }
export function lightBegins(handle, text, colours) { painters.get(handle)?.lit?.begin(text, colours); }
export function lightNodes(handle, columns, nodes, top, bottom) { painters.get(handle)?.lit?.setNodes(columns, new Float32Array(nodes.slice().buffer), top, bottom); }
export function lightBlock(handle, key, whole, strands) { painters.get(handle)?.lit?.put(key, whole, strands.slice()); }
export function lightBlockGone(handle, key) { painters.get(handle)?.lit?.put(key, false, null); }
// Comes with the next frame that is shown; a page out of sight shows none, and goes on at once.
export function nextFrame() { return new Promise((come) => { if (document.hidden) queueMicrotask(come); else requestAnimationFrame(() => come()); }); }
export function lightIsWhole(handle) { const p = painters.get(handle); if (p?.lit) { p.lit.lacks = false; p.paintSoon(); } }
export function setShapes(handle, under, over) { const p = painters.get(handle); p.under = under.slice(); p.above = over.slice(); p.cells = new Uint8Array(0); }
export function setRoute(handle, legs) { const p = painters.get(handle); p.route = legs.length === 0 ? null : legs.slice(); p.paintOver(); }
export function zoom(handle, factor) { const p = painters.get(handle); p.zoom(factor, p.midX, p.midY); }
export function fit(handle) { const p = painters.get(handle); p.fit(); p.paint(); }
export function openAt(handle, valley, row, underFinger, underMouse) {
  const p = painters.get(handle);
  p.openAt(valley, row, matchMedia("(pointer: coarse)").matches ? underFinger : underMouse);
  p.paint();
}
export function showMap(handle, id, across, down) {
  const p = painters.get(handle), host = document.getElementById(id);
  p.map?.close();
  p.map = host ? new ClothMap(p, host, across, down) : null;
}
export function reveal(handle, valley, row, force) { painters.get(handle).reveal(valley, row, force); }
export function picture(handle) { const p = painters.get(handle); if (p.isLit) { p.paper.clean(p.paper.ctx, p.width, p.height); p.paintLit(true); } return painters.get(handle).paper.base.toDataURL("image/webp", 0.86); }
export function refreshAll() { for (const p of painters.values()) p.refresh(); }
