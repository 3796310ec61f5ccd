// Pictures: chosen, dropped or pasted, decoded by the browser, and shown with the part to trace marked out.

const MOST_BYTES = 64 * 1024 * 1024, MOST_PIXELS = 50_000_000, MOST_KEPT = 2_000_000;
let stop = null, kept = null;

// Listens over an element for pictures, chosen, dropped or pasted; what it returns adds listeners that end with it.
function takeIn(hostId, onPicture, onRefused) {
  stop?.abort();
  stop = new AbortController();
  const host = document.getElementById(hostId), signal = stop.signal;
  if (!host) return null;
  const on = (target, name, act) => target.addEventListener(name, act, { signal });
  const take = (file) => { if (file) read(file, onPicture, onRefused); };
  on(host, "dragover", (e) => { e.preventDefault(); host.dataset.over = "yes"; });
  on(host, "dragleave", () => delete host.dataset.over);
  on(host, "drop", (e) => { e.preventDefault(); delete host.dataset.over; take(e.dataTransfer.files[0]); });
  on(document, "paste", (e) => {
    const file = [...e.clipboardData?.files ?? []].find((f) => f.type.startsWith("image/"));
    if (file) { e.preventDefault(); take(file); }
  });
  on(host, "change", (e) => { if (e.target.type === "file") { take(e.target.files[0]); e.target.value = ""; } });
  return { host, on };
}

// Where in the canvas's own pixels a pointer is.
function place(e, canvas) {
  const box = canvas.getBoundingClientRect();
  const at = (v, size, most) => Math.max(0, Math.min(most, Math.round(v / size * most)));
  return [at(e.clientX - box.left, box.width, canvas.width), at(e.clientY - box.top, box.height, canvas.height)];
}

// Listens for a spot pressed, and for the arrow keys that move it; with Shift by larger steps.
let spot = [0, 0];
export function listenSpot(hostId, onPicture, onRefused, onSpot) {
  const pane = takeIn(hostId, onPicture, onRefused);
  if (!pane) return;
  const { host, on } = pane;
  let held = false;
  on(host, "pointerdown", (e) => {
    if (!(e.target instanceof HTMLCanvasElement) || e.button !== 0) return;
    held = true;
    e.target.setPointerCapture(e.pointerId);
    onSpot(...place(e, e.target));
  });
  on(host, "pointermove", (e) => { if (held) onSpot(...place(e, e.target)); });
  on(host, "pointerup", () => { held = false; });
  on(host, "pointercancel", () => { held = false; });
  on(host, "keydown", (e) => {
    const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] }[e.key];
    const canvas = e.target.querySelector?.("canvas");
    if (!way || !canvas) return;
    e.preventDefault();
    e.stopPropagation();
    const step = Math.max(1, Math.round(Math.min(canvas.width, canvas.height) * (e.shiftKey ? .1 : .02)));
    const move = (v, w, most) => Math.max(0, Math.min(most - 1, v + w * step));
    onSpot(move(spot[0], way[0], canvas.width), move(spot[1], way[1], canvas.height));
  });
}

export function showSpot(hostId, x, y, radius) {
  spot = [x, y];
  const host = document.getElementById(hostId), canvas = host?.querySelector("canvas"), ring = host?.querySelector(".spot-ring");
  if (!canvas || !ring) return;
  ring.hidden = false;
  ring.style.left = `${x / canvas.width * 100}%`;
  ring.style.top = `${y / canvas.height * 100}%`;
  ring.style.width = `${2 * radius / canvas.width * 100}%`;
}

// Listens for pictures and for a part marked out with the pointer; asks for nothing twice.
export function listen(hostId, onPicture, onRefused, onCrop) {
  const pane = takeIn(hostId, onPicture, onRefused);
  if (!pane) return;
  const { host, on } = pane;
  let from = null, part = null;
  on(host, "pointerdown", (e) => {
    if (!(e.target instanceof HTMLCanvasElement) || e.button !== 0) return;
    e.target.setPointerCapture(e.pointerId);
    from = place(e, e.target);
    e.preventDefault();
  });
  on(host, "pointermove", (e) => {
    if (!from) return;
    const to = place(e, e.target);
    part = [Math.min(from[0], to[0]), Math.min(from[1], to[1]), Math.abs(to[0] - from[0]), Math.abs(to[1] - from[1])];
    mark(host, e.target, part);
  });
  const lift = (e) => {
    if (from && part && part[2] > 3 && part[3] > 3) onCrop(part.join(","));
    from = part = null;
  };
  on(host, "pointerup", lift);
  on(host, "pointercancel", lift);
}

export function leave() { stop?.abort(); stop = null; }

// The pixels of the picture last taken, red, green, blue, alpha.
export function pixels(view) { view.set(new Uint8Array(kept.data.buffer)); }

// Paints pixels on a canvas and marks the part to trace; no part for the whole.
export function show(hostId, width, height, view, x, y, w, h) {
  const host = document.getElementById(hostId), canvas = host?.querySelector("canvas");
  if (!canvas) return;
  canvas.width = width; canvas.height = height;
  canvas.parentElement.style.setProperty("--shape", width / height);
  canvas.getContext("2d").putImageData(new ImageData(new Uint8ClampedArray(view.slice()), width, height), 0, 0);
  mark(host, canvas, w > 0 ? [x, y, w, h] : null);
}

function mark(host, canvas, part) {
  const frame = host.querySelector(".crop-frame");
  if (!frame) return;
  frame.hidden = !part;
  if (!part) return;
  const share = (v, most) => `${v / most * 100}%`;
  frame.style.left = share(part[0], canvas.width);
  frame.style.top = share(part[1], canvas.height);
  frame.style.width = share(part[2], canvas.width);
  frame.style.height = share(part[3], canvas.height);
}

// The file's name without its ending serves as title and as the figure's name, and is kept as short as either.
const nameOf = (file) => [...file.replace(/\.[^.]*$/, "").trim()].slice(0, 60).join("") || "picture";

async function read(file, onPicture, onRefused) {
  const refuse = (why) => onRefused(`${file.name || "The picture"}: ${why}`);
  if (file.size > MOST_BYTES) return refuse("the file is larger than 64 MB; make the picture smaller first.");
  // The header alone says how large it will be; nothing is decoded past the cap.
  const size = sizeOf(new DataView(await file.slice(0, 1 << 20).arrayBuffer()));
  if (!size) return refuse("this is no picture that can be read here, or it is broken; use PNG, JPEG, WebP or GIF.");
  if (!(size[0] > 0 && size[1] > 0) || size[0] * size[1] > MOST_PIXELS)
    return refuse(`the picture is ${size[0]} × ${size[1]} pixels; ${MOST_PIXELS / 1e6} million pixels in all is the most.`);
  let bitmap;
  try { bitmap = await createImageBitmap(file, { imageOrientation: "from-image" }); } catch { return refuse("the picture is broken and cannot be read."); }
  // Far finer than any lattice; more would only wait longer.
  const scale = Math.min(1, Math.sqrt(MOST_KEPT / (bitmap.width * bitmap.height)));
  const canvas = new OffscreenCanvas(Math.max(1, Math.round(bitmap.width * scale)), Math.max(1, Math.round(bitmap.height * scale)));
  const context = canvas.getContext("2d", { willReadFrequently: true });
  context.imageSmoothingQuality = "high";
  context.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  bitmap.close();
  kept = context.getImageData(0, 0, canvas.width, canvas.height);
  onPicture(kept.width, kept.height, nameOf(file.name));
}

// Width and height as the headers of PNG, GIF, WebP and JPEG say them; null for anything else.
function sizeOf(b) {
  const text = (at, length) => at + length <= b.byteLength ? String.fromCharCode(...new Uint8Array(b.buffer, at, length)) : "";
  try {
    if (text(1, 3) === "PNG") return [b.getUint32(16), b.getUint32(20)];
    if (text(0, 4) === "GIF8") return [b.getUint16(6, true), b.getUint16(8, true)];
    if (text(0, 4) === "RIFF" && text(8, 4) === "WEBP") {
      const three = (at) => b.getUint16(at, true) | b.getUint8(at + 2) << 16;
      switch (text(12, 4)) {
        case "VP8X": return [1 + three(24), 1 + three(27)];
        case "VP8L": { const bits = b.getUint32(21, true); return [1 + (bits & 0x3fff), 1 + (bits >>> 14 & 0x3fff)]; }
        case "VP8 ": return [b.getUint16(26, true) & 0x3fff, b.getUint16(28, true) & 0x3fff];
      }
      return null;
    }
    if (b.getUint16(0) === 0xffd8)
      for (let at = 2; ;) {
        if (b.getUint8(at) !== 0xff) return null;
        const marker = b.getUint8(at + 1);
        if (marker === 0xff) { at++; continue; }
        if (marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker)) return [b.getUint16(at + 7), b.getUint16(at + 5)];
        at += 2 + b.getUint16(at + 2);
      }
  } catch {
    // the header breaks off
  }
  return null;
}
