// Keeps the page itself, so that it opens with no network. What is recorded is kept elsewhere, in the browser's
// database, and is no business of this file.
//
// Each build has a cache of its own, filled whole before the build is used: a page never runs with files of two builds.
// A new build waits until the page asks for it, so that nothing changes under someone who is writing.

const BUILD = '__BUILD__';
const FAMILY = 'ribband-page-';
const CACHE = FAMILY + BUILD;

// What the server answers itself. It is never kept here: an old answer would be taken for the present record.
const SERVERS_OWN = ['/api/', '/plain'];

self.addEventListener('install', (event) => event.waitUntil(fill()));
self.addEventListener('activate', (event) => event.waitUntil(takeOver()));
self.addEventListener('message', (event) => {
  if (event.data === 'take-over') self.skipWaiting();
});
self.addEventListener('fetch', (event) => {
  const request = event.request;
  const url = new URL(request.url);
  if (request.method !== 'GET' || url.origin !== self.location.origin) return;
  if (SERVERS_OWN.some((path) => url.pathname.startsWith(path))) return;
  event.respondWith(request.mode === 'navigate' ? page(request) : file(request));
});

async function fill() {
  const list = await fetch(`/app/${BUILD}/files.json`, { cache: 'no-cache' });
  if (!list.ok) throw new Error(`the list of files was answered with ${list.status}`);
  const { files } = await list.json();
  const cache = await caches.open(CACHE);
  await cache.addAll(files.map((path) => new Request(path, { cache: 'reload' })));
  // While the server is being changed, the page may already, or still, be that of another build.
  const index = await cache.match('/');
  if (!index || !(await index.text()).includes(`/app/${BUILD}/`)) {
    await caches.delete(CACHE);
    throw new Error('the page is of another build; it is tried again at the next visit');
  }
}

async function takeOver() {
  for (const name of await caches.keys()) {
    if (name.startsWith(FAMILY) && name !== CACHE) await caches.delete(name);
  }
  await self.clients.claim();
}

// The page is one for all addresses; it shows the place that the address names.
async function page(request) {
  const cache = await caches.open(CACHE);
  return (await cache.match('/')) ?? fetch(request);
}

async function file(request) {
  const cache = await caches.open(CACHE);
  return (await cache.match(request)) ?? fetch(request);
}
