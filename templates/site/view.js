// Light, dark or red: sets the view that was chosen before anything is painted, and lets it be chosen.
// Loaded in the head and waited for, so that a page opened in the darkroom never shows white first.
(() => {
  "use strict";
  const KEY = "trayside view";
  const GROUND = { light: "#ffffff", dark: "#151515", red: "#000000" };
  const root = document.documentElement;

  // Storage can be closed to a page; the view is then remembered as long as the page stands.
  const attempt = (what) => { try { return what(); } catch { return null; } };
  const chosen = () => {
    const view = attempt(() => localStorage.getItem(KEY));
    return view in GROUND ? view : "";
  };
  const system = () => (matchMedia("(prefers-color-scheme: dark)").matches ? "dark" : "light");

  // Words that the browser itself would show in a window of its own, in its own colours.
  const hush = (red) => {
    const [from, to] = red ? ["title", "data-title"] : ["data-title", "title"];
    for (const element of document.querySelectorAll("body [" + from + "]")) {
      element.setAttribute(to, element.getAttribute(from));
      element.removeAttribute(from);
    }
  };

  const show = (view) => {
    if (view) root.dataset.view = view; else delete root.dataset.view;
    // The frame around the page.
    const ground = GROUND[view];
    for (const meta of document.querySelectorAll("meta[name=theme-color]")) meta.content = ground || GROUND[meta.dataset.of];
    document.querySelector("meta[name=color-scheme]").content = { light: "light", dark: "dark", red: "dark" }[view] || "light dark";
    for (const button of document.querySelectorAll(".views button")) {
      button.setAttribute("aria-pressed", String(button.value === (view || system())));
    }
    hush(view === "red");
  };

  const choose = (view) => {
    attempt(() => localStorage.setItem(KEY, view));
    show(view);
  };

  root.dataset.scripted = "";
  show(chosen());
  // The ground until the style sheet is there.
  root.style.background = GROUND[chosen()] || "";
  addEventListener("load", () => { root.style.background = ""; });

  document.addEventListener("DOMContentLoaded", () => {
    show(root.dataset.view || "");
    for (const button of document.querySelectorAll(".views button")) {
      button.addEventListener("click", () => choose(button.value));
    }
    for (const button of document.querySelectorAll("button.fill")) {
      button.hidden = !document.fullscreenEnabled;
      button.addEventListener("click", () => {
        if (document.fullscreenElement) document.exitFullscreen(); else root.requestFullscreen().catch(() => {});
      });
    }
  });
  matchMedia("(prefers-color-scheme: dark)").addEventListener("change", () => show(root.dataset.view || ""));
  // Chosen in another window, or while this page lay in the browser's history.
  addEventListener("storage", (event) => { if (event.key === KEY || event.key === null) show(chosen()); });
  addEventListener("pageshow", (event) => { if (event.persisted) show(chosen()); });
})();
