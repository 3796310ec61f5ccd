// What lies over the cloth: the cursor, the area marked out, the rings of the proof.
import { DOWN } from "./cells.js";
import { BACK } from "./looks.js";

// The box of a brick on the screen.
export function brickBox(view, valley, row, pad = 0) {
  const xs = [view.x(valley - 1, row), view.x(valley + 1, row)].sort((a, b) => a - b);
  const y = view.y(row * 2 + (view.marks(valley, row) & DOWN ? 1 : 0));
  return [xs[0] - pad, y - pad, xs[1] - xs[0] + pad * 2, view.cloth.line * view.scale + pad * 2];
}

export function paintCursor(view, g, valley, row) {
  if (valley < 1 || valley > view.cloth.valleys || row < 0 || row >= view.cloth.rows) return;
  const pad = Math.max(3, 5 - view.cloth.line * view.scale * 0.2);
  const box = brickBox(view, valley, row, pad);
  g.lineWidth = 5; g.strokeStyle = "#fffdf7"; g.beginPath(); g.roundRect(...box, 4); g.stroke();
  g.lineWidth = 2.5; g.strokeStyle = "#17120c"; g.beginPath(); g.roundRect(...box, 4); g.stroke();
}

// The cell opposite the hand.
export function paintImage(view, g, valley, row) {
  if (valley < 1 || valley > view.cloth.valleys || row < 0 || row >= view.cloth.rows) return;
  const box = brickBox(view, valley, row, 2);
  g.lineWidth = 4; g.strokeStyle = "#fffdf7"; g.beginPath(); g.roundRect(...box, 4); g.stroke();
  g.lineWidth = 1.5; g.strokeStyle = "#17120c"; g.setLineDash([3, 3]); g.beginPath(); g.roundRect(...box, 4); g.stroke(); g.setLineDash([]);
}

// The line that is drawn about: down the whole cloth, a wing to each side at its ends.
export function paintMirror(view, g, valley) {
  const rows = view.cloth.rows, e = view.extent();
  const top = Math.max(view.inset.top + 4, view.oy + e.top * view.scale), bottom = Math.min(view.height - view.inset.bottom - 4, view.oy + e.bottom * view.scale);
  const line = () => {
    g.beginPath();
    g.moveTo(view.x(valley, 0), Math.min(top, view.y(0)));
    for (let row = 0; row < rows; row++) { g.lineTo(view.x(valley, row), view.y(row * 2)); g.lineTo(view.x(valley, row), view.y(row * 2 + 2)); }
    g.lineTo(view.x(valley, rows - 1), Math.max(bottom, view.y(rows * 2)));
    g.stroke();
  };
  g.lineWidth = 5; g.strokeStyle = "rgba(255,253,247,0.9)"; line();
  g.lineWidth = 2; g.strokeStyle = "#28536b"; line();
  const near = (row, y) => {
    const x = view.x(valley, row);
    for (const side of [-1, 1]) {
      g.beginPath(); g.moveTo(x + side * 4, y - 7); g.lineTo(x + side * 13, y); g.lineTo(x + side * 4, y + 7); g.closePath();
      g.lineWidth = 3; g.strokeStyle = "#fffdf7"; g.stroke(); g.fillStyle = "#28536b"; g.fill();
    }
  };
  near(0, top + 12);
  near(rows - 1, bottom - 12);
}

// What is taken hold of between two copies, and its words over it.
export function paintHandle(view, g, across, line, words) {
  const x = view.x(across, Math.floor(line / 2)), y = view.y(line), ink = "#28536b", paper = "#fffdf7";
  if (x < -60 || x > view.width + 60 || y < -60 || y > view.height + 60) return;
  g.fillStyle = paper; g.strokeStyle = ink; g.lineWidth = 2;
  g.beginPath(); g.roundRect(x - 22, y - 14, 44, 28, 14); g.fill(); g.stroke();
  g.fillStyle = ink;
  for (const side of [-1, 1]) { g.beginPath(); g.moveTo(x + side * 6, y - 7); g.lineTo(x + side * 15, y); g.lineTo(x + side * 6, y + 7); g.closePath(); g.fill(); }
  g.fillRect(x - 1, y - 7, 2, 14);
  g.font = `600 15px ${view.tokens.font}`;
  const wide = g.measureText(words).width + 20;
  const left = Math.max(view.inset.left + 6, Math.min(x - wide / 2, view.width - view.inset.right - 6 - wide));
  const top = y - 52 > view.inset.top + 4 ? y - 52 : y + 24;
  g.fillStyle = ink; g.beginPath(); g.roundRect(left, top, wide, 28, 14); g.fill();
  g.fillStyle = paper; g.textAlign = "left"; g.textBaseline = "middle"; g.fillText(words, left + 10, top + 14);
}

// The corner by which a figure is scaled: beside it and below, so that it covers nothing of the figure; how large the figure is stands next to it.
export function paintGrip(view, g, across, line, words, beside) {
  const side = view.look === BACK ? -1 : 1, ink = "#28536b", paper = "#fffdf7";
  const x = view.x(across, Math.max(0, Math.ceil(line / 2) - 1)) + side * beside, y = view.y(line) + beside;
  if (x < -60 || x > view.width + 60 || y < -60 || y > view.height + 60) return;
  g.fillStyle = paper; g.strokeStyle = ink; g.lineWidth = 2;
  g.beginPath(); g.arc(x, y, 15, 0, 2 * Math.PI); g.fill(); g.stroke();
  g.lineCap = "round";
  g.beginPath(); g.moveTo(x - side * 6, y - 6); g.lineTo(x + side * 6, y + 6); g.stroke();
  for (const end of [-1, 1]) { const a = x + side * end * 7, b = y + end * 7; g.beginPath(); g.moveTo(a - side * end * 7, b); g.lineTo(a, b); g.lineTo(a, b - end * 7); g.stroke(); }
  g.font = `600 13px ${view.tokens.font}`;
  const wide = g.measureText(words).width + 14;
  const left = Math.max(view.inset.left + 6, Math.min(x + side * 20 - (side < 0 ? wide : 0), view.width - view.inset.right - 6 - wide));
  g.fillStyle = ink; g.beginPath(); g.roundRect(left, y - 11, wide, 22, 11); g.fill();
  g.fillStyle = paper; g.textAlign = "left"; g.textBaseline = "middle"; g.fillText(words, left + 7, y + 1);
}

// What a finger covers, enlarged from what is painted already; the cell under it ringed, and named below.
export function paintLoupe(view, g, { x, y, left, top, width, height, nearer, words }) {
  const words0 = height - 30, dpr = view.paper.dpr, across = width / nearer, down = words0 / nearer;
  g.save();
  g.shadowColor = "rgba(20,12,4,0.5)"; g.shadowBlur = 14; g.fillStyle = "#fffdf7";
  g.beginPath(); g.roundRect(left, top, width, height, 14); g.fill();
  g.shadowColor = "transparent";
  g.clip();
  const cut = g.getTransform();
  g.drawImage(view.paper.base, (x - across / 2) * dpr, (y - down / 2) * dpr, across * dpr, down * dpr, left, top, width, words0);
  g.beginPath(); g.rect(left, top, width, words0); g.clip();
  g.translate(left + width / 2, top + words0 / 2); g.scale(nearer, nearer); g.translate(-x, -y);
  if (view.cursor) paintCursor(view, g, ...view.cursor);
  g.setTransform(cut);
  g.restore();
  g.strokeStyle = "#17120c"; g.lineWidth = 2; g.beginPath(); g.roundRect(left, top, width, height, 14); g.stroke();
  g.beginPath(); g.moveTo(left, top + words0); g.lineTo(left + width, top + words0); g.stroke();
  g.font = `600 15px ${view.tokens.font}`; g.fillStyle = "#17120c"; g.textAlign = "center"; g.textBaseline = "middle";
  g.fillText(words, left + width / 2, top + words0 + 16, width - 14);
}

function rowsBox(view, from, to, top, bottom, pad) {
  const xs = [view.x(from - 1, top), view.x(to + 1, top), view.x(from - 1, bottom), view.x(to + 1, bottom)];
  const x0 = Math.min(...xs), x1 = Math.max(...xs), y0 = view.y(top * 2), y1 = view.y(bottom * 2 + 2);
  return [x0 - pad, y0 - pad, x1 - x0 + pad * 2, y1 - y0 + pad * 2];
}

export function paintArea(view, g, [from, to, top, bottom]) {
  const box = rowsBox(view, from, to, top, bottom, 1);
  g.fillStyle = "rgba(40,83,107,0.16)"; g.fillRect(...box);
  g.lineWidth = 3; g.strokeStyle = "#fffdf7"; g.strokeRect(...box);
  g.lineWidth = 1.5; g.strokeStyle = "#17120c"; g.setLineDash([7, 5]); g.strokeRect(...box); g.setLineDash([]);
}

export function paintRing(view, g, i) {
  const [top, bottom, from, to, severity] = view.rings.subarray(i, i + 5);
  const chosen = i / 5 === view.ringChosen;
  if (!chosen && severity === 2) return; // notes are ringed only when asked for
  const box = rowsBox(view, from, to, top, bottom, chosen ? 8 : 4);
  const ink = ["#a3161f", "#8a5a00", "#1f5f7a"][severity];
  g.lineWidth = chosen ? 6 : 3.5; g.strokeStyle = "rgba(255,253,247,0.95)";
  g.beginPath(); g.roundRect(...box, 8); g.stroke();
  g.lineWidth = chosen ? 3.5 : 1.8; g.strokeStyle = ink; g.setLineDash(severity === 0 ? [] : severity === 1 ? [8, 4] : [2, 4]);
  g.beginPath(); g.roundRect(...box, 8); g.stroke();
  g.setLineDash([]);
}
