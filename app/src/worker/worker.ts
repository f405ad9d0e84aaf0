/// <reference lib="webworker" />
// The service worker: the app's files without a connection. It answers navigations with the index.html of its own build,
// files from its own build's cache and else from the other's, so that a page of the older build still finds its pieces.
// It never takes over by itself: the page asks the person first (the message "take over"), and other pages stay as they
// are. steps/write_worker.mjs writes the build's files before it.

import { answerFor, byAge, cacheNameFor, namesToDrop } from './builds';
import type { Build } from './builds';

declare const self: ServiceWorkerGlobalScope & { BUILD: Build };

const INDEX = '/index.html';

async function keepBuild(): Promise<void> {
  const cache = await caches.open(cacheNameFor(self.BUILD.id, await caches.keys()));
  await cache.addAll(self.BUILD.files.map((file) => new Request(file, { cache: 'no-cache' })));
}

async function dropOldBuilds(): Promise<void> {
  for (const name of namesToDrop(self.BUILD.id, await caches.keys())) await caches.delete(name);
}

/** From this build's cache, else the newest other's, else the server. */
async function keptFile(request: Request | string): Promise<Response> {
  const names = await caches.keys();
  const own = cacheNameFor(self.BUILD.id, names);
  for (const name of [own, ...byAge(names).filter((one) => one !== own)]) {
    const found = names.includes(name) ? await caches.match(request, { cacheName: name, ignoreVary: true }) : undefined;
    if (found) return found;
  }
  return fetch(request);
}

self.addEventListener('install', (event) => event.waitUntil(keepBuild()));
self.addEventListener('activate', (event) => event.waitUntil(dropOldBuilds().then(() => self.clients.claim())));
self.addEventListener('message', (event) => {
  if (event.data === 'take over') event.waitUntil(self.skipWaiting());
});
self.addEventListener('fetch', (event) => {
  const by = answerFor(event.request, self.location.origin);
  if (by === 'page') event.respondWith(keptFile(INDEX));
  if (by === 'file') event.respondWith(keptFile(event.request));
});
