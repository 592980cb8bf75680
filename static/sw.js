// Keeps the whole page on the device, so that it opens without a network.
//
// The packing writes the list of files here. Each is kept under its address and revision, and the
// revision is the hash the browser checks on the way in: a version is installed whole or not at all,
// and while a new one waits the old one is served unmixed.

const PACKED = [/* the packed files */];

const STORE = `tailfirst ${self.registration.scope}`;
const START = new URL("./", self.registration.scope).href;

const keyOf = ({ url, revision }) =>
  `${new URL(url, self.registration.scope).href}?revision=${encodeURIComponent(revision)}`;
const KEYS = new Map(PACKED.map((file) => [new URL(file.url, self.registration.scope).href, keyOf(file)]));

async function keep(store, file) {
  const key = keyOf(file);
  if (await store.match(key)) return;
  const response = await fetch(file.url, { cache: "no-cache", integrity: file.revision });
  if (!response.ok) throw new Error(`${file.url} answered ${response.status}`);
  await store.put(key, response);
}

async function install() {
  const store = await caches.open(STORE);
  await Promise.all(PACKED.map((file) => keep(store, file)));
}

async function activate() {
  const store = await caches.open(STORE);
  const wanted = new Set(KEYS.values());
  const stale = (await store.keys()).filter((request) => !wanted.has(request.url));
  await Promise.all(stale.map((request) => store.delete(request)));
  await self.clients.claim();
}

async function answer(key, request) {
  const store = await caches.open(STORE);
  return (await store.match(key)) ?? fetch(request);
}

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));

self.addEventListener("message", (event) => {
  if (event.data?.kind === "take-over") event.waitUntil(self.skipWaiting());
});

self.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET") return;
  const url = new URL(request.url);
  const key = KEYS.get(request.mode === "navigate" ? START : url.origin + url.pathname);
  if (key) event.respondWith(answer(key, request));
});
