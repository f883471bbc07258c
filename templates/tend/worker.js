// While trayside tends a notebook, what a browser shows is never a copy. Where this site was once served at the same
// address as it is to be read, its worker is still there and asks for this file: it is taken away, with all that it kept.
"use strict";
self.addEventListener("install", () => self.skipWaiting());
self.addEventListener("activate", (event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith("trayside ")) await caches.delete(name);
  const pages = await self.clients.matchAll({ type: "window" });
  await self.registration.unregister();
  for (const page of pages) page.navigate(page.url);
})()));
