// The bare cloth: its pleats, its gathering rows, its centre.
import { mix } from "./colour.js";
import { CHART, BACK } from "./looks.js";

// The bare cloth: its pleats, its gathering rows, its centre.
export function paintCloth(view, left = 0, right = view.width) {
  const g = view.paper.ctx, c = view.cloth, e = view.extent();
  const y0 = view.oy + e.top * view.scale, y1 = view.oy + e.bottom * view.scale;
  if (c.even) {
    const x0 = view.x(view.look === BACK ? c.pleats : 0, 0), x1 = view.x(view.look === BACK ? 0 : c.pleats, 0);
    paintPleats(view, x0, x1, y0, y1, left, right);
  } else paintFan(view, y0, y1);
  paintGathering(view, left, right);
}

function paintPleats(view, x0, x1, y0, y1, left, right) {
  const g = view.paper.ctx, c = view.cloth;
  const w = c.pitch[0] * view.scale;
  g.fillStyle = c.colour;
  g.fillRect(x0, y0, x1 - x0, y1 - y0);
  const first = Math.max(0, Math.floor((left - x0) / w) - 1), last = Math.min(c.pleats, Math.ceil((right - x0) / w) + 1);
  if (view.look !== CHART) {
    const strip = pleatStrip(view);
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
function paintFan(view, y0, y1) {
  const g = view.paper.ctx, c = view.cloth;
  const ys = [y0];
  for (let row = 0; row <= c.rows; row++) ys.push(view.y(row * 2));
  ys.push(y1);
  const rowOf = (i) => Math.min(c.rows - 1, Math.max(0, i - 1));
  g.beginPath();
  for (let i = 0; i < ys.length; i++) g.lineTo(view.x(0, rowOf(i)), ys[i]);
  for (let i = ys.length - 1; i >= 0; i--) g.lineTo(view.x(c.pleats, rowOf(i)), ys[i]);
  g.closePath();
  g.fillStyle = c.colour;
  g.fill();
  g.strokeStyle = view.look === CHART ? c.rule : c.shade;
  g.lineWidth = 1;
  g.beginPath();
  const step = c.pitch[0] * view.scale < 2.5 ? 4 : 1;
  for (let v = 0; v <= c.pleats; v += step)
    for (let i = 0; i < ys.length; i++) {
      const x = view.x(v, rowOf(i));
      if (i === 0) g.moveTo(x, ys[i]); else g.lineTo(x, ys[i]);
    }
  g.stroke();
}

// One pleat seen from the front, lit from the upper left; stretched over the whole depth.
function pleatStrip(view) {
  return view.paper.sprite("pleat", () => {
    const w = Math.max(2, Math.round(view.cloth.pitch[0] * view.scale * view.paper.dpr));
    const strip = new OffscreenCanvas(w, 1), g = strip.getContext("2d");
    const light = g.createLinearGradient(0, 0, w, 0);
    light.addColorStop(0, mix(view.cloth.colour, "#000000", 0.42));
    light.addColorStop(0.14, mix(view.cloth.colour, "#000000", 0.12));
    light.addColorStop(0.38, mix(view.cloth.colour, "#ffffff", 0.35));
    light.addColorStop(0.62, view.cloth.colour);
    light.addColorStop(0.88, mix(view.cloth.colour, "#000000", 0.24));
    light.addColorStop(1, mix(view.cloth.colour, "#000000", 0.46));
    g.fillStyle = light;
    g.fillRect(0, 0, w, 1);
    return strip;
  });
}

function paintGathering(view, left, right) {
  const g = view.paper.ctx, c = view.cloth;
  const space = 2 * c.perSpace;
  for (let i = -c.above; i < c.gatheringRows + c.below; i++) {
    const holding = i < 0 || i >= c.gatheringRows;
    const row = Math.min(Math.max(i * c.perSpace, 0), c.rows - 1);
    const y = view.y(i * space + 1);
    if (y < -4 || y > view.height + 4) continue;
    const w = view.pitch(row) * view.scale;
    const a = Math.max(Math.min(view.x(0, row), view.x(c.pleats, row)), left - w * 2);
    const b = Math.min(Math.max(view.x(0, row), view.x(c.pleats, row)), right + w * 2);
    if (b <= a) continue;
    g.strokeStyle = holding ? c.holdingInk : c.gatherInk;
    g.lineWidth = view.look === CHART ? 1.5 : Math.max(1, 0.28 * view.scale);
    // A running stitch: one dash a pleat, set off from the cloth's edge so that it lies still while panning.
    const edge = Math.min(view.x(0, row), view.x(c.pleats, row));
    const from = edge + Math.floor((a - edge) / w) * w;
    g.setLineDash(w >= 3 ? [w * 0.6, w * 0.4] : [4, 3]);
    g.lineDashOffset = w >= 3 ? -w * 0.2 : 0;
    g.beginPath();
    g.moveTo(from, y);
    g.lineTo(b, y);
    g.stroke();
    g.setLineDash([]);
  }
  if (view.look === CHART) {
    const y0 = view.y(-c.above * space - 2), y1 = view.y(c.rows * 2 + c.below * space + 2);
    const x = Math.round(view.ox) + 0.5;
    if (x >= left && x <= right) {
      g.strokeStyle = c.centreInk;
      g.lineWidth = 2;
      g.setLineDash([10, 4, 2, 4]);
      g.beginPath(); g.moveTo(x, y0); g.lineTo(x, y1); g.stroke();
      g.setLineDash([]);
    }
  }
}

// Gathering threads where no stitch lies over them: on the piece drawn as it will look they show between the stitches alone.
export function paintBareGathering(view) {
  const g = view.paper.ctx, c = view.cloth;
  for (let i = -c.above; i < c.gatheringRows + c.below; i++) {
    const holding = i < 0 || i >= c.gatheringRows, row = Math.min(Math.max(i * c.perSpace, 0), c.rows - 1);
    const y = view.y(i * 2 * c.perSpace + 1), w = view.pitch(row) * view.scale;
    if (y < -4 || y > view.height + 4 || w < 3) continue;
    g.strokeStyle = holding ? c.holdingInk : c.gatherInk;
    g.lineWidth = Math.max(1, 0.2 * view.scale);
    g.beginPath();
    for (let p = 0; p < c.pleats; p++) {
      const x = view.x(p, row);
      if (x + w < 0 || x > view.width) continue;
      if (!holding && (p > 0 && view.thread(p, row) !== 0 || p < c.valleys && view.thread(p + 1, row) !== 0)) continue;
      g.moveTo(x + w * 0.3, y);
      g.lineTo(x + w * 0.7, y);
    }
    g.stroke();
  }
}
