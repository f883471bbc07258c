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
    const pages = (count) => count.toLocaleString("en") + (count === 1 ? " page" : " pages");
    line.textContent = kept === of
      ? "Kept on this device, to read without a network: all " + pages(of) + "."
      : "Kept on this device, to read without a network: " + kept.toLocaleString("en") + " of " + pages(of) + ", and each that is opened.";
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
