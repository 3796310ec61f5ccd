// The thread's way over the cloth, and behind it.
import { paintBacksmocking } from "./back.js";

// A route is a list of legs, seven numbers each: kind (0 worked, 1 carried, 2 started, 3 tied off, 4 backsmocked, 5 on
// the way to a tie-off), pleat and cable row of both ends, thread, state (0 done, 1 now, 2 next).
export function paintLegs(view, g, legs) {
  for (const now of [2, 0, 1])
    for (let i = 0; i < legs.length; i += 7)
      if (legs[i + 6] === now) paintLeg(view, g, legs.subarray(i, i + 7), now);
}

function paintLeg(view, g, [kind, p0, r0, p1, r1, thread], now) {
  const h = view.cloth.line * view.scale;
  const x0 = view.x(p0 - 0.5, Math.floor(r0)), y0 = view.y(r0 * 2), x1 = view.x(p1 - 0.5, Math.floor(r1)), y1 = view.y(r1 * 2);
  if (Math.max(y0, y1) < -20 || Math.min(y0, y1) > view.height + 20 || Math.max(x0, x1) < -20 || Math.min(x0, x1) > view.width + 20) return;
  if (kind === 4) { paintBacksmocking(view, g, x0, x1, y0, h); return; }
  const colour = view.threads[thread]?.colour ?? "#555555";
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
  if (now === 1 && kind === 0) arrow(g, x0, y0, x1, y1, width);
  g.globalAlpha = 1;
}

function arrow(g, x0, y0, x1, y1, width) {
  const a = Math.atan2(y1 - y0, x1 - x0), size = width * 3;
  g.fillStyle = "#17120c"; g.strokeStyle = "#fffdf7"; g.lineWidth = 2;
  g.beginPath();
  g.moveTo(x1 + Math.cos(a) * size * 0.6, y1 + Math.sin(a) * size * 0.6);
  g.lineTo(x1 - Math.cos(a - 0.6) * size, y1 - Math.sin(a - 0.6) * size);
  g.lineTo(x1 - Math.cos(a + 0.6) * size, y1 - Math.sin(a + 0.6) * size);
  g.closePath(); g.stroke(); g.fill();
}
