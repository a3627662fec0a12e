// Keeps the page's own files, so that it works without a network after the first visit.
/// <reference lib="webworker" />
declare const self: ServiceWorkerGlobalScope;
/** Set by the build: a name that changes with the files, and the files. */
declare const PAGE_VERSION: string;
declare const PAGE_FILES: string[];

self.addEventListener("install", (event) => {
  event.waitUntil(
    caches
      .open(PAGE_VERSION)
      .then((cache) => cache.addAll(PAGE_FILES))
      .then(() => self.skipWaiting()),
  );
});

self.addEventListener("activate", (event) => {
  event.waitUntil(
    caches
      .keys()
      .then((names) => Promise.all(names.filter((name) => name !== PAGE_VERSION).map((name) => caches.delete(name))))
      .then(() => self.clients.claim()),
  );
});

self.addEventListener("fetch", (event) => {
  event.respondWith(
    caches.match(event.request, { ignoreSearch: true }).then((kept) => kept ?? fetch(event.request)),
  );
});

export {};
