"use strict";
/* The page of the search: asks while one types, and lists what was found. */
(function () {
  var field = document.getElementById("at.question");
  var form = field.form;
  var status = document.getElementById("at.status");
  var list = document.getElementById("at.hits");
  var more = document.getElementById("at.more");
  var SAY = JSON.parse(document.getElementById("at.words").textContent);
  var STEP = 20;
  // How long a pause in typing is, in milliseconds.
  var PAUSE = 120;
  var shown = STEP;
  var round = 0;
  var waiting = 0;

  // A sentence with its places filled.
  function told(name, places) {
    return SAY[name].replace(/\{(\w+)\}/g, function (place, key) { return key in places ? places[key] : place; });
  }

  function say(text) {
    if (status.textContent !== text) status.textContent = text;
  }

  // While the list is not the answer to what stands in the field.
  function busy(is) {
    list.setAttribute("aria-busy", String(is));
  }

  function element(name, className, text) {
    var made = document.createElement(name);
    if (className) made.className = className;
    if (text !== undefined) made.textContent = text;
    return made;
  }

  function address(hit) {
    var path = hit.path.split("/").map(encodeURIComponent).join("/");
    return path + (hit.anchor ? "#" + encodeURIComponent(hit.anchor) : "");
  }

  function item(hit) {
    var row = element("li");
    // What a rule says is English whatever the notebook is written in.
    if (hit.kind === "rule") row.lang = "en";
    var head = element("p", "hit");
    head.append(element("span", "kind", SAY.kinds[hit.kind] || hit.kind), " ");
    var link = element("a", "title", hit.title);
    link.href = address(hit);
    head.append(link);
    if (hit.kind !== "page") head.append(" ", element("span", "on", hit.page));
    if (hit.date) head.append(" ", element("span", "date", hit.date));
    row.append(head);
    if (hit.snippet.length > 0) {
      var words = element("p", "snippet");
      hit.snippet.forEach(function (piece) {
        words.append(piece.hit ? element("mark", "", piece.text) : piece.text);
      });
      row.append(words);
    }
    return row;
  }

  function count(found) {
    var one = found.pages === 1;
    if (found.whole) return (one ? SAY.page : SAY.pages).replace("{}", found.pages);
    return told(one ? "some_one" : "some_many", { pages: found.pages });
  }

  function lower(sentence) {
    return sentence.charAt(0).toLowerCase() + sentence.slice(1);
  }

  async function ask() {
    var mine = ++round;
    busy(true);
    var text = field.value;
    var found;
    try {
      found = await traysideSearch.find(text, shown);
    } catch (error) {
      if (mine !== round) return;
      busy(false);
      say(told("unreadable", { why: error.message }));
      return;
    }
    // A later question is on its way.
    if (mine !== round) return;
    busy(false);
    list.replaceChildren.apply(list, found.hits.map(item));
    more.hidden = found.pages <= shown;
    if (text.trim() === "") say("");
    else if (found.pages === 0) say(told("none", { asked: text.trim() }));
    else if (found.instead.length > 0) say(told("instead", { asked: text.trim(), words: found.words.join(" "), count: lower(count(found)) }));
    else say(count(found));
    keep(text);
  }

  // Puts the question into the address. Browsers refuse that in a folder; the form does it there.
  function keep(text) {
    var url = new URL(location.href);
    if (text) url.searchParams.set("q", text);
    else url.searchParams.delete("q");
    url.hash = "";
    if (url.href === location.href) return;
    try {
      history.replaceState(null, "", url.href);
    } catch (refused) {
      return;
    }
  }

  function anew() {
    shown = STEP;
    ask();
  }

  field.addEventListener("input", function () {
    clearTimeout(waiting);
    // An answer that is still on its way is one to an older question.
    round += 1;
    busy(true);
    waiting = setTimeout(anew, PAUSE);
  });
  form.addEventListener("submit", function (event) {
    event.preventDefault();
    clearTimeout(waiting);
    anew();
  });
  more.addEventListener("click", async function () {
    var before = list.children.length;
    shown += STEP;
    await ask();
    var next = list.children[before];
    if (next) next.querySelector("a").focus();
  });

  // Up and down go through what was found, Escape back to the question.
  document.querySelector("main").addEventListener("keydown", function (event) {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey || event.isComposing) return;
    var stops = [field].concat(Array.from(list.querySelectorAll("a.title")));
    var at = stops.indexOf(document.activeElement);
    if (event.key === "Escape" && at > 0) {
      field.focus();
      field.select();
      event.preventDefault();
    } else if (at >= 0 && (event.key === "ArrowDown" || event.key === "ArrowUp")) {
      var to = stops[at + (event.key === "ArrowDown" ? 1 : -1)];
      if (to) {
        to.focus();
        event.preventDefault();
      }
    }
  });

  form.hidden = false;
  var asked = new URLSearchParams(location.search).get("q");
  if (asked) field.value = asked;
  // A browser that goes back may bring the question with it.
  window.addEventListener("pageshow", function () { if (field.value) ask(); });
  if (!field.value) field.focus();
})();
