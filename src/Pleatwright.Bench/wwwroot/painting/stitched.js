// The stitched look: thread with light and shade.
import { mix } from "./colour.js";
import { DOWN, HALF_LEFT, HALF_RIGHT } from "./cells.js";

export function stitchRow(view, row, v0, v1, w) {
  const g = view.paper.ctx, c = view.cloth, h = c.line * view.scale;
  for (let v = v0, at = view.at(v0, row); v <= v1; v++, at += 2) {
    const thread = view.cells[at], marks = view.cells[at + 1];
    if (thread === 0) continue;
    const s = cable(view, view.threads[thread - 1], w * 2, h, marks & DOWN);
    const x = view.x(v - 1, row), y = view.y(row * 2 + (marks & DOWN ? 1 : 0));
    g.globalAlpha = view.faint(v, row) ? 0.14 : 1;
    put(view, s, x, y);
    const other = marks & DOWN ? 0 : 1;
    if (marks & HALF_LEFT) put(view, cable(view, view.threads[thread - 1], w, h, other), view.x(v - 1, row), view.y(row * 2 + other));
    if (marks & HALF_RIGHT) put(view, cable(view, view.threads[thread - 1], w, h, other), view.x(v, row), view.y(row * 2 + other));
    g.globalAlpha = 1;
  }
}

function put(view, s, x, y) {
  view.paper.ctx.drawImage(s, x - s.padX / view.paper.dpr, y - s.padY / view.paper.dpr, s.width / view.paper.dpr, s.height / view.paper.dpr);
}

// A cable as it lies: strands side by side, bowed towards its own line, sunk into the valleys at both ends.
function cable(view, t, width, height, down) {
  const W = Math.max(3, Math.round(width * view.paper.dpr)), H = Math.max(2, Math.round(height * view.paper.dpr));
  return view.paper.sprite(`cable ${t.colour} ${t.strands} ${W} ${H} ${down ? 1 : 0}`, () => {
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
