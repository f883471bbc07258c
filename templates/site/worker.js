// Keeps the notebook readable without a network, where it is served over one.
//
// What the network says comes first, so that nothing old is shown while it answers; where it is silent for a while or
// gone, the copy on this device is shown. At first are kept what every page needs and as many pages as are named in
// kept.json; besides these, every page that is opened. When the site changes, what is kept is brought up to date, and what
// is no longer part of it is thrown away.
"use strict";

const VERSION = "@VERSION@";
const PAGES = Number("@PAGES@");
const NOT_KEPT = "@NOT_KEPT@";
const ROOT = new URL("./", self.location).href;
const MINE = "trayside " + ROOT + " ";
const STORE = MINE + VERSION;
const PATIENCE = 3000;
const AT_ONCE = 6;

// Until then the network is not waited for: it kept us waiting before.
let impatientUntil = 0;

// The path of an address below the root, without what pages alone read; one path, however it was written.
const pathOf = (url) => {
  const path = new URL(url).href.slice(ROOT.length).split(/[?#]/)[0];
  const whole = path === "" || path.endsWith("/") ? path + "index.html" : path;
  try {
    return decodeURIComponent(whole);
  } catch {
    return whole;
  }
};
const place = (path) => ROOT + path.split("/").map(encodeURIComponent).join("/");

// Some servers leave the ending away, or lead on from there; a copy that was led on could not be shown.
const copyOf = async (store, url) => {
  const path = pathOf(url);
  for (const ending of ["", ".html", "/index.html"]) {
    const copy = await store.match(place(path + ending));
    if (copy) return copy;
  }
  return undefined;
};

const keep = async (store, url, answer) => {
  const { status, statusText, headers } = answer;
  const plain = answer.redirected ? new Response(await answer.blob(), { status, statusText, headers }) : answer;
  await store.put(place(pathOf(url)), plain);
};

// Each of `things` is done, a few at a time.
const each = async (things, work) => {
  const left = [...things];
  const worker = async () => { while (left.length > 0) await work(left.shift()); };
  await Promise.all(Array.from({ length: AT_ONCE }, worker));
};

const install = async () => {
  const list = await fetch(ROOT + "kept.json", { cache: "no-cache" });
  if (!list.ok) throw new Error("no kept.json");
  const now = await list.clone().json();
  const store = await caches.open(STORE);
  const wanted = new Set(now.first);
  const unchanged = new Map();
  for (const name of await caches.keys()) {
    if (!name.startsWith(MINE) || name === STORE) continue;
    const old = await caches.open(name);
    const then = await old.match(ROOT + "kept.json");
    const before = then ? (await then.json()).files : {};
    for (const { url } of await old.keys()) {
      const path = pathOf(url);
      if (!(path in now.files)) continue;
      wanted.add(path);
      if (before[path] === now.files[path]) unchanged.set(path, old);
    }
  }
  await each(wanted, async (path) => {
    const same = unchanged.has(path) && await unchanged.get(path).match(place(path));
    if (same) {
      await store.put(place(path), same);
      return;
    }
    const answer = await fetch(place(path), { cache: "no-cache" });
    // A site that is just being put up may lack a page for a while: it is kept when it is opened.
    if (answer.ok) await keep(store, place(path), answer);
  });
  await store.put(ROOT + "kept.json", list);
  await self.skipWaiting();
};

const activate = async () => {
  for (const name of await caches.keys()) {
    if (name.startsWith(MINE) && name !== STORE) await caches.delete(name);
  }
  await self.clients.claim();
};

const answer = async (event) => {
  const { request } = event;
  const store = await caches.open(STORE);
  const asked = fetch(request).then((answer) => {
    impatientUntil = 0;
    if (answer.ok && answer.type === "basic") event.waitUntil(keep(store, request.url, answer.clone()).catch(() => {}));
    return answer;
  });
  const patience = Date.now() < impatientUntil ? 0 : PATIENCE;
  const silence = new Promise((resolve) => { setTimeout(resolve, patience); });
  const first = await Promise.race([asked.catch(() => undefined), silence]);
  if (first && first.status < 500) return first;
  const copy = await copyOf(store, request.url);
  if (copy) {
    if (!first) impatientUntil = Date.now() + 10 * PATIENCE;
    return copy;
  }
  try {
    return await asked;
  } catch {
    return request.mode === "navigate" ? Response.redirect(ROOT + NOT_KEPT) : Response.error();
  }
};

self.addEventListener("install", (event) => event.waitUntil(install()));
self.addEventListener("activate", (event) => event.waitUntil(activate()));
self.addEventListener("fetch", (event) => {
  const { request } = event;
  const streams = request.headers.get("accept") === "text/event-stream" || request.headers.has("range");
  if (request.method !== "GET" || !request.url.startsWith(ROOT) || streams) return;
  event.respondWith(answer(event));
});
// A page asks that it be kept, and is told how many are.
self.addEventListener("message", (event) => {
  const tell = async () => {
    const store = await caches.open(STORE);
    const page = event.source && event.source.url;
    if (page && page.startsWith(ROOT) && !(await copyOf(store, page))) {
      const answer = await fetch(page).catch(() => undefined);
      if (answer && answer.ok) await keep(store, page, answer);
    }
    const kept = (await store.keys()).filter(({ url }) => url.endsWith(".html")).length;
    event.ports[0].postMessage({ kept: Math.min(kept, PAGES), of: PAGES });
  };
  if (event.data === "keep" && event.ports[0]) event.waitUntil(tell());
});
