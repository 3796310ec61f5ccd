// A small map of the whole cloth: what is worked on it, and the part that is in sight. Pressed or dragged it moves the view.
import { BACK } from "./looks.js";

export class ClothMap {
  // Pixels a millimetre takes across and down are given: how large a map is, is not decided here.
  constructor(view, host, across, down) {
    this.view = view; this.host = host; this.across = across; this.down = down;
    this.canvas = host.querySelector("canvas");
    this.here = host.querySelector(".map-here");
    this.stop = new AbortController();
    const on = (name, act) => host.addEventListener(name, act, { signal: this.stop.signal });
    on("pointerdown", (e) => { host.setPointerCapture(e.pointerId); e.preventDefault(); this.go(e); });
    on("pointermove", (e) => { if (host.hasPointerCapture(e.pointerId)) this.go(e); });
    this.paint();
  }

  close() { this.stop.abort(); clearTimeout(this.soon); }

  go(e) {
    const box = this.host.getBoundingClientRect();
    this.view.centreOn((e.clientX - box.left - box.width / 2) / this.across, (e.clientY - box.top) / this.down);
  }

  // What is worked is painted anew once the hand rests; where the view is, at once.
  paintSoon() { clearTimeout(this.soon); this.soon = setTimeout(() => this.paint(), 300); }

  paint() {
    const view = this.view, c = view.cloth, dpr = window.devicePixelRatio || 1;
    if (!c) return;
    const width = parseFloat(this.host.style.width), height = parseFloat(this.host.style.height);
    this.canvas.width = Math.round(width * dpr); this.canvas.height = Math.round(height * dpr);
    const g = this.canvas.getContext("2d");
    g.scale(dpr, dpr);
    g.fillStyle = c.colour; g.fillRect(0, 0, width, height);
    const side = view.look === BACK ? -1 : 1, tall = 2 * c.line * this.down;
    g.strokeStyle = c.gatherInk; g.globalAlpha = 0.5; g.lineWidth = 0.75;
    g.beginPath();
    for (let i = 0; i < c.gatheringRows; i++) { const y = (i * 2 * c.perSpace + 1) * c.line * this.down; g.moveTo(0, y); g.lineTo(width, y); }
    g.stroke();
    g.globalAlpha = 1;
    if (view.cells.length === c.rows * c.valleys * 2) for (let row = 0, at = 0; row < c.rows; row++) {
      const w = view.pitch(row) * this.across;
      for (let v = 1; v <= c.valleys; v++, at += 2) {
        const thread = view.cells[at];
        if (thread === 0) continue;
        const from = v;
        while (v < c.valleys && view.cells[at + 2] === thread) { v++; at += 2; }
        g.fillStyle = view.threads[thread - 1].colour;
        const a = width / 2 + side * (from - 1 - c.centre) * w, b = width / 2 + side * (v + 1 - c.centre) * w;
        g.fillRect(Math.min(a, b), row * tall, Math.max(1, Math.abs(b - a)), Math.max(1, tall));
      }
    }
    this.frame();
  }

  frame() {
    const { view } = this, s = view.scale, i = view.inset;
    if (!s) return;
    const width = parseFloat(this.host.style.width), height = parseFloat(this.host.style.height);
    const x = (px) => Math.min(Math.max((px - view.ox) / s * this.across + width / 2, 0), width), y = (px) => Math.min(Math.max((px - view.oy) / s * this.down, 0), height);
    const x0 = x(i.left), x1 = x(view.width - i.right), y0 = y(i.top), y1 = y(view.height - i.bottom);
    Object.assign(this.here.style, { left: `${x0}px`, top: `${y0}px`, width: `${Math.max(4, x1 - x0)}px`, height: `${Math.max(4, y1 - y0)}px` });
  }
}
