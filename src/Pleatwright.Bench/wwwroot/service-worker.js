// While the bench is being built nothing is held back for later: every load is a fresh one.
self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) await caches.delete(name);
  await self.clients.claim();
})()));
