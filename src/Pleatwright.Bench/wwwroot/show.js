// The stage: plays one move at a time on a canvas and tells when it has ended; fills the screen; records a film with the platform's own recorder.
import { filmPlayer } from "./player.js";

let player = null, film = null, shown = "", ending = null, frames = 0;
const less = matchMedia("(prefers-reduced-motion: reduce)");

export function open(canvas, data, ended, still, left) {
  close();
  film = JSON.parse(data);
  shown = data;
  const host = document.getElementById(canvas), listens = new AbortController(), { signal } = listens;
  let begun = 0;
  player = filmPlayer.act(host, film, { ended: () => ended(begun), shown: () => { host.dataset.frames = ++frames; } });
  player.begin = (move, number, playing, pace) => {
    if (playing) {
      if (number !== begun) { begun = number; player.run(move, pace); } else player.pace(pace);
    } else {
      begun = number;
      player.show(move, film.gestures.still);
    }
  };
  addEventListener("resize", () => player?.show(), { signal });
  const watch = new ResizeObserver(() => player?.show());
  watch.observe(host);
  less.addEventListener("change", () => still(less.matches), { signal });
  document.addEventListener("fullscreenchange", () => { if (!document.fullscreenElement) left(); }, { signal });
  still(less.matches);
  ending = () => { listens.abort(); watch.disconnect(); };
}

export function close() {
  player?.close();
  ending?.();
  player = ending = null;
}

// A part of what lies under the needle has been painted.
export function lying(data, first, last, box, before, after) { if (data === shown) player?.lying({ first, last, box, before, after }); }

export const act = (move, begun, playing, pace) => player?.begin(move, begun, playing, pace);

export async function present(element, on) {
  try {
    if (on) await document.getElementById(element)?.requestFullscreen?.();
    else if (document.fullscreenElement) await document.exitFullscreen();
  } catch { /* where the screen is not given, the view fills the window all the same */ }
}

// What is recorded is painted by itself, with its caption under it, and in its own time.
let stop = null;
const KINDS = ["video/mp4;codecs=avc1", "video/webm;codecs=vp9", "video/webm;codecs=vp8", "video/webm"], WIDE = 1280, HIGH = 720, PICTURE = 560;

export async function record(name, pace, told) {
  if (!film || !window.MediaRecorder || !HTMLCanvasElement.prototype.captureStream) return "This browser cannot record a film; the command show writes one.";
  const kind = KINDS.find(k => MediaRecorder.isTypeSupported(k));
  if (!kind) return "This browser has no recorder for a film; the command show writes one.";
  const all = document.createElement("canvas"), picture = document.createElement("canvas"), pen = all.getContext("2d");
  Object.assign(all, { width: WIDE, height: HIGH });
  Object.assign(picture, { width: WIDE, height: PICTURE });
  const takes = filmPlayer.unfold(film), parts = [], recorder = new MediaRecorder(all.captureStream(30), { mimeType: kind, videoBitsPerSecond: 6_000_000 });
  const total = takes.reduce((sum, t) => sum + t.seconds, 0) / pace, recording = film;
  recorder.ondataavailable = e => { if (e.data.size) parts.push(e.data); };
  let stopped = false;
  stop = () => { stopped = true; };
  const done = new Promise(resolve => { recorder.onstop = resolve; recorder.onerror = resolve; });
  const paint = (index, share) => {
    filmPlayer.paint(picture, recording, takes, index, share);
    pen.fillStyle = "#faf7f1";
    pen.fillRect(0, 0, WIDE, HIGH);
    pen.drawImage(picture, 0, 0);
    pen.fillStyle = "#26303b";
    pen.font = "700 34px system-ui, sans-serif";
    pen.fillText(`${index + 1} of ${takes.length}`, 28, PICTURE + 46);
    pen.font = "30px system-ui, sans-serif";
    let line = "", y = PICTURE + 90;
    for (const word of takes[index].caption.split(" ")) {
      if (pen.measureText(`${line} ${word}`).width > WIDE - 56 && line) { pen.fillText(line, 28, y); y += 38; line = word; } else line = line ? `${line} ${word}` : word;
    }
    pen.fillText(line, 28, y);
  };
  paint(0, 0);
  recorder.start(1000);
  const began = performance.now();
  await new Promise(resolve => {
    const step = now => {
      let left = (now - began) / 1000 * pace, index = 0;
      if (stopped || left / pace >= total) { paint(takes.length - 1, 1); setTimeout(resolve, stopped ? 0 : 100); return; }
      while (left > takes[index].seconds) left -= takes[index++].seconds;
      paint(index, Math.max(0, left) / takes[index].seconds);
      told(Math.min(1, (now - began) / 1000 / total));
      requestAnimationFrame(step);
    };
    requestAnimationFrame(step);
  });
  recorder.stop();
  await done;
  stop = null;
  if (stopped) return "";
  const file = `${name}.${kind.startsWith("video/mp4") ? "mp4" : "webm"}`, link = document.createElement("a");
  link.href = URL.createObjectURL(new Blob(parts, { type: kind.split(";")[0] }));
  link.download = file;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  return file;
}

export const stopRecording = () => stop?.();
