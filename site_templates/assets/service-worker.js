/* Keeps a hosted kit for use without a network. MARK and FILES are put above by the build:
   MARK changes with any file, so a rebuilt kit is fetched whole beside the old one, which stays
   in use until the reader says so or closes the last page of it. Files come a few at a time; where
   the network breaks off, the next visit goes on from those that are kept. */
"use strict";
const SCOPE = self.registration.scope;
const PREFIX = "trip-kit " + SCOPE + " ";
const STORE = PREFIX + MARK;
const AT_ONCE = 3;

self.addEventListener("install", (event) => {
  event.waitUntil((async () => {
    const store = await caches.open(STORE);
    const kept = new Set((await store.keys()).map(({ url }) => url));
    const wanted = FILES.map((name) => new URL(name, SCOPE).href).filter((url) => !kept.has(url));
    const next = async () => {
      for (let url = wanted.shift(); url; url = wanted.shift()) {
        await store.add(new Request(url, { cache: "reload" }));
        kept.add(url);
        for (const page of await self.clients.matchAll({ includeUncontrolled: true })) {
          page.postMessage({ kept: kept.size, all: FILES.length });
        }
      }
    };
    await Promise.all(Array.from({ length: AT_ONCE }, next));
  })());
});

self.addEventListener("message", (event) => {
  if (event.data === "use it now") self.skipWaiting();
});

self.addEventListener("activate", (event) => {
  event.waitUntil((async () => {
    const names = await caches.keys();
    const old = names.filter((name) => name.startsWith(PREFIX) && name !== STORE);
    await Promise.all(old.map((name) => caches.delete(name)));
    await self.clients.claim();
  })());
});

self.addEventListener("fetch", (event) => {
  if (event.request.method !== "GET" || !event.request.url.startsWith(SCOPE)) return;
  event.respondWith((async () => {
    const store = await caches.open(STORE);
    const url = new URL(event.request.url);
    if (url.href.split(/[?#]/)[0] === SCOPE) url.pathname += "index.html";
    const kept = await store.match(url.href, { ignoreSearch: true });
    return kept || fetch(event.request);
  })());
});
