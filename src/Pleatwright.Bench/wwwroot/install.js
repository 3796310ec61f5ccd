// Lets the browser keep the bench for use without a network.
navigator.serviceWorker?.register("service-worker.js", { updateViaCache: "none" }).catch(() => {});
