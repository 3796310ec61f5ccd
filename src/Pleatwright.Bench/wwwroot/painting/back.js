// The wrong side: what shows behind a cable, and backsmocking.
import { mix } from "./colour.js";

// Behind a cable the needle only passes through the pleat: a short slanting bead of thread shows there.
export function backRow(view, row, v0, v1, w) {
  const g = view.paper.ctx, c = view.cloth, h = c.line * view.scale;
  g.globalAlpha = 0.5;
  for (let v = v0, at = view.at(v0, row); v <= v1; v++, at += 2) {
    const thread = view.cells[at];
    if (thread === 0) continue;
    const x = view.x(v, row), y = view.y(row * 2 + 1);
    g.fillStyle = view.threads[thread - 1].colour;
    g.beginPath(); g.ellipse(x, y, Math.max(0.8, w * 0.22), Math.max(0.8, h * 0.28), 0, 0, Math.PI * 2); g.fill();
  }
  g.globalAlpha = 1;
}

// Backsmocking in two strands near the cloth's colour: a soft rope of cables along the row.
export function paintBacksmocking(view, g, x0, x1, y, h) {
  const c = view.cloth, w = c.pitch[0] * view.scale;
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
