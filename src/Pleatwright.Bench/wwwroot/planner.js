// The worker that plans orders, paints, prints and traces: the program without a page.
globalThis.dotnetSidecar = true; // else the runtime takes a worker for a thread of its own
const { dotnet } = await import("./_framework/dotnet.js");
const { setModuleImports, getAssemblyExports, INTERNAL } = await dotnet.create();

let sheet = null, pen = null, pieces = 0; // what is painted
setModuleImports("planner", {
  told: (share) => postMessage({ share }),
  begun: (width, height) => {
    if (sheet) handOn(); // the small one is whole
    sheet = new OffscreenCanvas(width, height);
    pen = sheet.getContext("2d");
    pieces++;
  },
  painted: (first, rows) => {
    const image = new ImageData(new Uint8ClampedArray(rows.slice().buffer), sheet.width);
    pen.putImageData(image, 0, first);
    if (pieces > 1) postMessage({ share: (first + image.height) / sheet.height });
  },
});
const handOn = () => postMessage({ small: sheet.transferToImageBitmap() });

const { Working: { Planner }, Printing: { PictureWorker, PressWorker }, Tracing: { TraceWorker } } = (await getAssemblyExports("Pleatwright.Bench.dll")).Pleatwright.Bench;

// What workshop.js asks for. Between two steps the worker hears whether it is still wanted.
let under = 0, stopped = 0, printing = null;
const breath = new MessageChannel();
const heard = () => new Promise((done) => { breath.port1.onmessage = done; breath.port2.postMessage(null); });
async function wanted(id) {
  await heard();
  return stopped !== id;
}
function tellPage(job, page) {
  postMessage({ job, words: PressWorker.Words(page), blob: new Blob([PressWorker.Picture(page)], { type: "image/svg+xml" }) });
}
const work = {
  async print({ job, text, number }) {
    try { printing ??= await Promise.all(PressWorker.Parts().map((part) => INTERNAL.loadLazyAssembly(part))); }
    catch { return "?"; } // the page says what is missing
    const fault = PressWorker.Make(text, number);
    if (fault) return "!" + fault;
    for (let page = 0; page < PressWorker.Pages(); page++) {
      if (!await wanted(job)) { PressWorker.Drop(); return null; }
      tellPage(job, page);
    }
    return "+" + PressWorker.Lacking();
  },
  async give({ job, text, number, bytes }) {
    if (!PressWorker.Has(number)) return "~";
    for (const page of PressWorker.Give(+text, bytes)) tellPage(job, page);
    return "+";
  },
  async write({ job, text, number }) {
    if (!PressWorker.Has(number)) return "~";
    const [ending, type] = text.split(" ");
    const fault = PressWorker.Write(ending);
    if (fault) return "!" + fault;
    postMessage({ job, words: "", blob: new Blob([PressWorker.Written()], { type }) });
    return "+";
  },
  async trace({ job, text, number, bytes }) {
    let took = 0;
    const timed = (step) => {
      const since = performance.now(), found = step();
      took += performance.now() - since;
      return found;
    };
    for (let next = timed(() => TraceWorker.Begin(number, bytes, text)); next; next = timed(() => TraceWorker.Step())) {
      postMessage({ job, words: next });
      if (!await wanted(job)) { TraceWorker.Drop(); return null; }
    }
    const fault = TraceWorker.Fault();
    return fault ? "!" + fault : `+${took} ${TraceWorker.Traced()}`;
  },
};
async function workshop(data) {
  under = data.job;
  let done;
  try { done = await work[data.kind](data); }
  catch (e) { done = "!It could not be done in this browser: " + e.message; }
  under = 0;
  postMessage(stopped === data.job ? { free: true } : { job: data.job, done });
}

onmessage = async ({ data }) => {
  if (data.stop) {
    stopped = data.stop;
    if (under !== stopped) postMessage({ free: true }); // it was done already
    return;
  }
  if (data.kind) { await workshop(data); return; }
  if (typeof data === "string") {
    let order = null;
    try { order = Planner.Plan(data); } catch { /* then it is planned where it was asked for */ }
    postMessage({ order });
    return;
  }
  if (data.soon) {
    let picture = null;
    try {
      if (data.lying) PictureWorker.PaintClose(data.lying, data.after, data.most, data.samples);
      else PictureWorker.PaintSoon(data.piece, data.part, data.widest, data.samples);
      picture = await sheet.convertToBlob({ type: "image/jpeg", quality: 0.86 });
    } catch { /* then what stands in its place stays */ }
    sheet = pen = null;
    pieces = 0;
    postMessage({ soon: picture });
    return;
  }
  try {
    const fault = PictureWorker.Paint(data.piece, data.figure, data.width);
    postMessage(fault ? { fault } : { picture: await sheet.convertToBlob({ type: "image/png" }) });
  } catch (e) { postMessage({ fault: `The picture could not be painted: ${e.message}` }); }
  sheet = pen = null;
  pieces = 0;
};
postMessage({ up: true });
