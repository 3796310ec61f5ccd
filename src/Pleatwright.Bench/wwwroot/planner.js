// The worker that plans: the program without a page.
globalThis.dotnetSidecar = true; // else the runtime takes a worker for a thread of its own
const { dotnet } = await import("./_framework/dotnet.js");
const { setModuleImports, getAssemblyExports } = await dotnet.create();
setModuleImports("planner", { told: (share) => postMessage({ share }) });
const { Planner } = (await getAssemblyExports("Pleatwright.Bench.dll")).Pleatwright.Bench.Working;
onmessage = ({ data }) => {
  let order = null;
  try { order = Planner.Plan(data); } catch { /* then it is planned where it was asked for */ }
  postMessage({ order });
};
postMessage({ up: true });
