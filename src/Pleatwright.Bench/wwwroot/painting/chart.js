// The chart: a brick a cable, with the letter of its thread; half stitches; and the bare bricks.
import { DOWN, HALF_LEFT, HALF_RIGHT } from "./cells.js";

export function latticeRow(view, row, v0, v1, w) {
  const g = view.paper.ctx, c = view.cloth, h = c.line * view.scale;
  g.strokeStyle = c.rule;
  g.lineWidth = 1;
  g.beginPath();
  for (let v = v0, at = view.at(v0, row); v <= v1; v++, at += 2)
    if (view.cells[at] === 0) g.rect(view.x(v - 1, row) + 1.5, view.y(row * 2 + (view.cells[at + 1] & DOWN ? 1 : 0)) + 1, 2 * w - 3, h - 2);
  g.stroke();
}

export function chartRow(view, row, v0, v1, w) {
  const h = view.cloth.line * view.scale;
  const seam = h > 5 ? 1 : h > 2.5 ? 0.5 : 0;
  for (let v = v0, at = view.at(v0, row); v <= v1; v++, at += 2) {
    const thread = view.cells[at], marks = view.cells[at + 1];
    const x = view.x(v - 1, row), y = view.y(row * 2 + (marks & DOWN ? 1 : 0));
    if (thread === 0) continue;
    brick(view, view.threads[thread - 1], x, y, 2 * w, h, seam, view.faint(v, row));
    if (marks & HALF_LEFT) half(view, thread, view.x(v - 1, row), otherLine(view, row, marks), w, h, seam, v, row);
    if (marks & HALF_RIGHT) half(view, thread, view.x(v, row), otherLine(view, row, marks), w, h, seam, v, row);
  }
}

function otherLine(view, row, marks) { return view.y(row * 2 + (marks & DOWN ? 0 : 1)); }

function brick(view, t, x, y, w, h, seam, faint) {
  const g = view.paper.ctx;
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
  if (h >= 9) { const s = letter(view, t, h); g.drawImage(s, x + w / 2 - s.width / 2 / view.paper.dpr, y + h / 2 - s.height / 2 / view.paper.dpr, s.width / view.paper.dpr, s.height / view.paper.dpr); }
}

function half(view, thread, x, y, w, h, seam, v, row) {
  const g = view.paper.ctx, t = view.threads[thread - 1];
  g.globalAlpha = view.faint(v, row) ? 0.16 : 1;
  g.fillStyle = t.colour;
  g.fillRect(x + seam, y + seam / 2, w - seam * 2, h - seam);
  if (h >= 5) { // a slanting tick tells a half stitch from a cable
    g.strokeStyle = t.over;
    g.lineWidth = Math.max(1, h * 0.1);
    g.beginPath(); g.moveTo(x + w * 0.3, y + h * 0.75); g.lineTo(x + w * 0.7, y + h * 0.25); g.stroke();
  }
  g.globalAlpha = 1;
}

function letter(view, t, h) {
  const size = Math.round(Math.min(h * 0.86, 22) * view.paper.dpr);
  return view.paper.sprite(`letter ${t.letter} ${t.over} ${size}`, () => {
    const s = new OffscreenCanvas(Math.ceil(size * 1.2), Math.ceil(size * 1.2)), g = s.getContext("2d");
    g.font = `600 ${size}px ${view.tokens.font}`;
    g.textAlign = "center"; g.textBaseline = "middle";
    g.fillStyle = t.over;
    g.fillText(t.letter, s.width / 2, s.height / 2 + size * 0.05);
    return s;
  });
}
