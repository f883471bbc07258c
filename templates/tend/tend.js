// Shows a page anew as soon as it was pressed again, at the place where it was being read, with what was typed into it.
(() => {
  const mark = document.currentScript.dataset.mark;
  const stripe = document.getElementById(".tend");
  const place = "tend " + location.pathname;
  let news = null;
  let going = false;

  const attempt = (what) => { try { return what(); } catch { return null; } };
  const boxes = () => Array.from(document.querySelectorAll("details"));

  // What was typed into the forms over recipes. A choice is known by its words: its number may mean another thing by now.
  const forms = () => Array.from(document.querySelectorAll("form.scale"));
  const isChoice = (field) => field.type === "radio";
  const words = (field) => field.parentElement.textContent;
  const typed = () => forms().flatMap((form) => {
    const fields = Array.from(form.elements).filter((field) => field.name);
    const other = (field) => (isChoice(field) ? field.checked !== field.defaultChecked : field.value !== field.defaultValue);
    if (!fields.some(other)) return [];
    const said = fields.filter((field) => !isChoice(field) || field.checked);
    const at = said.indexOf(document.activeElement);
    return [{
      recipe: form.dataset.recipe,
      fields: said.map((field) => [field.name, isChoice(field) ? words(field) : field.value]),
      focus: at < 0 ? null : said[at].name,
    }];
  });
  const typeAgain = ({ recipe, fields, focus }) => {
    const form = forms().find((one) => one.dataset.recipe === recipe);
    if (!form) return;
    const named = (name) => Array.from(form.elements).filter((field) => field.name === name);
    const change = (field) => field.dispatchEvent(new Event("change", { bubbles: true }));
    const fill = () => fields.forEach(([name, value]) => named(name).forEach((field) => {
      if (!isChoice(field)) field.value = value;
      else if (!field.checked && words(field) === value) { field.checked = true; change(field); }
    }));
    // Some choices fill in other fields: only the second time all are there to stay.
    fill();
    fill();
    change(form);
    const field = named(focus).find((one) => !isChoice(one) || one.checked);
    if (field) field.focus({ preventScroll: true });
  };

  let lost = null;
  for (const moves of ["wheel", "touchmove", "keydown", "pointerdown"]) addEventListener(moves, () => { lost = null; }, { passive: true });

  const kept = attempt(() => JSON.parse(sessionStorage.getItem(place)));
  attempt(() => sessionStorage.removeItem(place));
  // What is not yet typed again: the next swap may come before the forms are drawn.
  let waiting = kept && kept.typed;
  if (kept) {
    history.scrollRestoration = "manual";
    boxes().forEach((box, at) => { if (at in kept.open) box.open = kept.open[at]; });
    // What was changed above may have moved everything: what was at the top of the window is put there again.
    const back = () => {
      const anchor = kept.anchor && document.getElementById(kept.anchor.id);
      scrollTo(kept.x, anchor ? anchor.getBoundingClientRect().top + scrollY - kept.anchor.top : kept.y);
      // While a file is being replaced its page may be empty or away for a moment: the place is kept for when it is back.
      lost = !anchor && (kept.anchor || scrollY < Math.floor(kept.y)) ? kept : null;
    };
    back();
    // The scripts of the page, which draw the forms, have run by then.
    addEventListener("DOMContentLoaded", () => { kept.typed.forEach(typeAgain); waiting = null; back(); });
    // Pictures and fonts move the text once more.
    addEventListener("load", back);
    // Whoever comes back to the page later is taken where it was left; while it loads, the browser must not do so by itself.
    addEventListener("pagehide", () => { if (!going) history.scrollRestoration = "auto"; });
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
    attempt(() => sessionStorage.setItem(place, JSON.stringify({ ...(lost || { x: scrollX, y: scrollY, anchor: topmost() }), open, typed: waiting || typed() })));
    history.scrollRestoration = "manual";
    location.reload();
  };

  const close = () => { if (news) news.close(); news = null; };
  // A browser opens six connections to one server: pages that nobody looks at must not hold one.
  const listen = () => {
    if (news || going || document.hidden) return;
    news = new EventSource("/.tend/events?seen=" + mark + "&page=" + encodeURIComponent(location.pathname + location.search));
    news.onopen = () => stripe.classList.remove("tend-gone");
    news.onmessage = (event) => { if (event.data !== mark) again(); };
    news.onerror = () => {
      stripe.classList.add("tend-gone");
      if (news && news.readyState === EventSource.CLOSED) { close(); setTimeout(listen, 2000); }
    };
  };
  // Who is on the way to another page must not be held back by this one coming anew. Where nothing comes of it, as with a
  // file that is only saved, news are asked for again.
  addEventListener("beforeunload", () => { if (!going) { close(); setTimeout(listen, 3000); } });
  document.addEventListener("visibilitychange", () => { if (document.hidden) close(); else listen(); });
  addEventListener("pagehide", close);
  addEventListener("pageshow", listen);
  listen();
})();
