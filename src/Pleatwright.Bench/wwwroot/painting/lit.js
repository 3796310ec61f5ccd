// The stitched look as the graphics card draws it. Parts of it are kept as they were drawn, so that moving the cloth lays down what is there; what came into sight is drawn
// as a frame has time for it, and till then the plain look, or the last one at another nearness, stands there.
import { OnCard, theCard } from "./card.js";

const SIDE = 384;          // pixels of the screen along a part
const FRAME = 9;           // milliseconds of a frame for drawing
const REST = 140;          // milliseconds after which the hand is said to rest
const MOST_PARTS = 120;
const SLOW = 25;           // milliseconds a part takes where it is drawn roughly first

export class Lit {
  constructor(view, picture) {
    this.view = view;
    this.picture = picture;    // drawn when it is asked for, and whole
    this.sheet = this.before = null;
    this.moved = 0; this.cost = 0; this.place = "";
    const card = theCard();
    this.on = card ? new OnCard(card, () => { this.forget(); view.paintSoon(); }) : null;
  }

  close() { this.on?.close(); this.on = null; clearTimeout(this.soon); }

  // Whether the card can draw what is to be seen.
  get can() { return this.on !== null && !this.on.card.lost; }

  get shows() { return this.can && this.on.nodes !== undefined && this.view.done === null; }

  get isWhole() { return this.whole === true; }

  forget() { this.sheet = this.before = null; this.whole = false; }

  begin(text, colours) { this.on?.begin(text, colours); if (this.on) this.on.nodes = undefined; this.forget(); }

  setNodes(columns, nodes, top, bottom) {
    this.on?.setNodes(columns, nodes);
    this.touch(top * this.on.numbers.Line, bottom * this.on.numbers.Line);
  }

  put(key, whole, bytes) {
    if (!this.on) return;
    if (whole) this.lacks = true; // its strands one by one are still to come
    const reach = bytes === null ? this.on.takeAway(key) : this.on.put(key, whole, bytes);
    if (reach) this.touch(...reach);
  }

  // What lies between two heights, and what its shadows reach, is to be drawn again.
  touch(top, bottom) {
    const margin = this.on.numbers.Margin;
    this.before = null;
    this.whole = false;
    if (this.sheet) for (const part of this.sheet.parts.values())
      if (part.top <= bottom + margin && part.bottom >= top - margin) part.stale = true;
    this.view.paintSoon();
  }

  // Paints all that is to be seen at once.
  paintAll() {
    const view = this.view, g = view.paper.ctx, dpr = view.paper.dpr, s = view.scale * dpr, width = view.paper.base.width, height = view.paper.base.height;
    const e = view.extent(), top = view.oy + e.top * view.scale;
    g.save();
    g.beginPath();
    g.rect(0, top, view.width, (e.bottom - e.top) * view.scale);
    g.clip();
    g.drawImage(this.on.card.draw(this.on, -view.ox * dpr / s, -view.oy * dpr / s, s, width, height), 0, 0, view.width, view.height);
    g.restore();
  }

  // Paints what is to be seen; "plain" paints what stands where nothing is drawn yet.
  paint(plain) {
    if (this.picture) { plain(); return; }
    const view = this.view, g = view.paper.ctx, dpr = view.paper.dpr, s = view.scale * dpr;
    const place = `${view.ox} ${view.oy} ${view.scale}`, now = performance.now();
    if (place !== this.place) { this.place = place; this.moved = now; }
    if (!this.sheet || this.sheet.scale !== s) {
      if (this.sheet?.parts.size) this.before = this.sheet;
      this.sheet = { scale: s, parts: new Map() };
    }
    const ox = Math.round(view.ox * dpr), oy = Math.round(view.oy * dpr), e = view.extent();
    const left = Math.max(-ox, -(e.halfWidth + 4) * s), right = Math.min(view.width * dpr - ox, (e.halfWidth + 4) * s);
    const top = Math.max(-oy, e.top * s), bottom = Math.min(view.height * dpr - oy, e.bottom * s);
    const wanted = this.wanted(left, top, right, bottom);
    let drawn = 0;
    const moving = now - this.moved < REST;
    // Where the card is slow, or not known yet, nothing is drawn until all is laid, and all of it roughly before any of it well.
    const slow = this.cost === 0 || this.cost > SLOW;
    const turns = !slow ? [(w) => !w.part || w.part.stale || w.part.rough] : this.lacks ? [] : [(w) => !w.part || w.part.stale, (w) => w.part?.rough];
    const todo = turns.map((due) => wanted.filter(due)).find((list) => list.length > 0) ?? [];
    for (const w of todo) {
      if (moving && this.cost > FRAME || drawn > 0 && performance.now() - now > FRAME) break;
      w.part = this.draw(w, s, slow && (!w.part || w.part.stale));
      drawn++;
    }
    const missing = wanted.some((w) => !w.part), stale = wanted.some((w) => w.part?.stale || w.part?.rough);
    if (missing) plain();
    g.setTransform(1, 0, 0, 1, 0, 0);
    g.save();
    g.beginPath();
    g.rect(0, oy + e.top * s, view.width * dpr, (e.bottom - e.top) * s);
    g.clip();
    if (missing && this.before) {
      const f = s / this.before.scale;
      for (const p of this.before.parts.values()) {
        const x = ox + p.x * SIDE * f, y = oy + p.y * SIDE * f;
        if (x < view.width * dpr && y < view.height * dpr && x + SIDE * f > 0 && y + SIDE * f > 0) g.drawImage(p.picture, x, y, SIDE * f, SIDE * f);
      }
    }
    for (const w of wanted) if (w.part) g.drawImage(w.part.picture, ox + w.x * SIDE, oy + w.y * SIDE);
    g.restore();
    g.setTransform(dpr, 0, 0, dpr, 0, 0);
    this.whole = !missing && !stale;
    if (this.whole) { this.before = null; this.look(left, top, right, bottom, s); }
    else if (moving && this.cost > FRAME) this.later(REST);
    else view.paintSoon();
    view.host.dataset.drawn = this.whole && !this.lacks ? "whole" : "part";
  }

  later(ms) { clearTimeout(this.soon); this.soon = setTimeout(() => this.view.paintSoon(), ms); }

  // What lies round about is drawn while the hand rests, so that it is there when it comes into sight.
  look(left, top, right, bottom, s) {
    clearTimeout(this.soon);
    const e = this.view.extent(), edge = (e.halfWidth + 4) * s;
    const around = this.wanted(Math.max(left - SIDE, -edge), Math.max(top - SIDE, e.top * s), Math.min(right + SIDE, edge), Math.min(bottom + SIDE, e.bottom * s));
    const next = around.find((w) => !w.part || w.part.stale);
    if (!next || this.sheet.parts.size >= MOST_PARTS) return;
    this.soon = setTimeout(() => {
      if (!this.shows || this.sheet?.scale !== s) return;
      if (performance.now() - this.moved < REST) { this.look(left, top, right, bottom, s); return; }
      this.draw(next, s);
      this.look(left, top, right, bottom, s);
    }, this.cost > FRAME ? 60 : 20);
  }

  // Parts between edges in pixels from the upper middle of the cloth, those in the middle first.
  wanted(left, top, right, bottom) {
    const list = [];
    for (let y = Math.floor(top / SIDE); y * SIDE < bottom; y++)
      for (let x = Math.floor(left / SIDE); x * SIDE < right; x++) list.push({ x, y, part: this.sheet.parts.get(`${x} ${y}`) });
    const mx = (left + right) / 2 / SIDE - 0.5, my = (top + bottom) / 2 / SIDE - 0.5, far = (w) => (w.x - mx) ** 2 + (w.y - my) ** 2;
    return list.sort((a, b) => far(a) - far(b));
  }

  draw(w, s, roughly = false) {
    const began = performance.now(), key = `${w.x} ${w.y}`, parts = this.sheet.parts;
    const drawn = this.on.card.draw(this.on, w.x * SIDE / s, w.y * SIDE / s, s, SIDE, SIDE, roughly);
    let part = parts.get(key);
    if (!part) {
      if (parts.size >= MOST_PARTS) parts.delete(parts.keys().next().value);
      const picture = document.createElement("canvas");
      picture.width = picture.height = SIDE;
      part = { x: w.x, y: w.y, picture, top: w.y * SIDE / s, bottom: (w.y + 1) * SIDE / s };
      parts.set(key, part);
    }
    const g = part.picture.getContext("2d");
    g.clearRect(0, 0, SIDE, SIDE);
    g.drawImage(drawn, 0, 0);
    part.stale = false;
    part.rough = roughly;
    this.cost = this.cost ? this.cost * 0.6 + (performance.now() - began) * 0.4 : performance.now() - began;
    return part;
  }
}
