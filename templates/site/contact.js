"use strict";
/* Sifts the frames of a contact sheet, and tells what the other parts hold. */
var traysideContact = (function () {
  var form = document.getElementById("at.sift");
  var status = document.getElementById("at.status");
  var choices = Array.from(form.querySelectorAll(".sieve"));
  var frames = Array.from(document.querySelectorAll(".frame"));
  var days = Array.from(document.querySelectorAll(".day"));
  var SAY = JSON.parse(document.getElementById("at.words").textContent);
  var KEYS = ["camera", "paper", "developer", "verdict"];
  var parts = [];

  function wanted() {
    var all = {};
    choices.forEach(function (choice) {
      var chosen = choice.querySelector("input:checked");
      choice.querySelector("b").textContent = chosen.parentNode.textContent.trim();
      if (chosen.value) all[choice.dataset.name] = chosen.value;
    });
    return all;
  }

  function here(path) {
    return decodeURIComponent(location.pathname.split("/").pop()) === path;
  }

  function sheets(count) {
    return count === 1 ? SAY.sheet : SAY.sheets.replace("{}", count);
  }

  function query(want) {
    var text = new URLSearchParams(want).toString();
    return text ? "?" + text : "";
  }

  // How many there are in the other parts, with the way there.
  function elsewhere(want) {
    parts.forEach(function (part, at) {
      if (here(part[0])) return;
      var count = part[1].reduce(function (sum, one) {
        var fits = KEYS.every(function (key, place) { return !want[key] || want[key] === one[0][place]; });
        return fits ? sum + one[1] : sum;
      }, 0);
      if (count === 0) return;
      var link = document.createElement("a");
      link.href = encodeURIComponent(part[0]) + query(want);
      link.textContent = SAY.in_part.replace("{1}", sheets(count)).replace("{2}", at + 1);
      status.append(", ", link);
    });
  }

  function sift() {
    var want = wanted();
    var any = Object.keys(want).length > 0;
    var shown = 0;
    frames.forEach(function (frame) {
      frame.hidden = !Object.keys(want).every(function (key) { return frame.dataset[key] === want[key]; });
      if (!frame.hidden) shown += 1;
    });
    days.forEach(function (day) { day.hidden = !day.querySelector(".frame:not([hidden])"); });
    status.textContent = any ? (parts.length > 0 ? SAY.here : "{}").replace("{}", sheets(shown)) : "";
    if (any) elsewhere(want);
    try {
      history.replaceState(null, "", location.pathname + query(want) + location.hash);
    } catch (refused) {
      // A browser keeps the address of a file as it is.
      return;
    }
  }

  var asked = new URLSearchParams(location.search);
  choices.forEach(function (choice) {
    var value = asked.get(choice.dataset.name);
    choice.querySelectorAll("input").forEach(function (input) { if (value && input.value === value) input.checked = true; });
  });
  form.addEventListener("change", sift);
  // Chosen with a finger or the mouse, the list makes room for what it was chosen for. By keyboard one tries through it.
  form.addEventListener("click", function (event) {
    var label = event.target.closest("label");
    if (!label || event.detail === 0) return;
    var box = label.closest("details");
    setTimeout(function () {
      box.open = false;
      box.querySelector("summary").focus({ preventScroll: true });
    }, 0);
  });
  form.addEventListener("submit", function (event) { event.preventDefault(); });
  form.hidden = choices.length === 0;
  // A browser that goes back brings the choices with it.
  window.addEventListener("pageshow", sift);

  return function (data) {
    parts = data;
    sift();
  };
})();
