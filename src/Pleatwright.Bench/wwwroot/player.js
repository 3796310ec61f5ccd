// Plays the needle's moves on a canvas: at the bench, on the student's page, on a page of its own. The moves and the sizes of the gestures are data from the core
// (Plate/Playing/FilmData.cs), and pose() is what Plate/Playing/Pose.cs does, held to it by a test. Millimetres of the finished work, as seen.
const filmPlayer = (() => {
  "use strict";
  const ease = t => t <= 0 ? 0 : t >= 1 ? 1 : t * t * (3 - 2 * t);
  const between = (a, b, t) => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t];
  const far = (a, b) => Math.hypot(b[0] - a[0], b[1] - a[1]);
  const straight = (a, b) => [a, between(a, b, 1 / 3), between(a, b, 2 / 3), b];

  // Each move of a film with its places; an entry is told from where the move before ended.
  function unfold(film, hold = 0) {
    const takes = [];
    let at = [0, 0], stitch = 0;
    for (const item of film.play) {
      if (Array.isArray(item)) { at = item; continue; }
      const m = film.moves[item], add = (x, y) => [at[0] + x, at[1] + y], from = at;
      if (m.stitch !== undefined) stitch += m.stitch;
      takes.push({
        ...m, from, in: add(...m.in), out: add(...m.out), sees: { from: !!m.from, to: !!m.to }, number: m.stitch === undefined ? 0 : stitch,
        via: (m.via || []).flatMap((v, i, all) => i % 2 ? [] : [add(v, all[i + 1])]),
        shows: (m.shows || []).map(s => [s[0], ...add(s[1], s[2]), ...add(s[3], s[4]), s[5], m.thread || 0]),
        side: m.side || 0, thread: m.thread || 0, caption: m.say[Math.min(hold, m.say.length - 1)],
      });
      at = add(...m.out);
    }
    return takes;
  }

  function place(film, take, across, down) {
    const all = film.valleys;
    let x;
    if (all) {
      const v = Math.min(Math.max(Math.floor(across), 0), all.length - 2);
      x = all[v] + (all[v + 1] - all[v]) * (across - v);
    } else x = across * film.pitch;
    const y = (down - 1) * film.line;
    return [!!take.turned !== !!take.back ? -x : x, take.turned ? -y : y];
  }
  const at = (film, take, spot) => place(film, take, spot[0], spot[1]);

  function along(film, take) {
    const a = at(film, take, take.in), b = at(film, take, take.out), length = far(a, b);
    if (length > 1e-6) return [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
    const on = take.way * (!!take.turned !== !!take.back ? -1 : 1);
    return take.sees.to ? [0.85 * on, -0.526782687642637] : [-0.85 * on, 0.526782687642637];
  }

  function pose(film, takes, index, share) {
    const g = film.gestures, take = takes[index], from = at(film, take, take.from), into = at(film, take, take.in), out = at(film, take, take.out), length = g.needle * film.pitch;
    if (!take.pierces) return travel(film, take, share, from, into, length);
    const way = along(film, take), width = far(into, out);
    const before = -g.before * film.pitch, entered = width + g.point * film.pitch, drawn = width + length + g.beyond * film.pitch;
    const point = share < g.come ? before : share < g.entered ? before + (entered - before) * ease((share - g.come) / (g.entered - g.come))
      : entered + (drawn - entered) * ease((share - g.entered) / (g.drawn - g.entered));
    let eye = [into[0] + way[0] * (point - length), into[1] + way[1] * (point - length)], tip = [into[0] + way[0] * point, into[1] + way[1] * point];
    const seen = [], threads = [];
    if (share < g.come) {
      const [lastEye, lastWay] = last(film, takes, index, eye, way), t = ease(share / g.come);
      const a = Math.atan2(lastWay[1], lastWay[0]);
      let turn = Math.atan2(way[1], way[0]) - a;
      turn -= 2 * Math.PI * Math.ceil((turn - Math.PI - 0.01) / (2 * Math.PI));
      eye = between(lastEye, eye, t);
      eye[1] -= g.swing * film.pitch * Math.sin(Math.PI * t);
      tip = [eye[0] + Math.cos(a + turn * t) * length, eye[1] + Math.sin(a + turn * t) * length];
      if (take.sees.from) seen.push([0, 1]);
    } else {
      const clamp = n => Math.min(1, Math.max(0, n)), enters = clamp(1 - point / length), leaves = clamp(1 - (point - width) / length);
      if (take.sees.from && enters > 0) seen.push([0, enters]);
      if (take.sees.to && leaves < 1) seen.push([leaves, 1]);
    }
    if (take.sees.from) {
      const lies = ease((share - g.entered) / (g.lies - g.entered)), slack = g.slack * film.line * Math.min(1, share / g.come) * (1 - lies);
      const side = take.turned ? -take.side : take.side, up = side === 0 ? -slack / 2 : side * slack;
      let rest = [from, into];
      if (take.shows.length === 1 && take.shows[0][0] === 0) rest = [place(film, take, take.shows[0][1], take.shows[0][2]), place(film, take, take.shows[0][3], take.shows[0][4])];
      const a = between(from, rest[0], lies), d = point < length || share < g.come ? eye : between(into, rest[1], lies), b = between(a, d, 0.25), c = between(a, d, 0.75);
      threads.push([a, [b[0], b[1] + up], [c[0], c[1] + up], d]);
    }
    if (take.sees.to && share >= g.come && point - length > width) threads.push(straight(out, eye));
    return { threads, eye, tip, seen };
  }

  function last(film, takes, index, eye, way) {
    const away = [[eye[0] - way[0] * 2 * film.pitch, eye[1] - way[1] * 2 * film.pitch], way];
    if (index === 0) return away;
    const before = takes[index - 1], take = takes[index];
    if (!!before.back !== !!take.back || !!before.turned !== !!take.turned || !before.sees.to || before.out[0] !== take.from[0] || before.out[1] !== take.from[1]) return away;
    const spot = at(film, before, before.out);
    if (!before.pierces) return [spot, way];
    const on = along(film, before), by = film.gestures.beyond * film.pitch;
    return [[spot[0] + on[0] * by, spot[1] + on[1] * by], on];
  }

  function travel(film, take, share, from, into, length) {
    if (!take.back || take.kind === "Turn") return { threads: [], eye: from, tip: from, seen: [] };
    const t = ease(share), g = film.gestures;
    if (take.kind !== "Carry") {
      const hung = [from[0], from[1] + (g.beyond + (take.kind === "TakeUp" ? 1 - t : t)) * film.pitch];
      return { threads: [straight(from, hung)], eye: hung, tip: [hung[0], hung[1] + length], seen: [[0, 1]] };
    }
    const path = [from, ...take.via.map(v => at(film, take, v)), into], threads = [];
    let left = t * path.slice(1).reduce((sum, p, i) => sum + far(path[i], p), 0), now = from, way = [0, 1];
    for (let i = 0; i + 1 < path.length; i++) {
      const long = far(path[i], path[i + 1]);
      if (long < 1e-9) continue;
      way = [(path[i + 1][0] - path[i][0]) / long, (path[i + 1][1] - path[i][1]) / long];
      now = between(path[i], path[i + 1], Math.min(1, left / long));
      threads.push(straight(path[i], now));
      if (left <= long) break;
      left -= long;
    }
    return { threads, eye: now, tip: [now[0] + way[0] * length, now[1] + way[1] * length], seen: [[0, 1]] };
  }

  function centre(film, take) {
    const all = [take.from, take.in, take.out].map(p => at(film, take, p)), xs = all.map(p => p[0]), ys = all.map(p => p[1]);
    return [(Math.min(...xs) + Math.max(...xs)) / 2, (Math.min(...ys) + Math.max(...ys)) / 2];
  }

  const mix = (hex, other, share) => {
    const a = parseInt(hex.slice(1), 16), part = shift => Math.round(((a >> shift) & 255) + (other - ((a >> shift) & 255)) * share);
    return `rgb(${part(16)},${part(8)},${part(0)})`;
  };
  const darker = (hex, share) => mix(hex, 0, share), lighter = (hex, share) => mix(hex, 255, share);

  const bezier = (c, t) => {
    const s = 1 - t, a = s * s * s, b = 3 * s * s * t, d = 3 * s * t * t, e = t * t * t;
    return [a * c[0][0] + b * c[1][0] + d * c[2][0] + e * c[3][0], a * c[0][1] + b * c[1][1] + d * c[2][1] + e * c[3][1]];
  };
  const pinch = t => { const t2 = t * t, t4 = t2 * t2, t8 = t4 * t4; return 1.015 - 0.26 * t8 * t8; };

  function strands(pen, curve, [colour, count, diameter], close, pinched) {
    // A thread that lies is pinched as a stitch is; one that is led is gathered at its ends.
    const width = t => typeof pinched === "object" ? Math.min(1, pinched.gathered + (1 - pinched.gathered) * Math.min(t, 1 - t) / pinched.gathering) : pinched ? pinch(2 * t - 1) : 1;
    pen.beginPath();
    for (let n = 0; n < count; n++) {
      const off = (n - (count - 1) / 2) * diameter * close;
      for (let i = 0; i <= 14; i++) {
        const t = i / 14, p = bezier(curve, t), a = bezier(curve, Math.max(0, t - 0.02)), b = bezier(curve, Math.min(1, t + 0.02));
        let dx = b[0] - a[0], dy = b[1] - a[1], long = Math.hypot(dx, dy);
        if (long < 1e-9) [dx, dy, long] = [1, 0, 1];
        const by = off * width(t);
        pen[i ? "lineTo" : "moveTo"](p[0] - dy / long * by, p[1] + dx / long * by);
      }
    }
    pen.lineCap = pen.lineJoin = "round";
    for (const [style, wide] of [[darker(colour, 0.42), 1.25], [colour, 0.9], [lighter(colour, 0.3), 0.22]]) {
      pen.strokeStyle = style;
      pen.lineWidth = diameter * wide;
      pen.stroke();
    }
    // Two plies show as slanting lines, two to a turn.
    let all = 0;
    for (let i = 0; i < 14; i++) all += far(bezier(curve, i / 14), bezier(curve, (i + 1) / 14));
    const turns = Math.min(60, Math.round(all / (diameter * 2.2)));
    if (!turns) return;
    pen.beginPath();
    for (let n = 0; n < count; n++)
      for (let i = 0; i < turns; i++) {
        const t = (i + (0.5 + 0.62 * n) % 1) / turns, p = bezier(curve, t), a = bezier(curve, Math.max(0, t - 0.02)), b = bezier(curve, Math.min(1, t + 0.02));
        let dx = b[0] - a[0], dy = b[1] - a[1];
        const long = Math.hypot(dx, dy);
        if (long < 1e-9) continue;
        dx /= long;
        dy /= long;
        const off = (n - (count - 1) / 2) * diameter * close * width(t), half = 0.4 * diameter, on = 0.5 * diameter;
        pen.moveTo(p[0] - dy * (off - half) - dx * on, p[1] + dx * (off - half) - dy * on);
        pen.lineTo(p[0] - dy * (off + half) + dx * on, p[1] + dx * (off + half) + dy * on);
      }
    pen.strokeStyle = darker(colour, 0.2);
    pen.lineWidth = diameter * 0.16;
    pen.stroke();
  }

  function lay(pen, film, take, shape) {
    const [kind, x1, y1, x2, y2, wide, which] = shape, thread = film.threads[which], a = place(film, take, x1, y1), b = place(film, take, x2, y2), room = wide * film.line * 1.17;
    if (kind === 1) return;
    if (kind === 2) {
      pen.beginPath();
      pen.arc(a[0], a[1], room * 0.4, 0, 7);
      pen.fillStyle = thread[0];
      pen.fill();
      pen.strokeStyle = darker(thread[0], 0.45);
      pen.lineWidth = 0.06 * film.pitch;
      pen.stroke();
      return;
    }
    if (kind === 3) {
      for (const side of [-1, 1]) {
        const x = -(b[1] - a[1]) * 0.3 * side, y = (b[0] - a[0]) * 0.3 * side;
        strands(pen, [a, [a[0] + (b[0] - a[0]) * 0.3 + x, a[1] + (b[1] - a[1]) * 0.3 + y], [a[0] + (b[0] - a[0]) * 0.9 + x, a[1] + (b[1] - a[1]) * 0.9 + y], b], thread, 0.6);
      }
      return;
    }
    strands(pen, straight(a, b), thread, Math.min(1, room / Math.max(1e-6, thread[1] * thread[2])), true);
  }

  function needle(pen, film, { eye, tip, seen }) {
    const thick = 0.2 * film.pitch, dx = tip[0] - eye[0], dy = tip[1] - eye[1], long = Math.hypot(dx, dy);
    if (long < 1e-6) return;
    const nx = -dy / long, ny = dx / long, on = s => [eye[0] + dx * s, eye[1] + dy * s];
    const half = s => thick / 2 * (s < 0.12 ? 0.75 + s / 0.48 : s > 0.6 ? Math.sqrt(Math.max(0, (1 - s) / 0.4)) : 1);
    for (const [from, to] of seen) {
      pen.beginPath();
      for (let i = 0; i <= 12; i++) { const s = from + (to - from) * i / 12, p = on(s), h = half(s); pen.lineTo(p[0] + nx * h, p[1] + ny * h); }
      for (let i = 12; i >= 0; i--) { const s = from + (to - from) * i / 12, p = on(s), h = -half(s); pen.lineTo(p[0] + nx * h, p[1] + ny * h); }
      pen.closePath();
      pen.fillStyle = "#a9b2bb";
      pen.fill();
      pen.strokeStyle = "#3f474f";
      pen.lineWidth = 0.035 * film.pitch;
      pen.stroke();
      const line = (a, b, style, wide, off) => {
        const p = on(a), q = on(b);
        pen.beginPath();
        pen.moveTo(p[0] - nx * off, p[1] - ny * off);
        pen.lineTo(q[0] - nx * off, q[1] - ny * off);
        pen.strokeStyle = style;
        pen.lineWidth = wide;
        pen.stroke();
      };
      pen.lineCap = "round";
      const a = Math.max(from, 0.14), b = Math.min(to, 0.86);
      if (a < b) line(a, b, "#eef1f3", thick * 0.2, thick * 0.1);
      if (from < 0.02 && to > 0.11) line(0.025, 0.09, "#3f474f", thick * 0.34, 0);
    }
  }

  // Cloth with all that lies still on it: the same for every frame of a move, but that it is moved along.
  function cloth(pen, film, take, box) {
    const [left, top, right, bottom] = box, tones = film.gestures.pleat.map(t => (t -= take.back ? 0.1 : 0) < 0 ? darker(film.cloth, -t) : lighter(film.cloth, t));
    pen.fillStyle = "#efe9dd";
    pen.fillRect(left, top, right - left, bottom - top);
    const count = film.valleys ? film.valleys.length - 1 : film.pleats;
    for (let p = 0; p < count; p++) {
      const a = place(film, take, p, 1)[0], b = place(film, take, p + 1, 1)[0], l = Math.min(a, b), wide = Math.abs(b - a);
      if (l > right || l + wide < left) continue;
      const round = pen.createLinearGradient(l, 0, l + wide, 0);
      tones.forEach((tone, i) => round.addColorStop((i + 0.5) / tones.length, tone));
      pen.fillStyle = round;
      pen.fillRect(l, top, wide * 1.01, bottom - top);
    }
    pen.strokeStyle = "#2f6f79";
    pen.lineWidth = 0.12 * film.pitch;
    pen.lineCap = "butt";
    pen.beginPath();
    for (let row = 0; row < film.gathering; row++) {
      const y = place(film, take, 0, row * film.perSpace - 0.35)[1];
      if (y < top || y > bottom) continue;
      for (let p = 0; p < count; p++) {
        const a = place(film, take, p + 0.28, 1)[0], b = place(film, take, p + 0.72, 1)[0];
        if (Math.max(a, b) > left && Math.min(a, b) < right) { pen.moveTo(a, y); pen.lineTo(b, y); }
      }
    }
    pen.stroke();
  }

  // What a move lays on a side, and whether it lies there yet (Film.Lain and Film.Lies).
  const lies = (film, m, share) => share >= 1 || (share >= film.gestures.lies && m.shows.length > 0 && !(m.shows.length === 1 && m.shows[0][0] === 0));
  function lain(film, m, back) {
    if ((!!m.back === m.sees.from) !== !!back) return [];
    if (m.shows.length || !back) return m.shows;
    const path = [m.from, ...m.via, m.in], thread = film.threads[m.thread], wide = 0.75 * thread[1] * thread[2] / film.line;
    return path.slice(1).flatMap((p, i) => far(path[i], p) < 1e-9 ? [] : [[0, ...path[i], ...p, wide, m.thread]]);
  }
  function laid(film, takes, index, share) {
    const take = takes[index], all = take.back ? [] : [...(film.ground || [])];
    for (let i = 0; i <= index; i++) if (i < index || lies(film, takes[i], share)) all.push(...lain(film, takes[i], take.back));
    return all;
  }
  // What is covered by that, as outlines (Film.Covers).
  function covers(film, m, take) {
    return lain(film, m, take.back).filter(s => s[0] !== 1).map(([kind, x1, y1, x2, y2, wide]) => {
      const a = place(film, take, x1, y1), b = place(film, take, x2, y2), half = film.line * (kind === 0 ? 0.585 * wide : kind === 4 ? 0.5 * wide + 0.3 : 0.75 * wide), past = kind === 0 ? 0 : half;
      let x = b[0] - a[0], y = b[1] - a[1];
      const long = Math.hypot(x, y);
      [x, y] = long < 1e-9 ? [1, 0] : [x / long, y / long];
      return [[a[0] - x * past - y * half, a[1] - y * past + x * half], [b[0] + x * past - y * half, b[1] + y * past + x * half],
        [b[0] + x * past + y * half, b[1] + y * past - x * half], [a[0] - x * past + y * half, a[1] - y * past - x * half]];
    });
  }
  // The painted pictures of what lies under a move, where they have come (Lying): before it, with what was laid since cut out of the one after.
  function painted(pen, film, takes, index, share, part) {
    const [x, y, wide, high] = part.box, take = takes[index];
    pen.imageSmoothingQuality = "high";
    pen.drawImage(part.before, x, y, wide, high);
    let any = false;
    pen.save();
    pen.beginPath();
    for (let i = part.first; i <= index; i++) {
      if (i === index && !lies(film, takes[i], share)) break;
      for (const [first, ...rest] of covers(film, takes[i], take)) {
        any = true;
        pen.moveTo(...first);
        for (const p of rest) pen.lineTo(...p);
        pen.closePath();
      }
    }
    if (any) { pen.clip(); pen.drawImage(part.after, x, y, wide, high); }
    pen.restore();
  }
  // Takes pictures into a film as they come; told when one has.
  function lying(film, part, come = () => {}) {
    const image = source => { const i = new Image(); i.src = source; return i.decode().then(() => i); };
    Promise.all([image(part.before), image(part.after)]).then(([before, after]) => { (film.painted ??= []).push({ ...part, before, after }); come(); }, () => { /* then it stays drawn */ });
  }

  // How wide the picture is: eight pleats, or what it takes to see both ends of the longest move.
  const wideOf = (film, takes) => takes.wide ??= Math.max(8 * film.pitch, 2.2 * film.line * Math.max(...takes.map(t => Math.max(Math.abs(t.in[1] - t.from[1]), Math.abs(t.out[1] - t.in[1])))));

  // A moment of the film on a canvas.
  function paint(canvas, film, takes, index, share, kept) {
    const pen = canvas.getContext("2d"), take = takes[index], { width, height } = canvas, sideways = film.sideways;
    const scale = Math.min(sideways ? height : width, (sideways ? width : height) * 1.9) / wideOf(film, takes);
    const here = centre(film, take), before = takes[index - 1];
    const follows = before && !!before.back === !!take.back && !!before.turned === !!take.turned;
    const eye = follows ? between(centre(film, before), here, ease(share / film.gestures.come)) : here;
    const frame = p => {
      p.setTransform(1, 0, 0, 1, width / 2, height / 2);
      if (sideways) p.rotate(-Math.PI / 2);
      if (take.kind === "Turn") p.rotate((1 - ease(share)) * -Math.PI);
      p.scale(scale, scale);
    };
    const reach = Math.hypot(width, height) / scale / 2 + 4 * film.pitch;
    const box = m => [m[0] - reach, m[1] - reach, m[0] + reach, m[1] + reach];
    frame(pen);
    pen.translate(-eye[0], -eye[1]);
    cloth(pen, film, take, box(eye));
    const part = (film.painted || []).find(p => index >= p.first && index <= p.last);
    const whole = part && part.box[0] <= eye[0] - width / scale / 2 && part.box[1] <= eye[1] - height / scale / 2 && part.box[0] + part.box[2] >= eye[0] + width / scale / 2 && part.box[1] + part.box[3] >= eye[1] + height / scale / 2 && !sideways && take.kind !== "Turn";
    const near = s => Math.abs(place(film, take, s[1], s[2])[0] - eye[0]) < reach && Math.abs(place(film, take, s[1], s[2])[1] - eye[1]) < reach;
    // What the pictures do not reach is drawn.
    if (!whole) for (const shape of laid(film, takes, index, share)) if (near(shape)) lay(pen, film, take, shape);
    if (part) painted(pen, film, takes, index, share, part);
    const now = pose(film, takes, index, share);
    for (const curve of now.threads) strands(pen, curve, film.threads[take.thread], film.gestures.close, film.gestures);
    needle(pen, film, now);
  }

  // Plays one move at a time: what comes after it is for its owner to say.
  function act(canvas, film, { hold = 0, ended = () => {}, shown = () => {} } = {}) {
    const takes = unfold(film, hold);
    for (const part of film.lying || []) lying(film, part, () => show());
    let index = 0, share = film.gestures.still, running = false, speed = 1, asked = 0, lastTime = 0, here = true;
    function show(move = index, moment = move === index ? share : film.gestures.still) {
      if (!here || !takes.length) return;
      running = running && move === index && moment === share;
      index = Math.min(Math.max(0, move), takes.length - 1);
      share = moment;
      const scale = Math.min(2, devicePixelRatio || 1), wide = Math.round(canvas.clientWidth * scale), high = Math.round(canvas.clientHeight * scale);
      if (wide > 0 && high > 0 && (canvas.width !== wide || canvas.height !== high)) { canvas.width = wide; canvas.height = high; }
      paint(canvas, film, takes, index, share);
      shown(index, share);
    }
    function tick(time) {
      asked = 0;
      if (!running || !here) return;
      share = Math.min(1, share + Math.min(0.1, Math.max(0, time - lastTime) / 1000) * speed / takes[index].seconds);
      lastTime = time;
      show();
      if (share >= 1) { running = false; ended(index); }
      if (running && !asked) asked = requestAnimationFrame(tick);
    }
    function run(move, pace = speed) {
      [index, share, running, speed, lastTime] = [move, 0, true, pace, performance.now()];
      if (!asked) asked = requestAnimationFrame(tick);
    }
    show();
    return { takes, show, run, lying: part => lying(film, part, () => show()), pace: by => { speed = by; }, stop: () => { running = false; }, close: () => { here = running = false; }, get at() { return { index, share, running }; } };
  }

  // A player with its keys' meaning, for pages that have no bench behind them.
  function open(canvas, film, { hold = 0, told = () => {} } = {}) {
    let playing = false, loop = false, done = false;
    const still = () => matchMedia("(prefers-reduced-motion: reduce)").matches;
    const stage = act(canvas, film, { hold, ended });
    const tell = () => told({ index: stage.at.index, count: stage.takes.length, caption: stage.takes[stage.at.index].caption, number: stage.takes[stage.at.index].number, playing });
    function ended(index) {
      if (loop) stage.run(index);
      else if (index + 1 < stage.takes.length) stage.run(index + 1);
      else { playing = false; done = true; }
      tell();
    }
    function to(move) {
      done = false;
      const index = Math.min(Math.max(0, move), stage.takes.length - 1);
      if (playing) stage.run(index);
      else stage.show(index, film.gestures.still);
      tell();
    }
    function play(on = !playing) {
      const { index } = stage.at, last = stage.takes.length - 1;
      if (on && still()) { to(index < last ? index + 1 : 0); return; }
      playing = on;
      if (on) stage.run(done ? 0 : index);
      else stage.show(index, film.gestures.still);
      done = false;
      tell();
    }
    tell();
    return {
      // To the move that makes a stitch, counted from 1; the first moves of all lead to the first.
      go: stitch => { if (stitch > 1) to(stage.takes.findIndex(t => t.number >= stitch)); },
      play, to, show: () => stage.show(), back: () => to(stage.at.index - 1), next: () => to(stage.at.index + 1), pace: stage.pace, repeat: on => { loop = on; },
      still: () => { if (still() && playing) play(false); }, close: stage.close, get at() { return { ...stage.at, playing }; },
    };
  }

  return { unfold, pose, covers, paint, act, open };
})();
export { filmPlayer };
