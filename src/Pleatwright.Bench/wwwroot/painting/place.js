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
    this.inset = { left: 0, top: 0, right: 0, bottom: 0 }; // what lies over the cloth at its edges, in CSS pixels
  }

  // The middle of what is uncovered.
  get midX() { const c = this.covered(); return (c.left + this.width - c.right) / 2; }
  get midY() { const c = this.covered(); return (c.top + this.height - c.bottom) / 2; }

  // What lies over the cloth now.
  covered() { return this.inset; }

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
    const i = this.inset;
    const room = Math.max(40, this.width - i.left - i.right - this.margin * 2), tall = Math.max(40, this.height - i.top - i.bottom - this.margin * 1.2);
    return Math.min(room / (2 * e.halfWidth), tall / (e.bottom - e.top));
  }

  fit() {
    if (!this.cloth) return;
    const e = this.extent();
    this.scale = this.fitScale();
    this.ox = this.midX;
    this.oy = this.midY - (e.top + e.bottom) / 2 * this.scale;
    this.userView = false;
  }

  // A line of the cloth at least so many pixels high, a cell in the middle; the cloth's edges stay at the edges where there is more of it.
  openAt(valley, row, line) {
    if (!this.cloth) return;
    this.scale = Math.min(48, Math.max(this.fitScale(), line / this.cloth.line));
    const e = this.extent(), s = this.scale, i = this.inset;
    this.ox = this.midX; this.oy = this.midY - (e.top + e.bottom) / 2 * s;
    const left = i.left + this.margin, right = this.width - i.right - this.margin, top = i.top + this.margin * 0.6, bottom = this.height - i.bottom - this.margin * 0.6;
    if (2 * e.halfWidth * s > right - left) {
      this.ox += this.midX - this.x(valley, row);
      this.ox = Math.min(Math.max(this.ox, right - e.halfWidth * s), left + e.halfWidth * s);
    }
    if ((e.bottom - e.top) * s > bottom - top) {
      this.oy += this.midY - this.y(row * 2 + 1);
      this.oy = Math.min(Math.max(this.oy, bottom - e.bottom * s), top - e.top * s);
    }
    this.userView = true;
  }

  // Moves so that a place of the cloth, in millimetres from its upper middle as it is seen, lies in the middle.
  centreOn(across, down) {
    if (!this.cloth) return;
    this.ox = this.midX - across * this.scale;
    this.oy = this.midY - down * this.scale;
    this.userView = true;
    this.keepInSight();
    this.paintSoon();
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
    const px = this.x(valley, row), py = this.y(row * 2 + 1), i = this.covered();
    const wide = this.width - i.left - i.right, tall = this.height - i.top - i.bottom;
    const [ex, ey] = [wide, tall].map((room) => Math.max(0, Math.min(this.margin + 24, room / 2 - 12)));
    let moved = false;
    if (force && this.scale < 6) { this.zoomTo(8, px, py); moved = true; }
    const qx = this.x(valley, row), qy = this.y(row * 2 + 1);
    const left = i.left + ex, right = this.width - i.right - ex, top = i.top + ey, bottom = this.height - i.bottom - ey;
    const inside = qx > left && qx < right && qy > top && qy < bottom;
    if (!inside || moved) {
      this.ox += force || moved ? this.midX - qx : Math.max(0, left - qx) - Math.max(0, qx - right);
      this.oy += force || moved ? this.midY - qy : Math.max(0, top - qy) - Math.max(0, qy - bottom);
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
