// Holds every file of one published bench, checked against its hash, so that it opens without a network or a host.
// A newer bench is fetched whole beside the old one and takes over when no page of the old one is open.
self.importScripts("./service-worker-assets.js");

const SHELF = "pleatwright-" + self.assetsManifest.version;
const KIND = "shelf-kind.json";

const held = new Map(self.assetsManifest.assets
  .filter((asset) => !asset.url.startsWith("service-worker") && asset.url !== KIND)
  .map((asset) => [new URL(asset.url, self.registration.scope).href, asset]));
const page = new URL("index.html", self.registration.scope).href;

self.addEventListener("install", (event) => event.waitUntil((async () => {
  const cache = await caches.open(SHELF);
  await cache.addAll([...held].map(([url, asset]) => new Request(url, { integrity: asset.hash, cache: "no-cache" })));
})()));

self.addEventListener("activate", (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith("pleatwright-") && name !== SHELF) await caches.delete(name);
})()));

self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET") return;
  const url = new URL(event.request.url);
  url.hash = url.search = "";
  if (url.href === new URL(KIND, self.registration.scope).href) { event.respondWith(kind(event.request)); return; }
  if (event.request.mode === "navigate") event.respondWith(fromShelf(page, event.request));
  else if (held.has(url.href)) event.respondWith(fromShelf(url.href, event.request));
});

async function fromShelf(url, request) {
  const cache = await caches.open(SHELF);
  return await cache.match(url) ?? fetch(request);
}

// Which shelf there is, only whoever serves the bench can say; when nobody does, the page goes by what it was last time.
async function kind(request) {
  try { return await fetch(request); } catch { return Response.json({ shelf: "unknown" }); }
}
