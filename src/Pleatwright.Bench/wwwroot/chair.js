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

// A soft knock at a tick, a higher one when the item is done; no file is loaded for it.
let audio = null;

export function sound(ended) {
  try {
    audio ??= new AudioContext();
    const now = audio.currentTime, tone = audio.createOscillator(), loud = audio.createGain();
    tone.frequency.value = ended ? 880 : 440;
    loud.gain.setValueAtTime(0.14, now);
    loud.gain.exponentialRampToValueAtTime(0.001, now + (ended ? 0.3 : 0.09));
    tone.connect(loud).connect(audio.destination);
    tone.start(now);
    tone.stop(now + 0.35);
  } catch { /* no sound here; the tick is kept all the same */ }
}
