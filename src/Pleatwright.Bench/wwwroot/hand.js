// Pointer, wheel and key events over a painted cloth, turned into cells of the lattice before they reach the program:
// it hears of a cell once, not of every pixel.
import { painterOf } from "./painter.js";

const DOWN = 0, MOVE = 1, UP = 2, CANCEL = 3;
const SHIFT = 16, CTRL = 32, ALT = 64, OTHER_BUTTON = 128;
const hands = new Map();

export function take(handle, onCell, onKey) {
  const p = painterOf(handle), host = p.host;
  const stop = new AbortController();
  hands.set(handle, stop);
  const on = (target, name, act, options) => target.addEventListener(name, act, { signal: stop.signal, ...options });
  const fingers = new Map();
  let drawing = -1, last = null, lastPoint = null, panning = null, pinch = null;

  const place = (e) => { const box = host.getBoundingClientRect(); return [e.clientX - box.left, e.clientY - box.top]; };
  const bits = (e) => (e.shiftKey ? SHIFT : 0) | (e.ctrlKey || e.metaKey ? CTRL : 0) | (e.altKey ? ALT : 0) | (e.button === 2 || (e.buttons & 2) || e.button === 5 || (e.buttons & 32) ? OTHER_BUTTON : 0);
  const tell = (kind, e, cell) => onCell(kind | bits(e), cell[0], cell[1]);

  on(host, "pointerdown", (e) => {
    const at = place(e);
    fingers.set(e.pointerId, at);
    if (e.pointerType === "touch" && fingers.size === 2) {
      if (drawing >= 0) { onCell(CANCEL, 0, 0); drawing = -1; }
      panning = null;
      const [a, b] = [...fingers.values()];
      pinch = { gap: Math.hypot(a[0] - b[0], a[1] - b[1]), mid: [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] };
      return;
    }
    if (fingers.size > 2) return;
    host.setPointerCapture(e.pointerId);
    if (e.button === 1) { panning = at; e.preventDefault(); return; }
    const cell = p.cellAt(...at);
    if (!cell) { panning = at; return; }
    drawing = e.pointerId; last = cell; lastPoint = at;
    tell(DOWN, e, cell);
  });

  on(host, "pointermove", (e) => {
    const at = place(e);
    if (fingers.has(e.pointerId)) fingers.set(e.pointerId, at);
    if (pinch && fingers.size === 2) {
      const [a, b] = [...fingers.values()];
      const gap = Math.hypot(a[0] - b[0], a[1] - b[1]), mid = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
      p.pan(mid[0] - pinch.mid[0], mid[1] - pinch.mid[1]);
      if (pinch.gap > 0) p.zoom(gap / pinch.gap, mid[0], mid[1]);
      pinch = { gap, mid };
      return;
    }
    if (panning) { p.pan(at[0] - panning[0], at[1] - panning[1]); panning = at; return; }
    if (drawing !== e.pointerId) return;
    for (const cell of cellsBetween(lastPoint, at)) {
      if (last && cell[0] === last[0] && cell[1] === last[1]) continue;
      last = cell;
      tell(MOVE, e, cell);
    }
    lastPoint = at;
  });

  // A quick hand skips pixels; the line between two events is walked so that it skips no stitch.
  function cellsBetween(a, b) {
    const step = Math.max(1, p.cloth.line * p.scale * 0.4);
    const n = Math.max(1, Math.min(400, Math.ceil(Math.hypot(b[0] - a[0], b[1] - a[1]) / step)));
    const cells = [];
    for (let i = 1; i <= n; i++) {
      const cell = p.cellAt(a[0] + (b[0] - a[0]) * i / n, a[1] + (b[1] - a[1]) * i / n);
      if (cell) cells.push(cell);
    }
    return cells;
  }

  const lift = (e, kind) => {
    fingers.delete(e.pointerId);
    if (fingers.size < 2) pinch = null;
    panning = null;
    if (drawing === e.pointerId) { drawing = -1; tell(kind, e, last ?? [0, 0]); }
  };
  on(host, "pointerup", (e) => lift(e, UP));
  on(host, "pointercancel", (e) => lift(e, CANCEL));
  on(host, "contextmenu", (e) => e.preventDefault());

  on(host, "wheel", (e) => {
    e.preventDefault();
    const unit = e.deltaMode === 1 ? 24 : 1;
    if (e.ctrlKey || e.metaKey) p.zoom(Math.exp(-e.deltaY * unit * 0.004), ...place(e));
    else if (e.shiftKey && e.deltaX === 0) p.pan(-e.deltaY * unit, 0);
    else p.pan(-e.deltaX * unit, -e.deltaY * unit);
  }, { passive: false });

  on(host, "keydown", (e) => { if (onKey(nameOf(e))) { e.preventDefault(); e.stopPropagation(); } });
}

const nameOf = (e) =>
  (e.ctrlKey || e.metaKey ? "Ctrl+" : "") + (e.altKey ? "Alt+" : "") + (e.shiftKey && (e.key.length > 1 || e.ctrlKey || e.metaKey) ? "Shift+" : "") + e.key;

export function release(handle) { hands.get(handle)?.abort(); hands.delete(handle); }

// ---- What else the program asks of the page -------------------------------------------------------------------------

let everywhere = null;

// Keys that work wherever the maker is, save where text is typed.
export function listen(onKey) {
  everywhere?.abort();
  everywhere = new AbortController();
  document.addEventListener("keydown", (e) => {
    const t = e.target;
    if (t instanceof HTMLInputElement && !["checkbox", "radio", "range", "button", "color"].includes(t.type)) return;
    if (t instanceof HTMLTextAreaElement || t instanceof HTMLSelectElement || document.querySelector("dialog:modal")) return;
    if (onKey(nameOf(e))) e.preventDefault();
  }, { signal: everywhere.signal });
}

export function showDialog(id) { const d = document.getElementById(id); if (d && !d.open) d.showModal(); }
export function closeDialog(id) { const d = document.getElementById(id); if (d?.open) d.close(); }
export function go(view) { location.hash = view; } // told to the program as if a link had been followed
export function focus(id) { document.getElementById(id)?.focus(); }
export function bringIntoView(id) { document.getElementById(id)?.scrollIntoView({ block: "nearest" }); }
export function now() { return performance.now(); }

export function theme() { return document.documentElement.dataset.theme ?? ""; }
export function setTheme(name) {
  if (name) document.documentElement.dataset.theme = name; else delete document.documentElement.dataset.theme;
  try { if (name) localStorage.setItem("theme", name); else localStorage.removeItem("theme"); } catch { /* a private window keeps nothing */ }
}
