/**
 * Keeps the files of the page, so that it opens without a network. With a network everything comes from there, so that no page is ever older
 * than the server's; what is kept is one whole edition, replaced as a whole. The build puts in the list and its edition.
 */
declare const FILES: readonly string[];
declare const EDITION: string;

const keptIn = `pucksheet ${EDITION}`;
const worker = self as unknown as ServiceWorkerGlobalScope;

worker.addEventListener("install", (event) => {
  event.waitUntil(
    caches.open(keptIn).then((cache) => cache.addAll(FILES.map((file) => new Request(file, { cache: "no-cache" })))).then(() => worker.skipWaiting()),
  );
});

worker.addEventListener("activate", (event) => {
  event.waitUntil(
    caches.keys()
      .then((names) => Promise.all(names.filter((name) => name.startsWith("pucksheet ") && name !== keptIn).map((name) => caches.delete(name))))
      .then(() => worker.clients.claim()),
  );
});

worker.addEventListener("fetch", (event) => {
  if (event.request.method === "GET") event.respondWith(fetch(event.request).catch(() => kept(event.request)));
});

async function kept(request: Request): Promise<Response> {
  const cache = await caches.open(keptIn);
  return (await cache.match(request, { ignoreSearch: true })) ?? Response.error();
}
