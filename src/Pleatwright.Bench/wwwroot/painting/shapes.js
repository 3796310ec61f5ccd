// Stitches that are no cables: bands and accents, flat or with light and shade.
import { mix } from "./colour.js";
import { STITCHED, BACK } from "./looks.js";

// Stitches that are no cables, seven numbers each: kind (0 bar, 1 hidden, 2 knot, 3 drop, 4 coil), thread, across and
// down of both ends (pleats from the left edge, lines), width in lines, negative when faint.
export function paintShapes(view, shapes) {
  const g = view.paper.ctx, h = view.cloth.line * view.scale;
  g.lineCap = "round";
  for (let i = 0; i < shapes.length; i += 7) {
    const [kind, thread, a0, d0, a1, d1, width] = shapes.subarray(i, i + 7);
    if ((kind === 1) !== (view.look === BACK)) continue;
    const rowOf = (d) => Math.max(0, Math.min(view.cloth.rows - 1, Math.floor(d / 2)));
    const x0 = view.x(a0, rowOf(d0)), y0 = view.y(d0), x1 = view.x(a1, rowOf(d1)), y1 = view.y(d1);
    if (Math.max(x0, x1) < -20 || Math.min(x0, x1) > view.width + 20 || Math.max(y0, y1) < -20 || Math.min(y0, y1) > view.height + 20) continue;
    const t = view.threads[thread], wide = Math.max(1, Math.abs(width) * h);
    g.globalAlpha = width < 0 ? 0.25 : 1; // still to be worked
    if (view.look === STITCHED) roundStroke(g, kind, t, x0, y0, x1, y1, wide);
    else { g.strokeStyle = t.colour; g.fillStyle = t.colour; shape(g, kind, x0, y0, x1, y1, wide); }
  }
  g.globalAlpha = 1;
}

function shape(g, kind, x0, y0, x1, y1, wide) {
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
function roundStroke(g, kind, t, x0, y0, x1, y1, wide) {
  g.strokeStyle = g.fillStyle = "rgba(20,12,4,0.4)";
  shape(g, kind, x0 + wide * 0.05, y0 + wide * 0.22, x1 + wide * 0.05, y1 + wide * 0.22, wide);
  g.strokeStyle = g.fillStyle = mix(t.colour, "#000000", 0.28);
  shape(g, kind, x0, y0, x1, y1, wide);
  g.strokeStyle = g.fillStyle = t.colour;
  shape(g, kind, x0, y0 - wide * 0.08, x1, y1 - wide * 0.08, wide * 0.72);
  g.strokeStyle = g.fillStyle = mix(t.colour, "#ffffff", 0.38);
  if (kind !== 3) shape(g, kind, x0, y0 - wide * 0.18, x1, y1 - wide * 0.18, wide * 0.26);
  if (kind === 4) {
    const n = Math.max(2, Math.round(Math.hypot(x1 - x0, y1 - y0) / (wide * 0.4)));
    g.strokeStyle = "rgba(0,0,0,0.3)"; g.lineWidth = Math.max(0.8, wide * 0.08);
    const a = Math.atan2(y1 - y0, x1 - x0), px = -Math.sin(a) * wide * 0.45, py = Math.cos(a) * wide * 0.45;
    g.beginPath();
    for (let k = 1; k < n; k++) { const x = x0 + (x1 - x0) * k / n, y = y0 + (y1 - y0) * k / n; g.moveTo(x + px, y + py); g.lineTo(x - px * 0.7, y - py * 0.7); }
    g.stroke();
  }
}
