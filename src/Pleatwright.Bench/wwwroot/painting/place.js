// Where things lie on the screen: knows millimetres and pixels, the cells of the cloth, and what part of it is in sight.
import { DOWN } from "./cells.js";
import { CHART, BACK } from "./looks.js";

export class Place {
  constructor(margin) {
    this.margin = margin;             // room for row numbers round the cloth, in CSS pixels
    this.look = CHART;
    this.cloth = null;
    this.cells = new Uint8Array(0);
    this.scale = 0; this.ox = 0; this.oy = 0; this.width = 0; this.height = 0;
    this.userView = false;
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
}
