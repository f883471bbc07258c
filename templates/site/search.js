"use strict";
/* The search: reads the parts of the index that a question needs, each a script of its own, and ranks what it finds.
   It knows nothing of the page it runs in, apart from how to load a script. */
var traysideSearch = (function () {
  // How much a word counts: in the title of a page, in a heading or tag, in the name of a block, anywhere else.
  var WEIGHTS = [12, 6, 4, 1];
  // A word that only begins as asked: in a title it counts a little less than the whole word in a heading or tag.
  var BEGINS = 0.45;
  var MOST_WORDS = 8;
  // The most characters of a word that are told apart.
  var LONGEST = 40;
  // Entries of one page.
  var ENTRIES = 3;
  var SNIPPET = 180;

  var arrived = new Map();
  var asked = new Map();

  // ---- Words, folded as the index folds them.

  var PLAIN = { "ß": "ss", "æ": "ae", "œ": "oe", "ø": "o", "ð": "d", "đ": "d", "þ": "th", "ł": "l", "ħ": "h", "ŧ": "t", "ı": "i", "ς": "σ" };

  function fold(text) {
    return text.normalize("NFKD").replace(/\p{M}/gu, "").toLowerCase().replace(/\p{M}/gu, "")
      .replace(/[ßæœøðđþłħŧıς]/g, function (letter) { return PLAIN[letter]; });
  }

  // In scripts that write no spaces every character is a word.
  var ALONE = "\\u0e00-\\u0eff\\u1000-\\u109f\\u1780-\\u17ff\\u3040-\\u30ff\\u3400-\\u4dbf\\u4e00-\\u9fff\\u{20000}-\\u{3ffff}";
  var RUN = /[\p{Alphabetic}\p{N}]+/gu;
  var WORD = new RegExp("[" + ALONE + "]|[^" + ALONE + "]+", "gu");

  function words(folded) {
    var all = [];
    (folded.match(RUN) || []).forEach(function (run) {
      (run.match(WORD) || []).forEach(function (word) { all.push(Array.from(word).slice(0, LONGEST).join("")); });
    });
    return all;
  }

  // The words of a question, each once.
  function question(text) {
    return words(fold(text)).filter(function (word, at, all) { return all.indexOf(word) === at; }).slice(0, MOST_WORDS);
  }

  // The question as it was typed, folded, where it has signs besides its words: `c++`. They are in no index.
  function withSigns(text) {
    var typed = fold(text).trim();
    return /[^\p{Alphabetic}\p{N}\s]/u.test(typed) ? typed : "";
  }

  // Whether a text has it so, and not within a word.
  function hasSigns(text, typed) {
    for (var at = text.indexOf(typed); at >= 0; at = text.indexOf(typed, at + 1)) {
      if (!/[\p{Alphabetic}\p{N}]$/u.test(text.slice(0, at))) return true;
    }
    return false;
  }

  // ---- The parts of the index.

  function register(kind, key, data) {
    arrived.set(kind + "-" + key, data);
  }

  function asScript(name) {
    return new Promise(function (resolve, reject) {
      var script = document.createElement("script");
      script.src = "search/" + encodeURIComponent(name) + ".js";
      script.onload = resolve;
      script.onerror = function () { reject(new Error("search/" + name + ".js cannot be read")); };
      document.head.appendChild(script);
    });
  }

  function part(name) {
    if (!asked.has(name)) {
      var coming = register.load(name).then(function () {
        if (!arrived.has(name)) throw new Error("search/" + name + ".js holds nothing");
        return arrived.get(name);
      });
      coming.catch(function () { asked.delete(name); });
      asked.set(name, coming);
    }
    return asked.get(name);
  }

  // The parts in which words lie that begin like this one.
  function keys(contents, word) {
    var first = String.fromCodePoint(word.codePointAt(0));
    var key;
    if (!/[a-z0-9]/.test(first)) key = "u-" + (first.codePointAt(0) % 64);
    else if (!contents.deep) key = first + "-";
    else if (word.length > 1) key = first + (/[a-z0-9]/.test(word[1]) ? word[1] : "-");
    return contents.words.filter(function (known) { return key ? known === key : known.length === 2 && known[0] === first; });
  }

  var DIGITS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz-_";
  var VALUE = new Map(Array.from(DIGITS, function (digit, value) { return [digit, value]; }));

  function numbers(written) {
    var all = [], last = 0, number = 0, shift = 0;
    for (var at = 0; at < written.length; at++) {
      var value = VALUE.get(written[at]);
      number |= (value & 31) << shift;
      if (value & 32) {
        shift += 5;
      } else {
        last += number;
        all.push(last);
        number = 0;
        shift = 0;
      }
    }
    return all;
  }

  // The pages on which a word stands, and how much it counts there.
  function pagesOf(lines, word, found) {
    var text = "\n" + lines;
    for (var at = text.indexOf("\n" + word); at >= 0; at = text.indexOf("\n" + word, at + 1)) {
      var line = text.slice(at + 1, text.indexOf("\n", at + 1)).split(" ");
      var share = line[0] === word ? 1 : BEGINS;
      line[1].split(",").forEach(function (written, rank) {
        numbers(written).forEach(function (page) {
          found.set(page, Math.max(found.get(page) || 0, WEIGHTS[rank] * share));
        });
      });
    }
  }

  // ---- Slips of the pen.

  // How many letters may be wrong, too many or missing, or two side by side swapped, in a word of so many.
  function slack(length) {
    return length < 4 ? 0 : length < 8 ? 1 : 2;
  }

  // How far a word is from the beginning of another, and how long the beginning is that it is nearest to: [letters, length].
  // The optimal string alignment distance.
  function distance(word, other) {
    var before = [], last = Array.from({ length: other.length + 1 }, function (_, at) { return at; });
    for (var i = 1; i <= word.length; i++) {
      var row = [i];
      for (var j = 1; j <= other.length; j++) {
        var swapped = i > 1 && j > 1 && word[i - 1] === other[j - 2] && word[i - 2] === other[j - 1];
        row[j] = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (word[i - 1] === other[j - 1] ? 0 : 1),
          swapped ? before[j - 2] + 1 : Infinity);
      }
      before = last;
      last = row;
    }
    var best = 0;
    // Of two alike the longer one: it is nearer to the whole word.
    last.forEach(function (letters, length) { if (letters <= last[best]) best = length; });
    return [last[best], best];
  }

  // Whether words of a shard may begin as `word` does but for its first letter: that is another one, is missing, is one too
  // many, or was swapped with the second.
  function begins(key, word) {
    return key[1] === "-" || key[0] === word[1] || key[1] === word[1] || key[1] === word[0];
  }

  // The word, or the beginning of one, that was perhaps meant by one that stands nowhere; null where none is near.
  async function near(contents, word) {
    var most = slack(word.length);
    if (most === 0) return null;
    var narrow = keys(contents, word);
    var wide = contents.words.filter(function (key) { return key[0] === word[0] && key.length === 2 && !narrow.includes(key); });
    var rest = contents.words.filter(function (key) { return key.length === 2 && !narrow.includes(key) && !wide.includes(key) && begins(key, word); });
    for (var some of [narrow, wide, rest]) {
      var best = null;
      (await Promise.all(some.map(function (key) { return part("w-" + key); }))).forEach(function (lines) {
        lines.split("\n").forEach(function (line) {
          var other = line.slice(0, line.indexOf(" "));
          if (other.length < word.length - most) return;
          var found = distance(word, other);
          // The nearest; of those the one that goes on least beyond it.
          var rank = found[0] + (other.length - found[1]) / 100;
          if (found[0] <= most && (!best || rank < best.rank)) best = { rank: rank, word: other.slice(0, found[1]) };
        });
      });
      if (best) return best.word;
    }
    return null;
  }

  // ---- Ranking.

  // How much a word counts in a folded text, 0 to 1.
  function inText(text, word) {
    if (text.indexOf(" " + word + " ") >= 0) return 1;
    return text.indexOf(" " + word) >= 0 ? BEGINS : 0;
  }

  function spaced(text) {
    return " " + words(fold(text)).join(" ") + " ";
  }

  function weight(kind) {
    return kind === "page" ? WEIGHTS[0] : kind === "section" ? WEIGHTS[1] : WEIGHTS[2];
  }

  // The entries of a page that answer best; `typed` is the question with its signs, if it has any.
  function entriesOf(page, asked, typed) {
    var phrase = " " + asked.join(" ");
    var all = page[4].map(function (entry) {
      var title = spaced(entry[2]), text = spaced(entry[3]);
      var held = 0, score = 0;
      asked.forEach(function (word) {
        var counts = Math.max(inText(title, word) * weight(entry[0]), inText(text, word) * WEIGHTS[3]);
        if (counts > 0) held += 1;
        score += counts;
      });
      if (asked.length > 1 && (title + text).indexOf(phrase) >= 0) score += 3;
      if (title === phrase + " ") score += 4;
      if (typed && hasSigns(fold(entry[2] + " " + entry[3]), typed)) score += WEIGHTS[0];
      return { page: page, entry: entry, held: held, score: score };
    }).filter(function (hit) { return hit.held > 0; });
    all.sort(function (a, b) { return b.held - a.held || b.score - a.score; });
    var best = all[0];
    if (!best) return [];
    return all.filter(function (hit) { return hit.held === best.held && hit.score * 2 >= best.score; }).slice(0, ENTRIES);
  }

  // The stretch of a text that holds most of the words, in pieces: { text, hit }.
  function snippet(text, asked) {
    var places = [];
    var match, finder = /[\p{Alphabetic}\p{N}\p{M}]+/gu;
    while ((match = finder.exec(text)) !== null && places.length < 400) {
      var folded = words(fold(match[0]));
      var which = asked.findIndex(function (word) { return folded.some(function (one) { return one.startsWith(word); }); });
      if (which >= 0) places.push({ at: match.index, end: match.index + match[0].length, which: which });
    }
    var from = 0, most = 0;
    places.forEach(function (place) {
      var within = new Set();
      places.forEach(function (other) {
        if (other.at >= place.at && other.end <= place.at + SNIPPET - 50) within.add(other.which);
      });
      if (within.size > most) {
        most = within.size;
        from = place.at;
      }
    });
    var start = Math.max(0, from - 50);
    if (start > 0) start = text.indexOf(" ", start) + 1 || from;
    if (start > from) start = from;
    var end = Math.min(text.length, start + SNIPPET);
    if (end < text.length) end = Math.max(text.lastIndexOf(" ", end), start + 1);
    var pieces = [], at = start;
    if (start > 0) pieces.push({ text: "… ", hit: false });
    places.forEach(function (place) {
      if (place.at < at || place.end > end) return;
      if (place.at > at) pieces.push({ text: text.slice(at, place.at), hit: false });
      pieces.push({ text: text.slice(place.at, place.end), hit: true });
      at = place.end;
    });
    if (at < end) pieces.push({ text: text.slice(at, end), hit: false });
    if (end < text.length) pieces.push({ text: " …", hit: false });
    return pieces;
  }

  // ---- Asking.

  // The pages of a word.
  async function holding(contents, word) {
    var parts = await Promise.all(keys(contents, word).map(function (key) { return part("w-" + key); }));
    var pages = new Map();
    parts.forEach(function (lines) { pagesOf(lines, word, pages); });
    return pages;
  }

  // The words as they are looked for: each that stands nowhere as the one that was perhaps meant.
  async function meant(contents, asked) {
    var read = await Promise.all(asked.map(async function (word) {
      var pages = await holding(contents, word);
      return pages.size > 0 ? word : await near(contents, word) || word;
    }));
    return read.filter(function (word, at) { return read.indexOf(word) === at; });
  }

  async function candidates(contents, asked) {
    var found = await Promise.all(asked.map(function (word) { return holding(contents, word); }));
    var all = new Map();
    found.forEach(function (pages) {
      pages.forEach(function (counts, page) {
        var known = all.get(page) || { page: page, held: 0, score: 0 };
        known.held += 1;
        known.score += counts;
        all.set(page, known);
      });
    });
    var list = Array.from(all.values());
    var most = list.reduce(function (most, one) { return Math.max(most, one.held); }, 0);
    list = list.filter(function (one) { return one.held === most; });
    list.sort(function (a, b) { return b.score - a.score || a.page - b.page; });
    return { list: list, whole: most === asked.length };
  }

  // Finds what answers `text`: at most `count` pages of it, the best first.
  // Gives { words, instead: those that nobody asked for, read for others that stand nowhere, pages: how many there are, whole:
  // whether they hold every word, hits: [{ kind, path, anchor, title, page, date, snippet }] }.
  async function find(text, count) {
    var typed = question(text), signs = withSigns(text);
    if (typed.length === 0) return { words: [], instead: [], pages: 0, whole: true, hits: [] };
    var contents = await part("m-all");
    var asked = await meant(contents, typed);
    var found = await candidates(contents, asked);
    var best = found.list.slice(0, count);
    var shards = await Promise.all(best.map(function (one) { return part("p-" + (one.page >> contents.shift)); }));
    var hits = [];
    best.forEach(function (one, at) {
      var page = shards[at].find(function (record) { return record[0] === one.page; });
      if (page) hits = hits.concat(entriesOf(page, asked, signs));
    });
    hits.sort(function (a, b) { return b.held - a.held || b.score - a.score || (a.page[1] < b.page[1] ? -1 : a.page[1] > b.page[1] ? 1 : 0); });
    return {
      words: asked,
      instead: asked.filter(function (word) { return !typed.includes(word); }),
      pages: found.list.length,
      whole: found.whole,
      hits: hits.map(function (hit) {
        return {
          kind: hit.entry[0],
          path: hit.page[1],
          anchor: hit.entry[1],
          title: hit.entry[2],
          page: hit.page[2],
          date: hit.page[3],
          snippet: snippet(hit.entry[3], asked)
        };
      })
    };
  }

  register.load = asScript;
  register.find = find;
  register.fold = fold;
  register.words = words;
  return register;
})();
