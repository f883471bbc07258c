// Shows a page anew as soon as it was pressed again, at the place where it was being read.
(() => {
  const mark = document.currentScript.dataset.mark;
  const stripe = document.getElementById(".tend");
  const place = "tend " + location.pathname;
  let news = null;
  let going = false;

  const attempt = (what) => { try { return what(); } catch { return null; } };
  const boxes = () => Array.from(document.querySelectorAll("details"));

  const kept = attempt(() => JSON.parse(sessionStorage.getItem(place)));
  attempt(() => sessionStorage.removeItem(place));
  if (kept) {
    history.scrollRestoration = "manual";
    boxes().forEach((box, at) => { if (at in kept.open) box.open = kept.open[at]; });
    // What was changed above may have moved everything: what was at the top of the window is put there again.
    const back = () => {
      const anchor = kept.anchor && document.getElementById(kept.anchor.id);
      scrollTo(kept.x, anchor ? anchor.getBoundingClientRect().top + scrollY - kept.anchor.top : kept.y);
    };
    back();
    // Pictures and fonts move the text once more.
    addEventListener("load", () => { back(); history.scrollRestoration = "auto"; });
  }

  // The last block or heading that begins above the top of the window.
  const topmost = () => {
    const tops = Array.from(document.querySelectorAll("main [id]"), (element) => ({ id: element.id, top: element.getBoundingClientRect().top }));
    return scrollY > 0 ? tops.filter(({ top }) => top <= 1).pop() : null;
  };
  const again = () => {
    if (going) return;
    going = true;
    close();
    const open = boxes().map((box) => box.open);
    attempt(() => sessionStorage.setItem(place, JSON.stringify({ x: scrollX, y: scrollY, anchor: topmost(), open })));
    location.reload();
  };

  const close = () => { if (news) news.close(); news = null; };
  // A browser opens six connections to one server: pages that nobody looks at must not hold one.
  const listen = () => {
    if (news || going || document.hidden) return;
    news = new EventSource("/.tend/events?seen=" + mark);
    news.onopen = () => stripe.classList.remove("tend-gone");
    news.onmessage = (event) => { if (event.data !== mark) again(); };
    news.onerror = () => {
      stripe.classList.add("tend-gone");
      if (news && news.readyState === EventSource.CLOSED) { close(); setTimeout(listen, 2000); }
    };
  };
  document.addEventListener("visibilitychange", () => { if (document.hidden) close(); else listen(); });
  addEventListener("pagehide", close);
  addEventListener("pageshow", listen);
  listen();
})();
