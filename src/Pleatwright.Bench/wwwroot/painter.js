// Paints pleated cloth on canvas. It knows millimetres and pixels and nothing of the craft: every cell comes packed in
// two bytes (thread + 1 or 0, marks), every row with its own pitch.
const DOWN = 1, HALF_LEFT = 2, HALF_RIGHT = 4;
const CHART = 0, STITCHED = 1, BACK = 2;
const painters = new Map();
let nextHandle = 1;

export const painterOf = (handle) => painters.get(handle);

class Painter {
  constructor(host, margin) {
    this.host = host;
    this.margin = margin;             // room for row numbers round the cloth, in CSS pixels
    [this.base, this.over] = host.querySelectorAll("canvas");
    this.ctx = this.base.getContext("2d");
    this.ink = this.over.getContext("2d");
    this.look = CHART;
    this.cloth = null;
    this.cells = new Uint8Array(0);
    this.threads = [];
    this.rings = new Int32Array(0);
    this.ringChosen = -1;
    this.route = null;
    this.back = null;
    this.under = new Float64Array(0);
    this.above = new Float64Array(0);
    this.cursor = null;
    this.area = null;
    this.sprites = new Map();
    this.scale = 0; this.ox = 0; this.oy = 0; this.width = 0; this.height = 0;
    this.userView = false;
    this.observer = new ResizeObserver(() => this.resize());
    this.observer.observe(host);
    this.scheme = matchMedia("(prefers-color-scheme: dark)");
    this.onScheme = () => this.refresh();
    this.scheme.addEventListener("change", this.onScheme);
    this.resize();
  }

  close() {
    this.observer.disconnect();
    this.scheme.removeEventListener("change", this.onScheme);
  }

  refresh() { this.readTokens(); this.paint(); }

  readTokens() {
    const style = getComputedStyle(this.host);
    const token = (name) => style.getPropertyValue(name).trim();
    this.tokens = { ink: token("--ink"), muted: token("--ink-soft"), accent: token("--accent"), font: style.fontFamily };
  }

  // ---- Where things lie -------------------------------------------------------------------------------------------

  resize() {
    const box = this.host.getBoundingClientRect();
    const dpr = window.devicePixelRatio || 1;
    const width = Math.max(1, Math.round(box.width)), height = Math.max(1, Math.round(box.height));
    if (width === this.width && height === this.height && dpr === this.dpr) return;
    const dx = (width - this.width) / 2, dy = (height - this.height) / 2;
    this.width = width; this.height = height; this.dpr = dpr;
    for (const canvas of [this.base, this.over]) { canvas.width = width * dpr; canvas.height = height * dpr; }
    this.sprites.clear();
    if (this.userView) { this.ox += dx; this.oy += dy; this.keepInSight(); } else this.fit();
    this.refresh();
  }

  pitch(row) { const p = this.cloth.pitch; return p[row < 0 ? 0 : row >= p.length ? p.length - 1 : row]; }

  // Screen place of the line between two pleats (valley 0 is the cloth's left edge) on a row.
  x(valley, row) {
    const x = (valley - this.cloth.centre) * this.pitch(row) * this.scale;
    return this.ox + (this.look === BACK ? -x : x);
  }

  y(line) { return this.oy + line * this.cloth.line * this.scale; }

  extent() {
    const c = this.cloth;
    let widest = 0;
    for (const p of c.pitch) widest = Math.max(widest, p);
    const space = c.line * 2 * c.perSpace;
    return {
      halfWidth: widest * Math.max(c.centre, c.pleats - c.centre),
      top: -c.above * space - c.line * 3,
      bottom: c.rows * 2 * c.line + c.below * space + c.line * 3,
    };
  }

  fitScale() {
    const e = this.extent();
    const room = Math.max(40, this.width - this.margin * 2), tall = Math.max(40, this.height - this.margin * 1.2);
    return Math.min(room / (2 * e.halfWidth), tall / (e.bottom - e.top));
  }

  fit() {
    if (!this.cloth) return;
    const e = this.extent();
    this.scale = this.fitScale();
    this.ox = this.width / 2;
    this.oy = this.height / 2 - (e.top + e.bottom) / 2 * this.scale;
    this.userView = false;
  }

  // Keeps at least the middle of the view over cloth.
  keepInSight() {
    const e = this.extent(), s = this.scale;
    const room = Math.min(this.width, this.height) * 0.4;
    this.ox = Math.min(Math.max(this.ox, room - e.halfWidth * s), this.width - room + e.halfWidth * s);
    this.oy = Math.min(Math.max(this.oy, room - e.bottom * s), this.height - room - e.top * s);
  }

  zoom(factor, px, py) {
    if (!this.cloth) return;
    const least = Math.min(this.fitScale() * 0.6, 2), most = 48;
    const scale = Math.min(most, Math.max(least, this.scale * factor));
    const f = scale / this.scale;
    this.ox = px + (this.ox - px) * f;
    this.oy = py + (this.oy - py) * f;
    this.scale = scale;
    this.userView = true;
    this.keepInSight();
    this.paintSoon();
  }

  pan(dx, dy) {
    if (!this.cloth) return;
    this.ox += dx; this.oy += dy;
    this.userView = true;
    this.keepInSight();
    this.paintSoon();
  }

  reveal(valley, row, force) {
    if (!this.cloth) return;
    const px = this.x(valley, row), py = this.y(row * 2 + 1), edge = this.margin + 24;
    let moved = false;
    if (force && this.scale < 6) { this.zoomTo(8, px, py); moved = true; }
    const qx = this.x(valley, row), qy = this.y(row * 2 + 1);
    const inside = qx > edge && qx < this.width - edge && qy > edge && qy < this.height - edge;
    if (!inside || moved) {
      this.ox += force || moved ? this.width / 2 - qx : Math.max(0, edge - qx) - Math.max(0, qx - this.width + edge);
      this.oy += force || moved ? this.height / 2 - qy : Math.max(0, edge - qy) - Math.max(0, qy - this.height + edge);
      this.userView = true;
      this.paint();
    }
  }

  zoomTo(scale, px, py) {
    const f = scale / this.scale;
    this.ox = px + (this.ox - px) * f; this.oy = py + (this.oy - py) * f; this.scale = scale; this.userView = true;
  }

  // The brick under a screen place: [valley, row], or null off the cloth.
  cellAt(px, py) {
    const c = this.cloth;
    if (!c) return null;
    const line = Math.floor((py - this.oy) / (c.line * this.scale));
    if (line < 0 || line >= c.rows * 2) return null;
    const row = line >> 1;
    const side = this.look === BACK ? -1 : 1;
    if (this.pitch(row) <= 0) return null;
    const pleat = Math.floor(side * (px - this.ox) / (this.pitch(row) * this.scale)) + c.centre; // 0-based
    if (pleat < 0 || pleat >= c.pleats) return null;
    for (const valley of [pleat, pleat + 1]) {
      if (valley < 1 || valley > c.valleys) continue;
      if ((this.marks(valley, row) & DOWN) === (line & 1)) return [valley, row];
    }
    return [Math.min(Math.max(pleat, 1), c.valleys), row];
  }

  at(valley, row) { return (row * this.cloth.valleys + valley - 1) * 2; }
  thread(valley, row) { return this.cells[this.at(valley, row)]; }
  marks(valley, row) { return this.cells[this.at(valley, row) + 1]; }

  // ---- What is painted --------------------------------------------------------------------------------------------

  setCells(fresh) {
    const c = this.cloth;
    const old = this.cells;
    this.cells = fresh;
    if (old.length !== fresh.length || !this.scale) { this.paint(); return; }
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
    const g = this.ctx;
    g.setTransform(this.dpr, 0, 0, this.dpr, 0, 0);
    g.clearRect(0, 0, this.width, this.height);
    if (!this.cloth || !this.scale || this.cells.length === 0) return;
    this.paintCloth();
    this.paintLattice(0, this.cloth.rows - 1, 1, this.cloth.valleys);
    this.paintShapes(this.under);
    this.paintRows(0, this.cloth.rows - 1, 1, this.cloth.valleys);
    this.paintShapes(this.above);
    if (this.look === BACK && this.back) this.paintLegs(g, this.back);
    this.paintMargin();
    this.paintOver();
  }

  paintPatch({ top, bottom, from, to }) {
    const g = this.ctx, bleed = Math.max(2, this.cloth.line * this.scale * 0.4);
    const xs = [this.x(from - 1, top), this.x(to + 1, top), this.x(from - 1, bottom), this.x(to + 1, bottom)];
    const left = Math.min(...xs) - bleed, right = Math.max(...xs) + bleed;
    const y0 = this.y(top * 2) - bleed, y1 = this.y(bottom * 2 + 2) + bleed;
    if (right < 0 || left > this.width || y1 < 0 || y0 > this.height) return;
    g.setTransform(this.dpr, 0, 0, this.dpr, 0, 0);
    g.save();
    g.beginPath();
    g.rect(left, y0, right - left, y1 - y0);
    g.clip();
    this.paintCloth(left, right);
    const around = [Math.max(0, top - 1), Math.min(this.cloth.rows - 1, bottom + 1), Math.max(1, from - 3), Math.min(this.cloth.valleys, to + 3)];
    this.paintLattice(...around);
    this.paintShapes(this.under);
    this.paintRows(...around);
    this.paintShapes(this.above);
    if (this.look === BACK && this.back) this.paintLegs(g, this.back);
    g.restore();
  }

  // The bare cloth: its pleats, its gathering rows, its centre.
  paintCloth(left = 0, right = this.width) {
    const g = this.ctx, c = this.cloth, e = this.extent();
    const y0 = this.oy + e.top * this.scale, y1 = this.oy + e.bottom * this.scale;
    if (c.even) {
      const x0 = this.x(this.look === BACK ? c.pleats : 0, 0), x1 = this.x(this.look === BACK ? 0 : c.pleats, 0);
      this.paintPleats(x0, x1, y0, y1, left, right);
    } else this.paintFan(y0, y1);
    this.paintGathering(left, right);
  }

  paintPleats(x0, x1, y0, y1, left, right) {
    const g = this.ctx, c = this.cloth;
    const w = c.pitch[0] * this.scale;
    g.fillStyle = c.colour;
    g.fillRect(x0, y0, x1 - x0, y1 - y0);
    const first = Math.max(0, Math.floor((left - x0) / w) - 1), last = Math.min(c.pleats, Math.ceil((right - x0) / w) + 1);
    if (this.look !== CHART) {
      const strip = this.pleatStrip();
      for (let p = first; p < last; p++) g.drawImage(strip, x0 + p * w, y0, w + 0.5, y1 - y0);
    } else if (w >= 3) {
      g.strokeStyle = c.rule;
      g.lineWidth = 1;
      g.beginPath();
      for (let p = first; p <= last; p++) { const x = Math.round(x0 + p * w) + 0.5; g.moveTo(x, y0); g.lineTo(x, y1); }
      g.stroke();
    }
    g.strokeStyle = c.edge;
    g.lineWidth = 1;
    g.strokeRect(x0 + 0.5, y0 + 0.5, x1 - x0 - 1, y1 - y0 - 1);
  }

  // Cloth whose pleats spread or crowd from row to row: each pleat is a strip of short pieces.
  paintFan(y0, y1) {
    const g = this.ctx, c = this.cloth;
    const ys = [y0];
    for (let row = 0; row <= c.rows; row++) ys.push(this.y(row * 2));
    ys.push(y1);
    const rowOf = (i) => Math.min(c.rows - 1, Math.max(0, i - 1));
    g.beginPath();
    for (let i = 0; i < ys.length; i++) g.lineTo(this.x(0, rowOf(i)), ys[i]);
    for (let i = ys.length - 1; i >= 0; i--) g.lineTo(this.x(c.pleats, rowOf(i)), ys[i]);
    g.closePath();
    g.fillStyle = c.colour;
    g.fill();
    g.strokeStyle = this.look === CHART ? c.rule : c.shade;
    g.lineWidth = 1;
    g.beginPath();
    const step = c.pitch[0] * this.scale < 2.5 ? 4 : 1;
    for (let v = 0; v <= c.pleats; v += step)
      for (let i = 0; i < ys.length; i++) {
        const x = this.x(v, rowOf(i));
        if (i === 0) g.moveTo(x, ys[i]); else g.lineTo(x, ys[i]);
      }
    g.stroke();
  }

  // One pleat seen from the front, lit from the upper left; stretched over the whole depth.
  pleatStrip() {
    return this.sprite("pleat", () => {
      const w = Math.max(2, Math.round(this.cloth.pitch[0] * this.scale * this.dpr));
      const strip = new OffscreenCanvas(w, 1), g = strip.getContext("2d");
      const light = g.createLinearGradient(0, 0, w, 0);
      light.addColorStop(0, mix(this.cloth.colour, "#000000", 0.42));
      light.addColorStop(0.14, mix(this.cloth.colour, "#000000", 0.12));
      light.addColorStop(0.38, mix(this.cloth.colour, "#ffffff", 0.35));
      light.addColorStop(0.62, this.cloth.colour);
      light.addColorStop(0.88, mix(this.cloth.colour, "#000000", 0.24));
      light.addColorStop(1, mix(this.cloth.colour, "#000000", 0.46));
      g.fillStyle = light;
      g.fillRect(0, 0, w, 1);
      return strip;
    });
  }

  paintGathering(left, right) {
    const g = this.ctx, c = this.cloth;
    const space = 2 * c.perSpace;
    for (let i = -c.above; i < c.gatheringRows + c.below; i++) {
      const holding = i < 0 || i >= c.gatheringRows;
      const row = Math.min(Math.max(i * c.perSpace, 0), c.rows - 1);
      const y = this.y(i * space + 1);
      if (y < -4 || y > this.height + 4) continue;
      const w = this.pitch(row) * this.scale;
      const a = Math.max(Math.min(this.x(0, row), this.x(c.pleats, row)), left - w * 2);
      const b = Math.min(Math.max(this.x(0, row), this.x(c.pleats, row)), right + w * 2);
      if (b <= a) continue;
      g.strokeStyle = holding ? c.holdingInk : c.gatherInk;
      g.lineWidth = this.look === CHART ? 1.5 : Math.max(1, 0.28 * this.scale);
      // A running stitch: one dash a pleat, set off from the cloth's edge so that it lies still while panning.
      const edge = Math.min(this.x(0, row), this.x(c.pleats, row));
      const from = edge + Math.floor((a - edge) / w) * w;
      g.setLineDash(w >= 3 ? [w * 0.6, w * 0.4] : [4, 3]);
      g.lineDashOffset = w >= 3 ? -w * 0.2 : 0;
      g.beginPath();
      g.moveTo(from, y);
      g.lineTo(b, y);
      g.stroke();
      g.setLineDash([]);
    }
    if (this.look === CHART) {
      const y0 = this.y(-c.above * space - 2), y1 = this.y(c.rows * 2 + c.below * space + 2);
      const x = Math.round(this.ox) + 0.5;
      if (x >= left && x <= right) {
        g.strokeStyle = c.centreInk;
        g.lineWidth = 2;
        g.setLineDash([10, 4, 2, 4]);
        g.beginPath(); g.moveTo(x, y0); g.lineTo(x, y1); g.stroke();
        g.setLineDash([]);
      }
    }
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
      if (bare) this.latticeRow(row, v0, v1, w);
      else if (this.look === STITCHED) this.stitchRow(row, v0, v1, w);
      else if (this.look === BACK) this.backRow(row, v0, v1, w);
      else this.chartRow(row, v0, v1, w);
    }
  }

  latticeRow(row, v0, v1, w) {
    const g = this.ctx, c = this.cloth, h = c.line * this.scale;
    g.strokeStyle = c.rule;
    g.lineWidth = 1;
    g.beginPath();
    for (let v = v0, at = this.at(v0, row); v <= v1; v++, at += 2)
      if (this.cells[at] === 0) g.rect(this.x(v - 1, row) + 1.5, this.y(row * 2 + (this.cells[at + 1] & DOWN ? 1 : 0)) + 1, 2 * w - 3, h - 2);
    g.stroke();
  }

  chartRow(row, v0, v1, w) {
    const h = this.cloth.line * this.scale;
    const seam = h > 5 ? 1 : h > 2.5 ? 0.5 : 0;
    for (let v = v0, at = this.at(v0, row); v <= v1; v++, at += 2) {
      const thread = this.cells[at], marks = this.cells[at + 1];
      const x = this.x(v - 1, row), y = this.y(row * 2 + (marks & DOWN ? 1 : 0));
      if (thread === 0) continue;
      this.brick(this.threads[thread - 1], x, y, 2 * w, h, seam, this.faint(v, row));
      if (marks & HALF_LEFT) this.half(thread, this.x(v - 1, row), this.otherLine(row, marks), w, h, seam, v, row);
      if (marks & HALF_RIGHT) this.half(thread, this.x(v, row), this.otherLine(row, marks), w, h, seam, v, row);
    }
  }

  otherLine(row, marks) { return this.y(row * 2 + (marks & DOWN ? 0 : 1)); }

  faint(v, row) { return this.done !== null && this.done !== undefined && !this.done[row * this.cloth.valleys + v - 1]; }

  brick(t, x, y, w, h, seam, faint) {
    const g = this.ctx;
    if (faint) {
      g.globalAlpha = 0.16;
      g.fillStyle = t.colour;
      g.fillRect(x + seam, y + seam / 2, w - seam * 2, h - seam);
      g.globalAlpha = 1;
      return;
    }
    g.fillStyle = t.colour;
    if (h >= 7) {
      g.beginPath();
      g.roundRect(x + seam, y + seam / 2, w - seam * 2, h - seam, Math.min(h * 0.3, 5));
      g.fill();
    } else g.fillRect(x + seam, y + seam / 2, w - seam * 2, h - seam);
    if (h >= 9) { const s = this.letter(t, h); g.drawImage(s, x + w / 2 - s.width / 2 / this.dpr, y + h / 2 - s.height / 2 / this.dpr, s.width / this.dpr, s.height / this.dpr); }
  }

  half(thread, x, y, w, h, seam, v, row) {
    const g = this.ctx, t = this.threads[thread - 1];
    g.globalAlpha = this.faint(v, row) ? 0.16 : 1;
    g.fillStyle = t.colour;
    g.fillRect(x + seam, y + seam / 2, w - seam * 2, h - seam);
    if (h >= 5) { // a slanting tick tells a half stitch from a cable
      g.strokeStyle = t.over;
      g.lineWidth = Math.max(1, h * 0.1);
      g.beginPath(); g.moveTo(x + w * 0.3, y + h * 0.75); g.lineTo(x + w * 0.7, y + h * 0.25); g.stroke();
    }
    g.globalAlpha = 1;
  }

  letter(t, h) {
    const size = Math.round(Math.min(h * 0.86, 22) * this.dpr);
    return this.sprite(`letter ${t.letter} ${t.over} ${size}`, () => {
      const s = new OffscreenCanvas(Math.ceil(size * 1.2), Math.ceil(size * 1.2)), g = s.getContext("2d");
      g.font = `600 ${size}px ${this.tokens.font}`;
      g.textAlign = "center"; g.textBaseline = "middle";
      g.fillStyle = t.over;
      g.fillText(t.letter, s.width / 2, s.height / 2 + size * 0.05);
      return s;
    });
  }

  stitchRow(row, v0, v1, w) {
    const g = this.ctx, c = this.cloth, h = c.line * this.scale;
    for (let v = v0, at = this.at(v0, row); v <= v1; v++, at += 2) {
      const thread = this.cells[at], marks = this.cells[at + 1];
      if (thread === 0) continue;
      const s = this.cable(this.threads[thread - 1], w * 2, h, marks & DOWN);
      const x = this.x(v - 1, row), y = this.y(row * 2 + (marks & DOWN ? 1 : 0));
      g.globalAlpha = this.faint(v, row) ? 0.14 : 1;
      this.put(s, x, y);
      const other = marks & DOWN ? 0 : 1;
      if (marks & HALF_LEFT) this.put(this.cable(this.threads[thread - 1], w, h, other), this.x(v - 1, row), this.y(row * 2 + other));
      if (marks & HALF_RIGHT) this.put(this.cable(this.threads[thread - 1], w, h, other), this.x(v, row), this.y(row * 2 + other));
      g.globalAlpha = 1;
    }
  }

  put(s, x, y) {
    this.ctx.drawImage(s, x - s.padX / this.dpr, y - s.padY / this.dpr, s.width / this.dpr, s.height / this.dpr);
  }

  // A cable as it lies: strands side by side, bowed towards its own line, sunk into the valleys at both ends.
  cable(t, width, height, down) {
    const W = Math.max(3, Math.round(width * this.dpr)), H = Math.max(2, Math.round(height * this.dpr));
    return this.sprite(`cable ${t.colour} ${t.strands} ${W} ${H} ${down ? 1 : 0}`, () => {
      const padX = Math.ceil(H * 0.3), padY = Math.ceil(H * 0.45);
      const s = new OffscreenCanvas(W + padX * 2, H + padY * 2), g = s.getContext("2d");
      s.padX = padX; s.padY = padY;
      const cover = Math.min(1.08, t.cover), thick = H * cover;
      const bow = H * 0.16 * (down ? 1 : -1);
      const x0 = padX + W * 0.02, x1 = padX + W * 0.98, mid = padY + H / 2;
      const body = () => {
        const r = thick / 2;
        g.beginPath();
        g.moveTo(x0 + r * 0.6, mid - r + bow * -0.5);
        g.quadraticCurveTo((x0 + x1) / 2, mid - r + bow, x1 - r * 0.6, mid - r + bow * -0.5);
        g.bezierCurveTo(x1 + r * 0.25, mid - r * 0.7, x1 + r * 0.25, mid + r * 0.7, x1 - r * 0.6, mid + r + bow * -0.5);
        g.quadraticCurveTo((x0 + x1) / 2, mid + r + bow, x0 + r * 0.6, mid + r + bow * -0.5);
        g.bezierCurveTo(x0 - r * 0.25, mid + r * 0.7, x0 - r * 0.25, mid - r * 0.7, x0 + r * 0.6, mid - r + bow * -0.5);
        g.closePath();
      };
      g.save();
      g.shadowColor = "rgba(20,12,4,0.55)"; g.shadowBlur = H * 0.22; g.shadowOffsetY = H * 0.12; g.shadowOffsetX = H * 0.05;
      body(); g.fillStyle = t.colour; g.fill();
      g.restore();
      g.save();
      body(); g.clip();
      const across = g.createLinearGradient(0, mid - thick / 2, 0, mid + thick / 2);
      across.addColorStop(0, mix(t.colour, "#ffffff", 0.18));
      across.addColorStop(0.3, mix(t.colour, "#ffffff", 0.34));
      across.addColorStop(0.62, t.colour);
      across.addColorStop(1, mix(t.colour, "#000000", 0.45));
      g.fillStyle = across; g.fillRect(0, 0, s.width, s.height);
      const along = g.createLinearGradient(x0, 0, x1, 0);
      along.addColorStop(0, "rgba(0,0,0,0.42)"); along.addColorStop(0.22, "rgba(0,0,0,0)");
      along.addColorStop(0.42, "rgba(255,255,255,0.20)"); along.addColorStop(0.6, "rgba(255,255,255,0)");
      along.addColorStop(0.8, "rgba(0,0,0,0)"); along.addColorStop(1, "rgba(0,0,0,0.5)");
      g.fillStyle = along; g.fillRect(0, 0, s.width, s.height);
      if (H >= 6) {
        for (let k = 1; k < t.strands; k++) {
          const y = mid - thick / 2 + thick * k / t.strands;
          for (const [dy, ink] of [[0, "rgba(0,0,0,0.30)"], [Math.max(1, H * 0.05), "rgba(255,255,255,0.22)"]]) {
            g.strokeStyle = ink; g.lineWidth = Math.max(0.8, H * 0.045);
            g.beginPath();
            g.moveTo(x0, y + dy - bow * 0.5);
            g.quadraticCurveTo((x0 + x1) / 2, y + dy + bow * 1.2, x1, y + dy - bow * 0.5);
            g.stroke();
          }
        }
      }
      g.restore();
      return s;
    });
  }

  // Behind a cable the needle only passes through the pleat: a short slanting bead of thread shows there.
  backRow(row, v0, v1, w) {
    const g = this.ctx, c = this.cloth, h = c.line * this.scale;
    g.globalAlpha = 0.5;
    for (let v = v0, at = this.at(v0, row); v <= v1; v++, at += 2) {
      const thread = this.cells[at];
      if (thread === 0) continue;
      const x = this.x(v, row), y = this.y(row * 2 + 1);
      g.fillStyle = this.threads[thread - 1].colour;
      g.beginPath(); g.ellipse(x, y, Math.max(0.8, w * 0.22), Math.max(0.8, h * 0.28), 0, 0, Math.PI * 2); g.fill();
    }
    g.globalAlpha = 1;
  }

  // Numbers beside the gathering rows, kept in sight while panning.
  paintMargin() {
    const g = this.ctx, c = this.cloth;
    if (this.margin < 20) return;
    const space = 2 * c.perSpace, gap = space * c.line * this.scale;
    const size = 15;
    g.font = `500 ${size}px ${this.tokens.font}`;
    g.textBaseline = "middle";
    const every = gap > 17 ? 1 : gap > 8 ? 2 : 5;
    for (let i = -c.above; i < c.gatheringRows + c.below; i++) {
      const holding = i < 0 || i >= c.gatheringRows;
      if (holding ? every > 1 : i % every !== 0) continue; // no word over another where rows lie close
      const y = this.y(i * space + 1);
      if (y < 6 || y > this.height - 6) continue;
      const row = Math.min(Math.max(i * c.perSpace, 0), c.rows - 1);
      const edges = [this.x(0, row), this.x(c.pleats, row)].sort((a, b) => a - b);
      const text = holding ? "hold" : String(i + 1);
      for (const [x, align] of [[Math.max(8, edges[0] - 8), "right"], [Math.min(this.width - 8, edges[1] + 8), "left"]]) {
        const at = align === "right" ? Math.max(x, 8 + g.measureText(text).width) : Math.min(x, this.width - 8 - g.measureText(text).width);
        const overCloth = align === "right" ? at > edges[0] : at < edges[1];
        g.textAlign = align;
        if (overCloth) {
          const wide = g.measureText(text).width + 8;
          g.fillStyle = "rgba(255,252,245,0.85)";
          g.fillRect(align === "right" ? at - wide + 4 : at - 4, y - size * 0.65, wide, size * 1.3);
        }
        g.fillStyle = overCloth ? "#3a3126" : this.tokens.muted;
        g.fillText(text, at, y);
      }
    }
    if (this.look === CHART) {
      const y = Math.max(12, this.y(-c.above * space) - 16);
      g.textAlign = "center";
      g.fillStyle = this.tokens.muted;
      g.fillText("centre", this.ox, y);
    }
  }

  // ---- What lies over it: cursor, area, rings, route --------------------------------------------------------------

  paintOver() {
    const g = this.ink;
    g.setTransform(this.dpr, 0, 0, this.dpr, 0, 0);
    g.clearRect(0, 0, this.width, this.height);
    if (!this.cloth || !this.scale) return;
    if (this.route) this.paintLegs(g, this.route);
    for (let i = 0; i < this.rings.length; i += 5) this.paintRing(g, i);
    if (this.area) this.paintArea(g, this.area);
    if (this.cursor) this.paintCursor(g, ...this.cursor);
  }

  brickBox(valley, row, pad = 0) {
    const xs = [this.x(valley - 1, row), this.x(valley + 1, row)].sort((a, b) => a - b);
    const y = this.y(row * 2 + (this.marks(valley, row) & DOWN ? 1 : 0));
    return [xs[0] - pad, y - pad, xs[1] - xs[0] + pad * 2, this.cloth.line * this.scale + pad * 2];
  }

  paintCursor(g, valley, row) {
    if (valley < 1 || valley > this.cloth.valleys || row < 0 || row >= this.cloth.rows) return;
    const pad = Math.max(3, 5 - this.cloth.line * this.scale * 0.2);
    const box = this.brickBox(valley, row, pad);
    g.lineWidth = 5; g.strokeStyle = "#fffdf7"; g.beginPath(); g.roundRect(...box, 4); g.stroke();
    g.lineWidth = 2.5; g.strokeStyle = "#17120c"; g.beginPath(); g.roundRect(...box, 4); g.stroke();
  }

  rowsBox(from, to, top, bottom, pad) {
    const xs = [this.x(from - 1, top), this.x(to + 1, top), this.x(from - 1, bottom), this.x(to + 1, bottom)];
    const x0 = Math.min(...xs), x1 = Math.max(...xs), y0 = this.y(top * 2), y1 = this.y(bottom * 2 + 2);
    return [x0 - pad, y0 - pad, x1 - x0 + pad * 2, y1 - y0 + pad * 2];
  }

  paintArea(g, [from, to, top, bottom]) {
    const box = this.rowsBox(from, to, top, bottom, 1);
    g.fillStyle = "rgba(40,83,107,0.16)"; g.fillRect(...box);
    g.lineWidth = 3; g.strokeStyle = "#fffdf7"; g.strokeRect(...box);
    g.lineWidth = 1.5; g.strokeStyle = "#17120c"; g.setLineDash([7, 5]); g.strokeRect(...box); g.setLineDash([]);
  }

  paintRing(g, i) {
    const [top, bottom, from, to, severity] = this.rings.subarray(i, i + 5);
    const chosen = i / 5 === this.ringChosen;
    if (!chosen && severity === 2) return; // notes are ringed only when asked for
    const box = this.rowsBox(from, to, top, bottom, chosen ? 8 : 4);
    const ink = ["#a3161f", "#8a5a00", "#1f5f7a"][severity];
    g.lineWidth = chosen ? 6 : 3.5; g.strokeStyle = "rgba(255,253,247,0.95)";
    g.beginPath(); g.roundRect(...box, 8); g.stroke();
    g.lineWidth = chosen ? 3.5 : 1.8; g.strokeStyle = ink; g.setLineDash(severity === 0 ? [] : severity === 1 ? [8, 4] : [2, 4]);
    g.beginPath(); g.roundRect(...box, 8); g.stroke();
    g.setLineDash([]);
  }

  // A route is a list of legs, seven numbers each: kind (0 worked, 1 carried, 2 started, 3 tied off, 4 backsmocked, 5 on
  // the way to a tie-off), pleat and cable row of both ends, thread, state (0 done, 1 now, 2 next).
  paintLegs(g, legs) {
    for (const now of [2, 0, 1])
      for (let i = 0; i < legs.length; i += 7)
        if (legs[i + 6] === now) this.paintLeg(g, legs.subarray(i, i + 7), now);
  }

  paintLeg(g, [kind, p0, r0, p1, r1, thread], now) {
    const h = this.cloth.line * this.scale;
    const x0 = this.x(p0 - 0.5, Math.floor(r0)), y0 = this.y(r0 * 2), x1 = this.x(p1 - 0.5, Math.floor(r1)), y1 = this.y(r1 * 2);
    if (Math.max(y0, y1) < -20 || Math.min(y0, y1) > this.height + 20 || Math.max(x0, x1) < -20 || Math.min(x0, x1) > this.width + 20) return;
    if (kind === 4) { this.paintBacksmocking(g, x0, x1, y0, h); return; }
    const colour = this.threads[thread]?.colour ?? "#555555";
    const width = now === 1 ? Math.max(3, Math.min(6, h * 0.5)) : Math.max(1.5, Math.min(4, h * 0.36));
    const ink = now === 1 ? "#17120c" : colour;
    g.globalAlpha = now === 2 ? 0.45 : 1;
    g.lineCap = "round";
    for (const [paint, wide] of [["rgba(255,253,247,0.85)", width + 2], [ink, width]]) {
      g.strokeStyle = paint; g.lineWidth = wide; g.setLineDash(kind === 1 ? [width * 2, width * 1.7] : now === 2 ? [2, width * 2] : []);
      g.beginPath(); g.moveTo(x0, y0); g.lineTo(x1, y1); g.stroke();
    }
    g.setLineDash([]);
    if (kind === 2 || kind === 3) { // a start is a disc, a tie-off a ring: shape tells them apart
      const r = Math.max(3, Math.min(8, h * 0.55));
      g.beginPath(); g.arc(x1, y1, r + 1.5, 0, Math.PI * 2); g.fillStyle = "#fffdf7"; g.fill();
      g.beginPath(); g.arc(x1, y1, r, 0, Math.PI * 2);
      if (kind === 2) { g.fillStyle = ink; g.fill(); } else { g.lineWidth = Math.max(2, r * 0.4); g.strokeStyle = ink; g.stroke(); }
    }
    if (now === 1 && kind === 0) this.arrow(g, x0, y0, x1, y1, width);
    g.globalAlpha = 1;
  }

  // Backsmocking in two strands near the cloth's colour: a soft rope of cables along the row.
  paintBacksmocking(g, x0, x1, y, h) {
    const c = this.cloth, w = c.pitch[0] * this.scale;
    const [a, b] = x0 < x1 ? [x0, x1] : [x1, x0];
    g.strokeStyle = mix(c.colour, "#5a4630", 0.55);
    g.lineWidth = Math.max(1, h * 0.34);
    g.lineCap = "round";
    g.beginPath();
    for (let x = a, i = 0; x + w <= b + 0.5; x += w, i++) {
      const off = (i & 1 ? 1 : -1) * h * 0.22;
      g.moveTo(x - w * 0.35, y + off); g.lineTo(x + w * 1.35, y + off);
    }
    g.stroke();
  }

  // Stitches that are no cables, seven numbers each: kind (0 bar, 1 hidden, 2 knot, 3 drop, 4 coil), thread, across and
  // down of both ends (pleats from the left edge, lines), width in lines, negative when faint.
  paintShapes(shapes) {
    const g = this.ctx, h = this.cloth.line * this.scale;
    g.lineCap = "round";
    for (let i = 0; i < shapes.length; i += 7) {
      const [kind, thread, a0, d0, a1, d1, width] = shapes.subarray(i, i + 7);
      if ((kind === 1) !== (this.look === BACK)) continue;
      const rowOf = (d) => Math.max(0, Math.min(this.cloth.rows - 1, Math.floor(d / 2)));
      const x0 = this.x(a0, rowOf(d0)), y0 = this.y(d0), x1 = this.x(a1, rowOf(d1)), y1 = this.y(d1);
      if (Math.max(x0, x1) < -20 || Math.min(x0, x1) > this.width + 20 || Math.max(y0, y1) < -20 || Math.min(y0, y1) > this.height + 20) continue;
      const t = this.threads[thread], wide = Math.max(1, Math.abs(width) * h);
      g.globalAlpha = width < 0 ? 0.25 : 1; // still to be worked
      if (this.look === STITCHED) this.roundStroke(g, kind, t, x0, y0, x1, y1, wide);
      else { g.strokeStyle = t.colour; g.fillStyle = t.colour; this.shape(g, kind, x0, y0, x1, y1, wide); }
    }
    g.globalAlpha = 1;
  }

  shape(g, kind, x0, y0, x1, y1, wide) {
    if (kind === 2) { g.beginPath(); g.arc(x0, y0, wide / 2, 0, Math.PI * 2); g.fill(); return; }
    if (kind === 3) {
      const a = Math.atan2(y1 - y0, x1 - x0), r = wide / 2, px = -Math.sin(a) * r * 1.4, py = Math.cos(a) * r * 1.4;
      g.beginPath(); g.moveTo(x0, y0); g.quadraticCurveTo(x1 + px, y1 + py, x1, y1); g.quadraticCurveTo(x1 - px, y1 - py, x0, y0);
      g.fill(); return;
    }
    // the round ends stay inside the stitch
    const dx = x1 - x0, dy = y1 - y0, long = Math.hypot(dx, dy), cut = long <= wide ? 0.45 : wide / 2 / long;
    g.lineWidth = wide;
    g.beginPath(); g.moveTo(x0 + dx * cut, y0 + dy * cut); g.lineTo(x1 - dx * cut, y1 - dy * cut); g.stroke();
  }

  // The same with light and shade: a shadow, the body, and a gleam along its upper side.
  roundStroke(g, kind, t, x0, y0, x1, y1, wide) {
    g.strokeStyle = g.fillStyle = "rgba(20,12,4,0.4)";
    this.shape(g, kind, x0 + wide * 0.05, y0 + wide * 0.22, x1 + wide * 0.05, y1 + wide * 0.22, wide);
    g.strokeStyle = g.fillStyle = mix(t.colour, "#000000", 0.28);
    this.shape(g, kind, x0, y0, x1, y1, wide);
    g.strokeStyle = g.fillStyle = t.colour;
    this.shape(g, kind, x0, y0 - wide * 0.08, x1, y1 - wide * 0.08, wide * 0.72);
    g.strokeStyle = g.fillStyle = mix(t.colour, "#ffffff", 0.38);
    if (kind !== 3) this.shape(g, kind, x0, y0 - wide * 0.18, x1, y1 - wide * 0.18, wide * 0.26);
    if (kind === 4) {
      const n = Math.max(2, Math.round(Math.hypot(x1 - x0, y1 - y0) / (wide * 0.4)));
      g.strokeStyle = "rgba(0,0,0,0.3)"; g.lineWidth = Math.max(0.8, wide * 0.08);
      const a = Math.atan2(y1 - y0, x1 - x0), px = -Math.sin(a) * wide * 0.45, py = Math.cos(a) * wide * 0.45;
      g.beginPath();
      for (let k = 1; k < n; k++) { const x = x0 + (x1 - x0) * k / n, y = y0 + (y1 - y0) * k / n; g.moveTo(x + px, y + py); g.lineTo(x - px * 0.7, y - py * 0.7); }
      g.stroke();
    }
  }

  arrow(g, x0, y0, x1, y1, width) {
    const a = Math.atan2(y1 - y0, x1 - x0), size = width * 3;
    g.fillStyle = "#17120c"; g.strokeStyle = "#fffdf7"; g.lineWidth = 2;
    g.beginPath();
    g.moveTo(x1 + Math.cos(a) * size * 0.6, y1 + Math.sin(a) * size * 0.6);
    g.lineTo(x1 - Math.cos(a - 0.6) * size, y1 - Math.sin(a - 0.6) * size);
    g.lineTo(x1 - Math.cos(a + 0.6) * size, y1 - Math.sin(a + 0.6) * size);
    g.closePath(); g.stroke(); g.fill();
  }

  sprite(key, make) {
    let s = this.sprites.get(key);
    if (!s) {
      if (this.sprites.size > 400) this.sprites.clear();
      this.sprites.set(key, s = make());
    }
    return s;
  }
}

// ---- Colour on the way to the eye -----------------------------------------------------------------------------------

const channels = (hex) => [1, 3, 5].map((i) => parseInt(hex.slice(i, i + 2), 16));
const toHex = (rgb) => "#" + rgb.map((c) => Math.round(c).toString(16).padStart(2, "0")).join("");
const mix = (a, b, t) => { const [p, q] = [channels(a), channels(b)]; return toHex(p.map((c, i) => c + (q[i] - c) * t)); };
const luminance = (hex) => {
  const [r, g, b] = channels(hex).map((c) => { c /= 255; return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4; });
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
};
const overInk = (hex) => luminance(hex) > 0.22 ? "#17120c" : "#fffdf7";

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
  p.sprites.clear();
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
export function setLook(handle, look) { const p = painters.get(handle); if (p.look !== look) { p.look = look; p.paint(); } }
export function setCursor(handle, valley, row) { const p = painters.get(handle); p.cursor = valley > 0 ? [valley, row] : null; p.paintOver(); }
export function setArea(handle, from, to, top, bottom) { const p = painters.get(handle); p.area = from > 0 ? [from, to, top, bottom] : null; p.paintOver(); }
export function setRings(handle, rings, chosen) { const p = painters.get(handle); p.rings = rings.slice(); p.ringChosen = chosen; p.paintOver(); }
export function setBack(handle, legs) { const p = painters.get(handle); p.back = legs.length === 0 ? null : legs.slice(); if (p.look === BACK) p.paint(); }
export function setShapes(handle, under, over) { const p = painters.get(handle); p.under = under.slice(); p.above = over.slice(); p.cells = new Uint8Array(0); }
export function setRoute(handle, legs) { const p = painters.get(handle); p.route = legs.length === 0 ? null : legs.slice(); p.paintOver(); }
export function zoom(handle, factor) { const p = painters.get(handle); p.zoom(factor, p.width / 2, p.height / 2); }
export function fit(handle) { const p = painters.get(handle); p.fit(); p.paint(); }
export function reveal(handle, valley, row, force) { painters.get(handle).reveal(valley, row, force); }
export function picture(handle) { return painters.get(handle).base.toDataURL("image/webp", 0.86); }
export function refreshAll() { for (const p of painters.values()) p.refresh(); }
