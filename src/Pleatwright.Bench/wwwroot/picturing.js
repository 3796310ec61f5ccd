// Pictures to take away are painted in a worker of their own (PaintingRoom in Printing), put away when it is done or stopped.
let worker = null, asked = null;

// The address of the picture; a sentence where there is none; null when it was stopped. told(share, address of a small one or "").
export function paint(piece, figure, width, told) {
  stop();
  return new Promise((done) => {
    const mine = worker = new Worker(new URL("planner.js", document.baseURI), { type: "module" });
    asked = done;
    mine.onmessage = async ({ data }) => {
      if (mine !== worker) return;
      if (data.up) mine.postMessage({ piece, figure, width });
      else if (data.small) told(0, await address(data.small));
      else if (data.share !== undefined) told(data.share, "");
      else answer(data.picture ? URL.createObjectURL(data.picture) : data.fault);
    };
    mine.onerror = (e) => { e.preventDefault(); if (mine === worker) answer("The picture could not be painted in this browser."); };
  });
}

// Small pictures that a page shows are painted one after another in another worker, which rests for a while before it is put away.
const REST = 20_000;
let painter = null, last = Promise.resolve(), rest = 0;

const forgotten = new Set();
let painting = null; // the ticket of what is painted, and how it ends

// Tests of other things spare themselves the worker (noPainter).
export function soon(ticket, piece, part, widest, samples) { return queue(ticket, { piece, part, widest, samples }); }

// What lies under the needle (Lying in Plate/Playing): before its moves, or after them. wanted() says whether it is still wanted when its turn comes.
export function close(ticket, lying, after, most, samples, wanted) { return queue(ticket, { lying, after, most, samples }, wanted); }

function queue(ticket, what, wanted = () => true) {
  if (globalThis.noPainter) return Promise.resolve(null);
  return last = last.then(() => forgotten.delete(ticket) || !wanted() ? null : paintSoon(ticket, what));
}

// What waits is left out when its turn comes; what is painted now is ended with its worker, which can be stopped in no other way.
export function forget(ticket) {
  if (painting?.ticket === ticket) painting.end(null, true);
  else forgotten.add(ticket);
}

function paintSoon(ticket, what) {
  clearTimeout(rest);
  return new Promise((done) => {
    const ask = () => painter.postMessage({ soon: true, ...what });
    const end = (picture, broken) => {
      painting = null;
      if (broken) { painter.terminate(); painter = null; } else rest = setTimeout(() => { painter?.terminate(); painter = null; }, REST);
      done(picture);
    };
    painting = { ticket, end };
    const fresh = !painter, mine = painter ??= new Worker(new URL("planner.js", document.baseURI), { type: "module" });
    painter.onmessage = async ({ data }) => {
      if (data.up) ask();
      else if (data.soon !== undefined) {
        const picture = data.soon && await dataAddress(data.soon);
        if (mine === painter && painting?.end === end) end(picture, false);
      }
    };
    painter.onerror = (e) => { e.preventDefault(); if (mine === painter && painting?.end === end) end(null, true); };
    if (!fresh) ask();
  });
}

function dataAddress(blob) {
  return new Promise((done) => {
    const reader = new FileReader();
    reader.onload = () => done(reader.result);
    reader.onerror = () => done(null);
    reader.readAsDataURL(blob);
  });
}

export function stop() { answer(null); }

function answer(what) {
  worker?.terminate();
  worker = null;
  const was = asked;
  asked = null;
  was?.(what);
}

function address(bitmap) {
  const canvas = document.createElement("canvas");
  canvas.width = bitmap.width; canvas.height = bitmap.height;
  canvas.getContext("bitmaprenderer").transferFromImageBitmap(bitmap);
  return new Promise((done) => canvas.toBlob((blob) => done(URL.createObjectURL(blob))));
}

export function save(address, name) {
  const link = Object.assign(document.createElement("a"), { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
}

export function letGo(address) { URL.revokeObjectURL(address); }
