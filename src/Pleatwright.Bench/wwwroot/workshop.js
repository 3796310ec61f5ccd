import { save } from "./picturing.js";

// Heavy work is done in a worker (Workshop.cs): one job at a time, in turn. What is stopped has a moment to end by itself; then the worker is ended with it.
const GRACE = 250;
const waiting = [];
let worker = null, isUp = false, job = null, stopping = false;

// The answer begins with how it went: + done, ! why not, ~ what it needs is there no more, ? there is no worker; null when it was stopped.
export function run(id, kind, text, number, bytes, told) {
  return new Promise((done) => {
    waiting.push({ id, ask: { job: id, kind, text, number, bytes: bytes.slice() }, told, done });
    next();
  });
}

function next() {
  if (job || !waiting.length) return;
  job = waiting.shift();
  wake();
  send();
}

export function stop(id) {
  const at = waiting.findIndex((w) => w.id === id);
  if (at >= 0) waiting.splice(at, 1)[0].done(null);
  if (job?.id !== id) return;
  if (job.sent) { // a worker still coming up, which costs as much as the page did, serves the next
    stopping = true;
    const mine = worker;
    mine.postMessage({ stop: id });
    setTimeout(() => { if (mine === worker && stopping) end(); }, GRACE);
  }
  answer(null);
}

function wake() {
  if (worker) return;
  let mine;
  try { mine = worker = new Worker(globalThis.noWorker ? "" : new URL("planner.js", document.baseURI), { type: "module" }); }
  catch { answer("?"); return; }
  mine.onmessage = ({ data }) => {
    if (mine !== worker) return;
    if (data.up) { isUp = true; send(); }
    else if (data.free) { stopping = false; send(); }
    else if (data.job !== job?.id) { /* of what was stopped */ }
    else if (data.done !== undefined) answer(data.done);
    else job.told(data.words, data.blob ? URL.createObjectURL(data.blob) : "");
  };
  mine.onerror = (e) => {
    e.preventDefault();
    if (mine !== worker) return;
    const without = !isUp;
    worker = null;
    isUp = stopping = false;
    mine.terminate();
    answer(without ? "?" : "!It took more than this browser gives.");
  };
}

function send() {
  if (!job || !isUp || stopping || job.sent) return;
  job.sent = true;
  worker.postMessage(job.ask);
  job.ask = null;
}

function answer(what) {
  const was = job;
  job = null;
  was?.done(what);
  next();
}

// With what it was stopped in; what waits goes to another.
function end() {
  worker.terminate();
  worker = null;
  isUp = stopping = false;
  if (job) wake();
}

// ---- Files and pictures that are kept under an address until they are let go ---------------------------------------------

export function addressOf(type, bytes) { return URL.createObjectURL(new Blob([bytes.slice()], { type })); }

export function handOver(address, name) {
  save(address, name);
  setTimeout(() => URL.revokeObjectURL(address), 30_000);
}
