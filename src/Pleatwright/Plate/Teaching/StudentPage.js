(() => {
  const plate = JSON.parse(document.getElementById("plate").textContent);
  const $ = id => document.getElementById(id);
  const svgns = "http://www.w3.org/2000/svg";

  // The place and the choices. They are kept under the title; a piece that was changed since asks to be looked at.
  const key = "pleatwright page\n" + plate.title;
  const fresh = () => ({ hand: plate.hand, hold: plate.hold, large: document.documentElement.classList.contains("large"), theme: "", awake: false, items: 0, ticks: 0, mark: "" });
  let at = fresh(), keeps = true, doubt = "";
  const work = () => plate.hands[at.hand];
  const items = () => work().items;
  const ticksOf = item => item.ticks || 1;

  function load() {
    let kept = null;
    try { kept = JSON.parse(localStorage.getItem(key)); } catch { keeps = false; }
    if (!kept || typeof kept !== "object") kept = fromAddress();
    if (kept) {
      for (const name of Object.keys(at)) if (typeof kept[name] === typeof at[name]) at[name] = kept[name];
      if (at.hand !== "left") at.hand = "right";
      if (at.hold !== "sideways") at.hold = "upright";
      if (!Number.isInteger(at.items) || at.items < 0) at.items = 0;
      if (!Number.isInteger(at.ticks) || at.ticks < 0) at.ticks = 0;
      at.items = Math.min(at.items, items().length);
      const same = !at.mark || at.mark === work().mark;
      if (!same && at.items + at.ticks > 0) doubt = "The piece has changed since you last ticked. See that the place is right.";
      if (!same || at.items === items().length || at.ticks >= ticksOf(items()[at.items])) at.ticks = 0;
    }
    at.mark = work().mark;
  }

  // Where nothing may be kept, the address still holds the place through a reload.
  function fromAddress() {
    const found = /^#(left|right)-(\d{1,7})-(\d{1,7})-([0-9a-f]{16})$/.exec(location.hash);
    return found && { hand: found[1], items: +found[2], ticks: +found[3], mark: found[4] };
  }

  function keep() {
    at.mark = work().mark;
    try { localStorage.setItem(key, JSON.stringify(at)); keeps = true; } catch { keeps = false; }
    if (!keeps) try { history.replaceState(null, "", `#${at.hand}-${at.items}-${at.ticks}-${at.mark}`); } catch { /* then the open page alone holds it */ }
  }

  function move(to) {
    Object.assign(at, to);
    keep();
    show();
  }

  function tick() {
    const item = items()[at.items];
    if (!item) return;
    move(at.ticks + 1 < ticksOf(item) ? { ticks: at.ticks + 1 } : { items: at.items + 1, ticks: 0 });
  }

  function back() {
    if (at.ticks > 0) move({ ticks: at.ticks - 1 });
    else if (at.items > 0) move({ items: at.items - 1, ticks: ticksOf(items()[at.items - 1]) - 1 });
  }

  const runDone = () => { if (at.items < items().length) move({ items: at.items + 1, ticks: 0 }); };

  const count = (n, one, many) => `${n} ${n === 1 ? one : many || one + "s"}`;
  const sideways = () => at.hold === "sideways";
  const level = s => "Uu".includes(s) ? (sideways() ? "left" : "up") : (sideways() ? "right" : "down");

  function put(parent, tag, text, kind) {
    const child = document.createElement(tag);
    if (text !== undefined) child.textContent = text;
    if (kind) child.className = kind;
    parent.append(child);
    return child;
  }

  function brick(parent, letter) {
    const thread = plate.threads[letter], mark = put(parent, "b", letter, "brick");
    mark.style.background = thread.colour;
    mark.style.color = thread.letter;
    return thread;
  }

  function show() {
    const all = items(), item = all[at.items], finished = !item;
    document.documentElement.classList.toggle("large", at.large);
    if (at.theme) document.documentElement.dataset.theme = at.theme; else delete document.documentElement.dataset.theme;
    $("name").textContent = finished ? "All stitched" : item.name;
    $("which").textContent = `${Math.min(at.items + 1, all.length)} of ${all.length} to do`;
    $("progress").max = Math.max(1, all.reduce((sum, i) => sum + ticksOf(i), 0));
    $("progress").value = all.slice(0, at.items).reduce((sum, i) => sum + ticksOf(i), 0) + at.ticks;
    $("changed").hidden = !doubt;
    $("changed").firstElementChild.textContent = doubt;

    const line = $("thread"), said = $("said");
    line.replaceChildren();
    said.replaceChildren();
    $("held").replaceChildren();
    turn(item, at.items > 0 && !finished ? !!all[at.items - 1].turned : false);
    row(item);
    $("tally").textContent = item && item.ticks ? `${at.ticks} of ${item.ticks}` : "";
    if (item && item.thread) {
      const thread = brick(line, item.thread);
      line.append(` ${thread.name}, ${thread.strands}`);
      if (item.stitches) $("held").append(cables(item));
      else if (item.shapes) $("held").append(band(item));
    }
    if (finished) put(said, "p", all.length ? "Block it gently, and count your needles and pins back." : "There is nothing to stitch here.");
    else {
      let heading = at.items;
      while (heading > 0 && all[heading].heading === undefined) heading--;
      if (all[heading].heading) put(said, "h2", all[heading].heading);
      for (const [kind, text] of (sideways() && item.saidSideways) || item.said) put(said, "p", text, kind);
    }

    const left = item ? ticksOf(item) - at.ticks : 0;
    $("undo").disabled = at.items + at.ticks === 0;
    $("tick").disabled = $("done").disabled = finished;
    $("tick").textContent = left > 1 || finished ? "Tick one" : ticksOf(item) === 1 ? "Tick it" : "Tick the last";
    $("kept").textContent = keeps ? "Your place is kept on this device, in this browser."
      : "This browser keeps nothing for this page. Your place is in the page’s address for now: leave the page open, or write down the step you are at.";
    for (const radio of document.getElementsByName("hold")) radio.checked = radio.value === at.hold;
    $("left").checked = at.hand === "left";
    $("large").checked = at.large;
    $("theme").value = at.theme;
    $("awake").checked = at.awake;
    $("goto").max = all.reduce((most, i) => i.step || most, 1);
    $("goto").value = item && item.step ? item.step : "";
    map();
    motion();
  }

  // How the work is held for the item, told as something to do where it changes.
  function turn(item, before) {
    const now = !!(item && item.turned), changes = !!item && now !== before && at.ticks === 0, edge = plate.edges[at.hold][now ? 1 : 0];
    $("turned").hidden = !now && !changes;
    $("turned").classList.toggle("now", changes);
    $("turned").textContent = changes ? `${now ? "Turn the work" : "Turn the work back"}: ${edge}` : `Work turned, ${edge}`;
  }

  // Where in its row a run lies, and which threads wait at the back meanwhile.
  function row(item) {
    const line = $("row");
    line.replaceChildren();
    line.hidden = !(item && (item.run || item.waits));
    $("front").hidden = !(item && item.back);
    if (line.hidden) return;
    if (item.run) line.append(`Run ${item.run[0]} of ${item.run[1]} in this row. `);
    if (!item.waits) return;
    line.append("Waiting at the back: ");
    item.waits.forEach(([letter, step], i) => {
      if (i > 0) line.append(", ");
      brick(line, letter);
      line.append(` since step ${step}`);
    });
    line.append(".");
  }

  const rod = 62; // a pleat's width in every picture
  const inSight = () => Math.max(6, Math.min(12, Math.floor(document.documentElement.clientWidth / 52)));

  function draw(parent, tag, attributes, text) {
    const child = document.createElementNS(svgns, tag);
    for (const [name, value] of Object.entries(attributes)) child.setAttribute(name, value);
    if (text !== undefined) child.textContent = text;
    if (parent) parent.append(child);
    return child;
  }

  // A picture as held, from top to bottom and so many units wide; held sideways it is turned on its side.
  function held(item, top, bottom, wide, next) {
    const svg = draw(null, "svg", {
      class: "held" + (sideways() ? " sideways" : ""), role: "img",
      viewBox: sideways() ? `${top - 14} ${-wide - 14} ${bottom - top + 28} ${wide + 28}` : `-14 ${top - 14} ${wide + 28} ${bottom - top + 28}`,
      "aria-label": `${count(item.ticks, "stitch", "stitches")} as you hold the work, ${at.ticks} done; next ${next}`,
    });
    return [svg, draw(svg, "g", sideways() ? { transform: "rotate(-90)" } : {})];
  }

  function pleat(all, left, top, bottom, faint) {
    draw(all, "rect", { class: "rod" + (faint ? " beyond" : ""), x: left + 2, y: top, width: rod - 4, height: bottom - top, rx: rod / 2 - 2, fill: plate.cloth });
    draw(all, "rect", { class: "shade", x: left + rod - 13, y: top + 12, width: 7, height: Math.max(0, bottom - top - 24), rx: 3.5 });
  }

  function say(all, x, y, word) {
    const wide = 48 + 15 * word.length;
    const said = draw(all, "g", { class: "word", transform: `translate(${x} ${y}) rotate(${sideways() ? 90 : 0})` });
    draw(said, "rect", { x: -wide / 2, y: -23, width: wide, height: 46, rx: 23 });
    draw(said, "text", { "text-anchor": "middle", "dominant-baseline": "central" }, word);
  }

  const state = i => i < at.ticks ? "done" : i === at.ticks ? "now" : "ahead";

  // The run under way: pleats as rods, cables as threads over two of them, a half stitch over one.
  function cables(item) {
    const tall = 250, thick = 40, middle = tall / 2, stitches = item.stitches;
    const half = s => s === "u" || s === "d", pleatOf = [];
    for (let i = 0, before = 0; i < stitches.length; i++) { pleatOf.push(before); if (!half(stitches[i])) before++; }
    const covers = i => half(stitches[i]) ? 1 : 2;
    const pleats = Math.max(...pleatOf.map((p, i) => p + covers(i)));
    const first = Math.max(0, Math.min(pleatOf[at.ticks] - (inSight() >> 1) + 1, pleats - inSight())), last = Math.min(pleats, first + inSight()) - 1;
    const x = (p, wide) => (item.forward ? p - first : last - p - wide + 1) * rod;
    const wide = (last - first + 1) * rod, now = stitches[at.ticks];
    const [svg, all] = held(item, 0, tall, wide, level(now));
    for (let p = first; p <= last; p++) pleat(all, x(p, 1), 0, tall, (first > 0 && p === first) || (last < pleats - 1 && p === last));
    draw(all, "line", { class: "gathering", x1: 0, x2: wide, y1: middle, y2: middle });
    for (let i = 0; i < stitches.length; i++) {
      const p = pleatOf[i], w = covers(i);
      if (p < first || p + w - 1 > last) continue;
      const left = x(p, w), top = "Uu".includes(stitches[i]) ? middle - thick - 3 : middle + 3;
      const g = draw(all, "g", { class: state(i) });
      draw(g, "rect", { class: "edge", x: left + 4, y: top, width: w * rod - 8, height: thick, rx: thick / 2, fill: plate.threads[item.thread].colour });
      draw(g, "rect", { class: "shine", x: left + 4 + thick / 2, y: top + 5, width: Math.max(4, w * rod - 8 - thick), height: 5, rx: 2.5 });
      if (i === at.ticks) draw(g, "rect", { class: "ring", x: left, y: top - 4, width: w * rod, height: thick + 8, rx: thick / 2 + 4 });
      if (i < at.ticks) {
        const d = `M${left + w * rod / 2 - 10} ${top + thick / 2} l7 8 l13 -16`;
        draw(g, "path", { class: "ticked under", d });
        draw(g, "path", { class: "ticked", d });
      }
    }
    say(all, x(pleatOf[at.ticks], covers(at.ticks)) + covers(at.ticks) * rod / 2, "Uu".includes(now) ? 22 : tall - 22, level(now));
    return svg;
  }

  // A band's step under way: threads over the rods, the next stitch ringed.
  function band(item) {
    const now = item.shapes.filter(s => s[0] === at.ticks), downs = s => [s[2], s[4]], across = s => [s[1], s[3]];
    const near = Math.min(...now.flatMap(across));
    const left = Math.max(0, Math.min(Math.floor(near) - (inSight() >> 1) + 1, plate.pleats - inSight()));
    const shown = Math.min(inSight(), plate.pleats - left);
    const from = Math.min(...item.shapes.flatMap(downs)), to = Math.max(...item.shapes.flatMap(downs));
    const line = Math.min(36, 330 / (to - from + 1)), room = sideways() ? 200 : 90;
    const x = a => (a - left) * rod, y = d => (d - from) * line, thick = s => Math.max(9, Math.min(34, s[5] * line));
    const top = -room, bottom = y(to) + room, word = (sideways() ? item.wordsSideways : item.words)[at.ticks];
    const [svg, all] = held(item, top, bottom, shown * rod, word);
    for (let p = left; p < left + shown; p++) pleat(all, x(p), top, bottom, false);
    for (const row of item.gathering) draw(all, "line", { class: "gathering", x1: 0, x2: shown * rod, y1: y(row), y2: y(row) });
    const drawn = s => Math.max(...across(s)) <= left + shown + 0.01 && Math.min(...across(s)) >= left - 0.01;
    const ends = s => ({ x1: x(s[1]), y1: y(s[2]), x2: x(s[3]), y2: y(s[4]) });
    for (const s of item.shapes.filter(drawn)) {
      const g = draw(all, "g", { class: `line ${state(s[0])}${s[6] ? " inside" : ""}` });
      draw(g, "line", { class: "outline", ...ends(s), "stroke-width": thick(s) + 5 });
      draw(g, "line", { ...ends(s), "stroke-width": thick(s), stroke: plate.threads[item.thread].colour });
    }
    for (const s of now) draw(all, "line", { class: "line-ring", ...ends(s) });
    const middle = now.flatMap(across).reduce((sum, a) => sum + a, 0) / (2 * now.length);
    const off = thick(now[0]) / 2 + (sideways() ? 34 + 7.5 * word.length : 34);
    say(all, x(middle), item.low[at.ticks] === "1" ? y(Math.max(...now.flatMap(downs))) + off : y(Math.min(...now.flatMap(downs))) - off, word);
    return svg;
  }

  // Every run as a bar: worked in full colour, the rest faint, the run under way ringed.
  function map() {
    const canvas = $("map"), all = items(), wide = Math.min(canvas.parentElement.clientWidth, 900), scale = window.devicePixelRatio || 1;
    const pitch = wide / plate.pleats, high = Math.max(1.5, Math.min(pitch * plate.shape, 400 / (plate.rows + 1)));
    canvas.style.height = `${Math.ceil((plate.rows + 1) * high)}px`;
    canvas.width = Math.round(wide * scale);
    canvas.height = Math.round(Math.ceil((plate.rows + 1) * high) * scale);
    const done = all.slice(0, at.items).filter(i => i.step).length, runs = all.filter(i => i.step).length;
    canvas.setAttribute("aria-label", `The whole piece: ${done} of ${count(runs, "run")} of cables worked`);
    const pen = canvas.getContext("2d");
    pen.scale(scale, scale);
    pen.fillStyle = plate.cloth;
    pen.fillRect(0, 0, wide, (plate.rows + 1) * high);
    const box = i => [(Math.min(i.from, i.to) - 1) * pitch, (i.row + 0.5) * high, (Math.abs(i.to - i.from) + 2) * pitch, high];
    all.forEach((item, i) => {
      if (!item.step) return;
      pen.fillStyle = plate.threads[item.thread].colour;
      pen.globalAlpha = i < at.items ? 1 : 0.3;
      pen.fillRect(...box(item));
    });
    pen.globalAlpha = 1;
    const now = all[at.items];
    if (!now || !now.step) return;
    const [x, y, w, h] = box(now);
    for (const [colour, width] of [["#fff", 5], ["#9a3b1f", 2.5]]) {
      pen.strokeStyle = colour;
      pen.lineWidth = width;
      pen.strokeRect(x - 2, y - 2, w + 4, h + 4);
    }
  }

  // The run under way in motion: the same moves that are told, from the stitch that is next.
  let player = null, shown = null;
  const paces = [1, 0.5, 0.25];
  let pace = 0;
  function motion(open = !$("motion").hidden) {
    const item = items()[at.items], can = !!(item && item.play);
    $("watch").hidden = !can;
    open = open && can;
    $("motion").hidden = !open;
    $("watch").setAttribute("aria-expanded", open);
    $("watch").textContent = open ? "Put the moving picture away" : "Show it in motion";
    const now = open ? `${at.hand} ${at.hold} ${at.items}` : null;
    if (now === shown) return;
    shown = now;
    player?.close();
    player = null;
    if (!open) return;
    player = filmPlayer.open($("film"), {
      pitch: plate.pitch, line: plate.line, perSpace: 2 * plate.rowsPerSpace, gathering: plate.gathering, pleats: plate.pleats, cloth: plate.cloth, sideways: sideways(), gestures: plate.gestures,
      moves: plate.moves, play: item.play, ground: [], threads: [item.thread ? plate.threads[item.thread].played : plate.backThread],
    }, { hold: sideways() ? 1 : 0, told: film => {
      $("film-play").textContent = film.playing ? "Stop" : "Play";
      $("film-number").textContent = `${film.index + 1} of ${film.count}`;
      if ($("film-said").textContent !== film.caption) $("film-said").textContent = film.caption;
      $("film-back").disabled = film.index === 0;
    } });
    player.pace(paces[pace]);
    player.repeat($("film-loop").getAttribute("aria-pressed") === "true");
    player.go(at.ticks + 1);
  }
  $("watch").onclick = () => motion($("motion").hidden);
  $("film-play").onclick = () => player.play();
  $("film-back").onclick = () => player.back();
  $("film-pace").onclick = () => {
    pace = (pace + 1) % paces.length;
    player.pace(paces[pace]);
    $("film-pace").textContent = ["Slower", "Slower still", "Usual pace"][pace];
  };
  $("film-loop").onclick = () => {
    const on = $("film-loop").getAttribute("aria-pressed") !== "true";
    $("film-loop").setAttribute("aria-pressed", on);
    player.repeat(on);
  };
  addEventListener("resize", () => player?.show());

  let lock = null;
  async function stayAwake() {
    if (!at.awake || !navigator.wakeLock || document.visibilityState !== "visible") { await lock?.release(); lock = null; return; }
    try { lock ??= await navigator.wakeLock.request("screen"); lock.addEventListener("release", () => { lock = null; }); } catch { /* the screen sleeps as it always did */ }
  }

  $("tick").onclick = tick;
  $("undo").onclick = back;
  $("done").onclick = runDone;
  $("front").onclick = () => {
    const front = items().findIndex(i => !i.back);
    move({ items: front < 0 ? items().length : front, ticks: 0 });
    $("tick").focus();
  };
  $("changed").lastElementChild.onclick = () => { doubt = ""; move({}); $("tick").focus(); };
  for (const radio of document.getElementsByName("hold")) radio.onchange = () => move({ hold: radio.value });
  $("left").onchange = e => {
    const hand = e.target.checked ? "left" : "right";
    if (at.items + at.ticks > 0) doubt = "The steps are told for the other hand now, and may come in another order. See that the place is right.";
    move({ hand, items: Math.min(at.items, plate.hands[hand].items.length), ticks: 0 });
  };
  $("large").onchange = e => move({ large: e.target.checked });
  $("theme").onchange = e => move({ theme: e.target.value });
  $("awake").onchange = e => { move({ awake: e.target.checked }); stayAwake(); };
  $("goto").onchange = e => {
    const to = items().findIndex(i => i.step === +e.target.value);
    if (to >= 0) move({ items: to, ticks: 0 }); else show();
  };
  let sure = false;
  $("again").onclick = e => {
    e.target.textContent = sure ? "Begin again" : "Sure? Press once more";
    if (sure) move({ items: 0, ticks: 0 });
    sure = !sure;
  };
  $("again").onblur = e => { sure = false; e.target.textContent = "Begin again"; };
  document.addEventListener("keydown", e => {
    if (e.target.matches("input, select") || e.altKey || e.ctrlKey || e.metaKey) return;
    if (e.key === "ArrowRight") tick();
    else if (e.key === "ArrowLeft" || e.key === "Backspace") back();
    else return;
    e.preventDefault();
  });
  addEventListener("resize", () => show());
  // The same page open twice: what was ticked in the other counts here too.
  addEventListener("storage", e => { if (e.key === key && e.newValue) { load(); show(); } });
  document.addEventListener("visibilitychange", stayAwake);

  for (const letter of Object.keys(plate.threads)) {
    const line = put($("threads"), "li"), thread = brick(line, letter);
    line.append(` ${thread.name}, ${thread.strands}`);
  }
  $("awake-l").hidden = !navigator.wakeLock;
  load();
  keep();
  stayAwake();
  show();
})();
