// The worker that plans orders and paints pictures: the program without a page.
globalThis.dotnetSidecar = true; // else the runtime takes a worker for a thread of its own
const { dotnet } = await import("./_framework/dotnet.js");
const { setModuleImports, getAssemblyExports } = await dotnet.create();

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

const { Planner } = (await getAssemblyExports("Pleatwright.Bench.dll")).Pleatwright.Bench.Working;
const { PictureWorker } = (await getAssemblyExports("Pleatwright.Bench.dll")).Pleatwright.Bench.Printing;
onmessage = async ({ data }) => {
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
