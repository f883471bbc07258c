// Makes a served notebook one that can be read without a network. From a folder there is nothing to do: it is here already.
(() => {
  "use strict";
  const root = new URL("./", document.currentScript.src).href;
  if (!root.startsWith("http")) return;

  const manifest = document.createElement("link");
  manifest.rel = "manifest";
  manifest.href = root + "site.webmanifest";
  document.head.append(manifest);

  const workers = navigator.serviceWorker;
  if (!workers) return;
  const show = ({ kept, of }) => {
    const line = document.querySelector(".kept");
    if (!line || !kept) return;
    const { lang } = line.closest("[lang]");
    const number = (count) => { try { return count.toLocaleString(lang); } catch { return String(count); } };
    const { all, some, page, pages } = line.dataset;
    const places = { kept: number(kept), pages: (of === 1 ? page : pages).replace("{}", number(of)) };
    line.textContent = (kept === of ? all : some).replace(/\{(\w+)\}/g, (_, place) => places[place]);
    line.hidden = false;
  };
  addEventListener("load", async () => {
    try {
      await workers.register(root + "worker.js", { updateViaCache: "none" });
      const { active } = await workers.ready;
      const { port1, port2 } = new MessageChannel();
      port1.onmessage = (event) => show(event.data);
      active.postMessage("keep", [port2]);
    } catch {
      // A browser may refuse, for lack of room or by its settings; the page reads as before.
    }
  });
})();
