// What hand and keyboard do over a painted cloth, told to the program as it comes: what it means is decided there
// (Handwork and Pointing in Pleatwright.Bench.Model).
import { painterOf } from "./painter.js";

const MOVES = { pointerdown: 0, pointermove: 1, pointerup: 2, pointercancel: 3 };
const KINDS = { mouse: 0, touch: 1, pen: 2 };
const hands = new Map();

// hear(what, words) says whether the program took it.
export function take(handle, hear) {
  const host = painterOf(handle).host;
  const stop = new AbortController();
  hands.set(handle, stop);
  const on = (target, name, act, options) => target.addEventListener(name, act, { signal: stop.signal, ...options });
  const place = (e) => { const box = host.getBoundingClientRect(); return `${e.clientX - box.left} ${e.clientY - box.top}`; };
  const held = (e) => (e.shiftKey ? 1 : 0) | (e.ctrlKey || e.metaKey ? 2 : 0) | (e.altKey ? 4 : 0);
  // Going down, the button counts that went down: a pen's other end says so there alone.
  const buttons = (e) => e.buttons | (e.type === "pointerdown" && e.button > 0 ? [0, 4, 2, 8, 16, 32][e.button] ?? 0 : 0);

  const tell = (e) => hear("pointer", `${e.pointerId} ${KINDS[e.pointerType] ?? 0} ${MOVES[e.type]} ${buttons(e)} ${held(e)} ${place(e)} ${e.pressure} ${Math.max(e.width, e.height)}`);
  on(host, "pointerdown", (e) => {
    host.setPointerCapture(e.pointerId);
    if (e.button === 1) e.preventDefault();
    tell(e);
  });
  for (const name of ["pointermove", "pointerup", "pointercancel"]) on(host, name, tell);
  on(host, "contextmenu", (e) => e.preventDefault());
  on(host, "wheel", (e) => {
    e.preventDefault();
    hear("wheel", `${place(e)} ${e.deltaX} ${e.deltaY} ${e.deltaMode} ${held(e)}`);
  }, { passive: false });
  on(host, "keydown", (e) => { if (hear("keydown", nameOf(e))) { e.preventDefault(); e.stopPropagation(); } });
  on(document, "keyup", (e) => hear("keyup", e.key)); // wherever the focus has gone meanwhile
  on(window, "blur", () => hear("blur", ""));
}

// Where the cloth lies in the view: pixels a millimetre, its middle, its upper edge, whether it is seen from behind.
export function sight(handle) {
  const p = painterOf(handle);
  return p?.cloth && p.scale ? [p.scale, p.ox, p.oy, p.look === 2 ? 1 : 0] : [];
}
export function pan(handle, x, y) { painterOf(handle).pan(x, y); }
export function zoomAt(handle, factor, x, y) { painterOf(handle).zoom(factor, x, y); }

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
    const t = e.target, stops = e.key === "Escape" && !document.querySelector("dialog:modal"); // what is under way, wherever the focus is
    if (stops) { if (onKey(nameOf(e))) e.preventDefault(); return; }
    if (t instanceof HTMLInputElement && !["checkbox", "radio", "range", "button", "color"].includes(t.type)) return;
    if (t instanceof HTMLTextAreaElement || t instanceof HTMLSelectElement || document.querySelector("dialog:modal")) return;
    if (onKey(nameOf(e))) e.preventDefault();
  }, { signal: everywhere.signal });
}

// The Enter that opened a sheet must not answer it: it is swallowed until it is lifted.
let enterDown = false, swallow = false;
const swallowed = (e) => { if (swallow && e.key === "Enter") { e.preventDefault(); e.stopImmediatePropagation(); } };
document.addEventListener("keydown", (e) => { swallowed(e); if (e.key === "Enter") enterDown = true; }, true);
document.addEventListener("keypress", swallowed, true);
document.addEventListener("keyup", (e) => { if (e.key === "Enter") enterDown = swallow = false; }, true);
window.addEventListener("blur", () => { enterDown = swallow = false; });

export function showDialog(id, docked) {
  const d = document.getElementById(id);
  if (!d || d.open) return;
  swallow = enterDown;
  if (docked) d.show(); else d.showModal(); // beside the rest of the page, or over it
  // A finger that opened it wants to see it: a keyboard on the screen would cover half, and comes when a field is touched.
  if (!enterDown && matchMedia("(hover: none) and (pointer: coarse)").matches && document.activeElement?.matches("input, textarea")) d.focus();
}
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
