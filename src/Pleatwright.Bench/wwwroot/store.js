// What the bench keeps in this browser: the files of a shelf when no host keeps them, the journal of edits with its
// undo history, and a few small settings. Every promise settles only when its transaction is done.
const NAME = "pleatwright", VERSION = 1;
let opening = null, stood = false, cleared = 0;

// How often the browser has cleared all this since the page was opened.
export const clearings = () => cleared;

function database() {
  opening ??= new Promise((done, fail) => {
    const request = indexedDB.open(NAME, VERSION);
    request.onupgradeneeded = () => {
      if (stood) cleared++;
      const db = request.result;
      db.createObjectStore("texts"); // path → text
      db.createObjectStore("facts"); // path → { bytes, modified }
      db.createObjectStore("moments"); // [piece, number] → { edit, text }
      db.createObjectStore("heads"); // piece → { count, at, base, more }
      db.createObjectStore("remembered"); // name → text
    };
    request.onsuccess = () => {
      const db = request.result;
      stood = true;
      db.onversionchange = () => { db.close(); opening = null; };
      db.onclose = () => { opening = null; };
      done(db);
    };
    request.onerror = () => { opening = null; fail(request.error); };
    request.onblocked = () => fail(new Error("an older bench is open in another tab; close it"));
  });
  return opening;
}

// Runs use(stores...) in one transaction; what the request it returns found is the answer.
async function inOne(mode, names, use) {
  const db = await database();
  return new Promise((done, fail) => {
    const transaction = db.transaction(names, mode, { durability: mode === "readwrite" ? "strict" : "default" });
    let answer = null;
    transaction.oncomplete = () => done(answer?.result ?? null);
    transaction.onabort = () => fail(named(transaction.error));
    transaction.onerror = (e) => e.stopPropagation();
    try {
      answer = use(...names.map((n) => transaction.objectStore(n)));
      if (mode === "readwrite" && !walks(answer)) transaction.commit(); // at once, for the page may be going
    } catch (e) {
      fail(named(e)); // first: what went wrong may have ended the transaction too
      try { transaction.abort(); } catch { /* ended already */ }
    }
  });
}

// A transaction that walks a cursor asks for more as it goes.
const walks = (answer) => answer === WALKING;
const WALKING = { result: null };

// The program tells a full store from any other trouble by this name.
const named = (error) => new Error(`${error?.name ?? "Error"}: ${error?.message ?? "the browser's storage gave up"}`);

// ---- Files ----------------------------------------------------------------------------------------------------------

const under = (folder) => folder ? IDBKeyRange.bound(folder + "/", folder + "0", false, true) : null; // "0" follows "/"
const bytesOf = (text) => new TextEncoder().encode(text).length;

export async function files(folder) {
  const found = [];
  await inOne("readonly", ["facts"], (facts) => {
    const walk = facts.openCursor(under(folder));
    walk.onsuccess = () => {
      const cursor = walk.result;
      if (!cursor) return;
      const name = folder ? cursor.key.slice(folder.length + 1) : cursor.key;
      if (!name.includes("/")) found.push({ name, ...cursor.value });
      cursor.continue();
    };
  });
  return JSON.stringify(found);
}

export async function folders(folder) {
  const keys = await inOne("readonly", ["facts"], (facts) => facts.getAllKeys(under(folder)));
  return JSON.stringify([...new Set(keys.map((k) => k.slice(folder.length + 1)).filter((k) => k.includes("/")).map((k) => k.split("/")[0]))]);
}

export const read = (path) => inOne("readonly", ["texts"], (texts) => texts.get(path));

export const write = (path, text) => inOne("readwrite", ["texts", "facts"], (texts, facts) => {
  texts.put(text, path);
  facts.put({ bytes: bytesOf(text), modified: Date.now() }, path);
});

export const move = (from, to) => inOne("readwrite", ["texts", "facts"], (...stores) => {
  for (const store of stores) {
    for (const range of [IDBKeyRange.only(from), under(from)]) {
      const walk = store.openCursor(range);
      walk.onsuccess = () => {
        const cursor = walk.result;
        if (!cursor) return;
        store.add(cursor.value, to + cursor.key.slice(from.length)); // never over another file
        cursor.delete();
        cursor.continue();
      };
    }
  }
  return WALKING;
});

export const remove = (path) => inOne("readwrite", ["texts", "facts"], (...stores) => { for (const store of stores) store.delete(path); });

// One writer among all tabs.
const held = new Map();
let holds = 0;

export function hold() {
  return new Promise((done, fail) => {
    navigator.locks.request("pleatwright-shelf", { signal: AbortSignal.timeout(10000) }, () => new Promise((release) => {
      held.set(++holds, release);
      done(holds);
    })).catch(fail);
  });
}

export function release(hold) { held.get(hold)?.(); held.delete(hold); }

// Asks the browser not to clear the storage when space runs short; it may say no.
export async function persist() { return await navigator.storage?.persist?.() ?? false; }

// ---- Journal --------------------------------------------------------------------------------------------------------

const momentsOf = (piece) => IDBKeyRange.bound([piece, 0], [piece, Infinity]);

// Writes moments from number `from` on, in pairs of edit and text, forgets those past `count`, and sets the present.
export function journalPut(piece, ...note) {
  setSetting(leaving(piece), null); // overtaken
  return put(piece, ...note);
}

const leaving = (piece) => "leaving\n" + piece;

const put = (piece, from, count, at, base, pairs, more) => inOne("readwrite", ["moments", "heads"], (moments, heads) => {
  moments.delete(IDBKeyRange.bound([piece, count], [piece, Infinity]));
  for (let i = 0; i < pairs.length; i += 2) moments.put({ edit: pairs[i], text: pairs[i + 1] }, [piece, from + i / 2]);
  heads.put({ count, at, base, more }, piece);
});

// The same when the page is going: put by in storage that is written before the page is gone, and brought in next time.
export function journalLeave(piece, ...note) {
  put(piece, ...note).catch(() => {});
  try { localStorage.setItem(leaving(piece), JSON.stringify(note)); } catch { /* too large, or a private window */ }
}

export async function journalHeads() {
  for (const key of leftBehind()) await bringIn(key.slice(leaving("").length));
  let keys = null;
  const heads = await inOne("readonly", ["heads"], (h) => { keys = h.getAllKeys(); return h.getAll(); });
  return JSON.stringify(heads.map((head, i) => ({ key: keys.result[i], ...head })));
}

function leftBehind() { try { return Object.keys(localStorage).filter((k) => k.startsWith(leaving(""))); } catch { return []; } }

export async function journalPresent(piece) {
  const head = await inOne("readonly", ["heads"], (h) => h.get(piece));
  return head ? (await inOne("readonly", ["moments"], (m) => m.get([piece, head.at])))?.text ?? null : null;
}

async function bringIn(piece) {
  const note = setting(leaving(piece));
  if (note) await journalPut(piece, ...JSON.parse(note));
}

export async function journalGet(piece) {
  await bringIn(piece);
  let head = null, moments = null;
  await inOne("readonly", ["moments", "heads"], (m, h) => {
    head = h.get(piece);
    moments = m.getAll(momentsOf(piece));
  });
  return head.result ? JSON.stringify({ ...head.result, moments: moments.result }) : null;
}

export const journalClear = async (piece) => {
  setSetting(leaving(piece), null);
  await forget(piece);
};

const forget = (piece) => inOne("readwrite", ["moments", "heads"], (moments, heads) => {
  moments.delete(momentsOf(piece));
  heads.delete(piece);
});

// All or nothing, in place of any journal that has the key.
export async function journalMove(from, to) {
  await bringIn(from);
  setSetting(leaving(to), null);
  await inOne("readwrite", ["moments", "heads"], (moments, heads) => {
    const head = heads.get(from);
    head.onsuccess = () => {
      if (!head.result) return;
      moments.delete(momentsOf(to));
      heads.put(head.result, to);
      heads.delete(from);
      const walk = moments.openCursor(momentsOf(from));
      walk.onsuccess = () => {
        const cursor = walk.result;
        if (!cursor) return;
        moments.put(cursor.value, [to, cursor.key[1]]);
        cursor.delete();
        cursor.continue();
      };
    };
    return WALKING;
  });
}

// One tab keeps the journal of a piece; true when this one may. The lock goes when the tab does, or on letGo.
const claims = new Map();

export function claim(piece) {
  if (claims.has(piece)) return Promise.resolve(true);
  return new Promise((done) => {
    navigator.locks.request("pleatwright-piece " + piece, { ifAvailable: true }, (lock) => {
      if (!lock) { done(false); return undefined; }
      return new Promise((letGo) => { claims.set(piece, letGo); done(true); });
    }).catch(() => done(true)); // no locks, no other tabs to fear
  });
}

export function letGo(piece) { claims.get(piece)?.(); claims.delete(piece); }

// ---- What must be remembered through a kill -------------------------------------------------------------------------

export const remembered = (name) => inOne("readonly", ["remembered"], (store) => store.get(name));
export const remember = (name, text) => inOne("readwrite", ["remembered"], (store) => { if (text === null) store.delete(name); else store.put(text, name); });


// The same where what was read still stands there; whether it does.
export async function replace(name, was, text) {
  let stands = false;
  await inOne("readwrite", ["remembered"], (store) => {
    const asked = store.get(name);
    asked.onsuccess = () => {
      stands = (asked.result ?? null) === was;
      if (!stands) return;
      if (text === null) store.delete(name); else store.put(text, name);
    };
    return WALKING;
  });
  return stands;
}

// ---- Small settings, which the browser writes to the disk in its own time, and the moment of leaving --------------------

export function setting(name) { try { return localStorage.getItem(name); } catch { return null; } }
export function setSetting(name, value) {
  try { if (value === null) localStorage.removeItem(name); else localStorage.setItem(name, value); } catch { /* a private window keeps nothing */ }
}

// The same for this tab alone.
export function ofTab(name) { try { return sessionStorage.getItem(name); } catch { return null; } }
export function setOfTab(name, value) {
  try { if (value === null) sessionStorage.removeItem(name); else sessionStorage.setItem(name, value); } catch { /* it opens what was opened last */ }
}

// The page is going, or may be: the last moment at which anything can still be written.
export function onLeave(act) {
  addEventListener("pagehide", () => act());
  document.addEventListener("visibilitychange", () => { if (document.visibilityState === "hidden") act(); });
}

// ---- Files in and out -------------------------------------------------------------------------------------------------

export function download(name, type, content) {
  // The program's memory may move; the copy is ours. Text comes as text.
  const blob = new Blob([typeof content === "string" ? content : content.slice()], { type });
  const link = document.createElement("a");
  link.href = URL.createObjectURL(blob);
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 30000);
}

// Whether a file may be handed over unasked: not when the press that asked for it is too long ago, for then browsers
// refuse a second one.
export function mayDownload() { return navigator.userActivation?.isActive ?? true; }

// ---- Pictures made of text ----------------------------------------------------------------------------------------------

export function pictureOf(type, text) { return URL.createObjectURL(new Blob([text], { type })); }
export function letPictureGo(address) { URL.revokeObjectURL(address); }
