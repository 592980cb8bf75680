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
  // What the browser kept itself may be the old version: a server that goes by dates would confirm it.
  const response = await fetch(file.url, { cache: "reload", integrity: file.revision });
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

// Where a part has gone missing, or the store does not answer, the network has the whole page, of one version.
async function kept(key, request) {
  try {
    const store = await caches.open(STORE);
    if (request.mode !== "navigate") return await store.match(key);
    const there = new Set((await store.keys()).map((file) => file.url));
    const isWhole = [...KEYS.values()].every((file) => there.has(file));
    return isWhole ? await store.match(key) : await fetch(request).catch(() => store.match(key));
  } catch (error) {
    console.warn(error);
  }
}

async function answer(key, request) {
  return (await kept(key, request)) ?? fetch(request);
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
