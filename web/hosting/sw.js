// The service worker: with it the page works without a network. `xtask finish` writes the build and its files into it.
//
// The files of a build bear their contents in their names, so that two builds never mean different things by one name. Only the
// page itself keeps its name. It is asked of the network first, so that a reload brings the newest version, and taken from the
// cache where the network is silent or slow. Everything else comes from the cache.
//
// A new worker waits until every tab that the old one serves is gone, as workers do unless they are told not to, and only then
// drops the files of other builds. Until then a tab of any build finds its own files, also those that it fetches late.
const BUILD = "BUILD_ID";
/// Each file of the build and what its bytes have to be; the page itself is "./".
const FILES = {};
/// How long in ms the network may keep a visitor waiting for the page. Assumed.
const PATIENCE_MS = 4000;

const home = registration.scope;
const place = `hushwright ${home} `;
const own = place + BUILD;

addEventListener("install", event => event.waitUntil(fill()));
addEventListener("activate", event => event.waitUntil(takeOver()));
addEventListener("fetch", event => {
  const { method, mode, url } = event.request;
  if (method !== "GET") { return; }
  const address = url.split(/[?#]/)[0];
  if (mode !== "navigate") {
    event.respondWith(kept(event.request));
  } else if (address === home || address === home + "index.html") {
    event.respondWith(newest(event.request));
  }
});

// All or nothing: a file that is missing or another one, because the host is just being given a new build, fails the install,
// and the browser tries again at the next visit.
async function fill() {
  const cache = await caches.open(own);
  const request = ([name, integrity]) => new Request(name, { integrity, cache: name === "./" ? "no-cache" : "default" });
  await cache.addAll(Object.entries(FILES).map(request));
  // Tabs of another build may say that there is a new one.
  for (const client of await clients.matchAll({ includeUncontrolled: true })) { client.postMessage(BUILD); }
}

async function takeOver() {
  for (const name of await caches.keys()) {
    if (name.startsWith(place) && name !== own) { await caches.delete(name); }
  }
  // The tab of the first visit too, which was there before the worker.
  await clients.claim();
}

async function kept(request) {
  const found = await (await caches.open(own)).match(request) ?? await caches.match(request);
  return found ?? fetch(request);
}

function newest(request) {
  const answered = fetch(request).then(response => response.status < 500 ? response : Promise.reject(response.statusText));
  const late = new Promise((_, reject) => { setTimeout(reject, PATIENCE_MS); });
  return Promise.race([answered, late]).catch(async () => await (await caches.open(own)).match(home) ?? answered);
}
