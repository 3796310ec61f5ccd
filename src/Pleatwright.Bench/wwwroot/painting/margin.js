// What stands beside the cloth.
import { CHART } from "./looks.js";

// Numbers beside the gathering rows, kept in sight while panning.
export function paintMargin(view) {
  const g = view.paper.ctx, c = view.cloth;
  if (view.margin < 20) return;
  const space = 2 * c.perSpace, gap = space * c.line * view.scale;
  const size = 15;
  g.font = `500 ${size}px ${view.tokens.font}`;
  g.textBaseline = "middle";
  const near = view.inset.left + 8, far = view.width - view.inset.right - 8;
  const every = gap > 17 ? 1 : gap > 8 ? 2 : 5;
  for (let i = -c.above; i < c.gatheringRows + c.below; i++) {
    const holding = i < 0 || i >= c.gatheringRows;
    if (holding ? every > 1 : i % every !== 0) continue; // no word over another where rows lie close
    const y = view.y(i * space + 1);
    if (y < view.inset.top + 6 || y > view.height - view.inset.bottom - 6) continue;
    const row = Math.min(Math.max(i * c.perSpace, 0), c.rows - 1);
    const edges = [view.x(0, row), view.x(c.pleats, row)].sort((a, b) => a - b);
    const text = holding ? "hold" : String(i + 1);
    for (const [x, align] of [[Math.max(near, edges[0] - 8), "right"], [Math.min(far, edges[1] + 8), "left"]]) {
      const at = align === "right" ? Math.max(x, near + g.measureText(text).width) : Math.min(x, far - g.measureText(text).width);
      const overCloth = align === "right" ? at > edges[0] : at < edges[1];
      g.textAlign = align;
      if (overCloth) {
        const wide = g.measureText(text).width + 8;
        g.fillStyle = "rgba(255,252,245,0.85)";
        g.fillRect(align === "right" ? at - wide + 4 : at - 4, y - size * 0.65, wide, size * 1.3);
      }
      g.fillStyle = overCloth ? "#3a3126" : view.tokens.muted;
      g.fillText(text, at, y);
    }
  }
  if (view.look === CHART) paintCentre(view, g);
}

// The word for the centre: over the cloth's upper edge, else beside its line at the edge of the view, where no cable lies under it.
function paintCentre(view, g) {
  const c = view.cloth, above = view.y(-c.above * 2 * c.perSpace) - 16, word = "centre";
  const [top, bottom] = [view.inset.top + 16, view.height - view.inset.bottom - 16];
  g.textBaseline = "middle";
  if (above >= view.inset.top + 10) {
    g.textAlign = "center"; g.fillStyle = view.tokens.muted;
    g.fillText(word, view.ox, above);
    return;
  }
  const wide = g.measureText(word).width + 10, x = view.ox - 5 - wide;
  const y = [top, bottom].find((at) => isBare(view, x, at - 11, wide, 22));
  if (y === undefined) return;
  g.fillStyle = "rgba(255,252,245,0.85)"; g.fillRect(x, y - 10, wide, 20);
  g.textAlign = "left"; g.fillStyle = "#3a3126"; g.fillText(word, x + 5, y);
}

function isBare(view, x, y, wide, tall) {
  const c = view.cloth, line = c.line * view.scale;
  for (let row = Math.max(0, Math.floor((y - view.oy) / line / 2)); row <= Math.min(c.rows - 1, Math.floor((y + tall - view.oy) / line / 2)); row++) {
    const w = view.pitch(row) * view.scale;
    if (!(w > 0)) continue;
    const ends = [x, x + wide].map((px) => (px - view.ox) / w + c.centre).sort((a, b) => a - b);
    for (let v = Math.max(1, Math.floor(ends[0])); v <= Math.min(c.valleys, Math.ceil(ends[1])); v++) if (view.thread(v, row) > 0) return false;
  }
  return true;
}
