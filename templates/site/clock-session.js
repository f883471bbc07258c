// What the clock writes for the notebook: who the sheets were, which baths, and the block to copy or save.
(() => {
  "use strict";

  const engine = globalThis.traysideClock;
  const { fill } = engine;
  const at = (id) => document.getElementById(`clock-${id}`);
  const attempt = (what) => { try { return what(); } catch { return null; } };
  const make = (tag, settings = {}, ...children) => {
    const made = Object.assign(document.createElement(tag), settings);
    made.append(...children);
    return made;
  };

  // The part of the page about the session. `told` is what was chosen, changed in place; `keep` is called when it was.
  globalThis.traysideSession = (line, words, told, keep) => {
    let run = null;
    let asked = 0;

    const write = () => {
      const made = engine.session(run, told, words);
      if (!made) return null;
      at("session").textContent = made.text;
      const listed = (sheets) => sheets.map((sheet) => sheet + 1).join(", ");
      const nameless = !made.nameless.length ? "" : line.sheets.length ? fill(words.lacks_sheets, { sheets: listed(made.nameless) }) : words.lacks_all;
      const twice = made.twice.map(({ id, sheets }) => fill(words.lacks_twice, { sheets: listed(sheets), id }));
      at("lacks").textContent = [nameless, ...twice].filter(Boolean).join(" ");
      return made;
    };
    const changed = () => { write(); keep(); };

    // A picture of a list that opens within the page: a browser draws its own in its own colours, and lights the room.
    const choice = (label, key, options, chosen, take) => {
      const shown = make("b");
      const tell = (id) => {
        const known = options.find((option) => option.id === id);
        shown.textContent = !id ? words.told_none : known && known.title !== id ? `${known.title} (${id})` : id;
      };
      const pick = (id) => { take(id); tell(id); changed(); };
      const radio = (id, text) => {
        const input = make("input", { type: "radio", name: `clock-told-${key}`, value: id, checked: id === (chosen || "") });
        input.addEventListener("change", () => { other.value = ""; pick(id); });
        return make("label", {}, input, make("span", { textContent: text }));
      };
      const other = make("input", { type: "text", autocomplete: "off", spellcheck: false, value: chosen && !options.some((option) => option.id === chosen) ? chosen : "" });
      other.addEventListener("input", () => {
        for (const input of box.querySelectorAll("input[type=radio]")) input.checked = false;
        pick(other.value.trim());
      });
      const box = make("details", {}, make("summary", {}, `${label}: `, shown),
        radio("", words.told_none),
        ...options.map(({ id, title: name }) => radio(id, name === id ? id : `${name} (${id})`)),
        make("label", { className: "other" }, make("span", { textContent: words.told_other }), other));
      tell(chosen);
      return box;
    };

    // The developer's temperature, and what is not understood of it.
    const temperature = () => {
      const warm = make("input", { type: "text", value: told.temperature, autocomplete: "off", spellcheck: false });
      const refused = make("p", { id: "clock-refused", className: "refused" });
      refused.setAttribute("role", "status");
      const judge = () => {
        const { why } = engine.warmth(told.temperature, line.decimal);
        refused.textContent = why ? fill(words[`temperature_${why}`], { typed: told.temperature, mark: line.decimal }) : "";
        if (why) warm.setAttribute("aria-invalid", "true"); else warm.removeAttribute("aria-invalid");
      };
      warm.setAttribute("aria-describedby", refused.id);
      warm.addEventListener("input", () => {
        told.temperature = warm.value.trim();
        // Whoever is still writing a figure or a range is not told off for it.
        if (!/\d\s*[.,°–-]$/.test(told.temperature)) judge();
        changed();
      });
      warm.addEventListener("change", judge);
      judge();
      return make("div", { className: "other" }, make("label", {}, make("span", { textContent: words.told_temperature }), warm), refused);
    };

    const ask = (count) => {
      asked = count;
      const parts = [];
      for (let sheet = 0; sheet < count; sheet += 1) {
        parts.push(choice(fill(words.told_sheet, { sheet: sheet + 1 }), `sheet-${sheet}`, line.sheets, told.sheets[sheet], (id) => { told.sheets[sheet] = id; }));
      }
      const baths = new Map(line.trays.filter((tray) => tray.bath).map((tray) => [tray.bath, tray.name]));
      for (const [bath, name] of baths) {
        const mixed = line.batches.filter((batch) => batch.of === bath);
        if (mixed.length) parts.push(choice(name, bath, mixed, told.baths[bath], (id) => { told.baths[bath] = id; }));
      }
      if (line.lamps.length) parts.push(choice(words.told_lamp, "lamp", line.lamps, told.lamp, (id) => { told.lamp = id; }));
      parts.push(temperature());
      at("told").replaceChildren(...parts);
    };

    // The latest undeveloped sheets that have no place yet, in the order in which they were exposed; the one lamp, where there
    // is one.
    const guess = (count) => {
      const open = Array.from({ length: count }, (_, sheet) => sheet).filter((sheet) => typeof told.sheets[sheet] !== "string");
      const free = line.sheets.filter(({ id }) => !told.sheets.includes(id));
      const latest = free.slice(0, open.length).reverse();
      open.slice(0, latest.length).forEach((sheet, place) => { told.sheets[sheet] = latest[place].id; });
      if (line.lamps.length === 1 && !told.lamp) told.lamp = line.lamps[0].id;
    };

    // Takes up how the run stands now.
    const follow = (now) => {
      run = now;
      const count = engine.real(run).length;
      if (run.log.length && count !== asked) { guess(count); ask(count); }
      write();
    };

    const forget = () => { told.sheets = []; asked = 0; };

    // Whether the block was copied; it is marked in any case.
    const copy = async () => {
      const made = write();
      if (!made) return false;
      const copied = navigator.clipboard && await navigator.clipboard.writeText(made.text).then(() => true, () => false);
      getSelection().selectAllChildren(at("session"));
      return copied || attempt(() => document.execCommand("copy"));
    };

    // Saves the block, and gives the file's name.
    const save = () => {
      const made = write();
      if (!made) return null;
      const link = make("a", { href: URL.createObjectURL(new Blob([made.text], { type: "text/markdown" })), download: `${made.stem}.md` });
      link.click();
      setTimeout(() => URL.revokeObjectURL(link.href), 10000);
      return link.download;
    };

    return { follow, forget, copy, save };
  };
})();
