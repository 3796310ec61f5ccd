// Orders are planned in a worker, so that the hand never waits for one (WorkerRoom in Working). One at a time; the program sees to that.
let worker = null, up = null, isUp = false, asked = null;

function wake() {
  if (worker) return up;
  const mine = worker = new Worker(new URL("planner.js", document.baseURI), { type: "module" });
  up = new Promise((done) => {
    mine.onmessage = ({ data }) => {
      if (mine !== worker) return;
      if (data.up) { isUp = true; done(); }
      else if (data.share !== undefined) asked?.told(data.share);
      else answer(data.order);
    };
    mine.onerror = (e) => { e.preventDefault(); if (mine === worker) end(); };
  });
  return up;
}

function answer(order) {
  const was = asked;
  asked = null;
  was?.done(order ?? null);
}

// The order as text; null when it was stopped or cannot be planned here.
export function plan(piece, told) {
  return new Promise((done) => {
    const mine = asked = { done, told };
    wake().then(() => { if (asked === mine) worker.postMessage(piece); });
  });
}

// One that plans can be stopped in no other way than by ending it; one that is still coming up, which costs as much as the page did, serves the next.
export function stop() {
  if (isUp && asked) end();
  else answer(null);
}

function end() {
  worker?.terminate();
  worker = up = null;
  isUp = false;
  answer(null);
}
