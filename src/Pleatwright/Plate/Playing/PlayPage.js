"use strict";
(() => {
  const $ = id => document.getElementById(id), film = JSON.parse($("film").textContent);
  const paces = [1, 0.5, 0.25];
  let pace = 0, loop = false, now = null;
  const player = filmPlayer.open($("cloth"), film, { told });
  function told(at) {
    const moved = !now || now.index !== at.index;
    now = at;
    $("play").textContent = at.playing ? "Stop" : "Play";
    if (!moved) return;
    $("number").textContent = `${at.index + 1} of ${at.count}`;
    $("caption").textContent = at.caption;
    $("back").disabled = at.index === 0;
    $("next").disabled = at.index + 1 === at.count;
  }
  $("play").onclick = () => player.play();
  $("back").onclick = () => player.back();
  $("next").onclick = () => player.next();
  $("pace").onclick = () => {
    pace = (pace + 1) % paces.length;
    player.pace(paces[pace]);
    $("pace").textContent = ["Slower", "Slower still", "Usual pace"][pace];
  };
  $("loop").onclick = () => {
    loop = !loop;
    player.repeat(loop);
    $("loop").setAttribute("aria-pressed", loop);
  };
  document.addEventListener("keydown", e => {
    if (e.altKey || e.ctrlKey || e.metaKey || e.target.closest("button") && e.key === " ") return;
    const act = { " ": "play", ArrowLeft: "back", ArrowRight: "next", s: "pace", l: "loop" }[e.key];
    if (!act) return;
    e.preventDefault();
    if (!$(act).disabled) $(act).click();
  });
  addEventListener("resize", () => player.show());
  matchMedia("(prefers-reduced-motion: reduce)").addEventListener("change", () => player.still());
})();
