import { save } from "./picturing.js";

// Heavy work is done in a worker (Workshop.cs): one job at a time. What is stopped has a moment to end by itself; then the worker is ended with it.
const GRACE = 250;
let worker = null, isUp = false, job = null, stopping = false, jobs = 0;

// The answer begins with how it went: + done, ! why not, ~ what it needs is there no more, ? there is no worker; null when it was stopped.
export function run(kind, text, number, bytes, told) {
  stop();
  const mine = job = { id: ++jobs, ask: { job: jobs, kind, text, number, bytes: bytes?.slice() }, told };
  return new Promise((done) => {
    mine.done = done;
    wake();
    send();
  });
}

export function stop() {
  const was = job;
  job = null;
  was?.done(null);
  if (!was?.sent) return; // a worker still coming up, which costs as much as the page did, serves the next
  stopping = true;
  const mine = worker;
  mine.postMessage({ stop: was.id });
  setTimeout(() => { if (mine === worker && stopping) end(); }, GRACE);
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
    const was = job, without = !isUp;
    job = null;
    end();
    was?.done(without ? "?" : "!It took more than this browser gives.");
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
}

function end() {
  worker?.terminate();
  worker = null;
  isUp = stopping = false;
  if (job && !job.sent) wake();
}

// ---- Files and pictures that are kept under an address until they are let go ---------------------------------------------

export function addressOf(type, bytes) { return URL.createObjectURL(new Blob([bytes.slice()], { type })); }

export function handOver(address, name) {
  save(address, name);
  setTimeout(() => URL.revokeObjectURL(address), 30_000);
}
