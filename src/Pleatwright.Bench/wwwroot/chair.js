// Keeps the screen awake at the chair. The lock goes whenever the page is out of sight, so it is asked for again.
let wanted = false, lock = null;

async function ask() {
  if (!wanted || lock || document.visibilityState !== "visible" || !navigator.wakeLock) return;
  try {
    lock = await navigator.wakeLock.request("screen");
    lock.addEventListener("release", () => { lock = null; });
    if (!wanted) lock.release();
  } catch { /* a low battery or a browser that may not; the screen sleeps as it always did */ }
}

document.addEventListener("visibilitychange", ask);

export async function stayAwake(on) {
  wanted = on;
  if (on) await ask(); else await lock?.release();
  return lock !== null;
}
