// The form over a recipe: what is typed, and the amounts that follow. Nothing is kept: a page opens as it was written, but for
// the preview, whose script types the same again when it swaps a page.

"use strict";

(() => {
  const data = document.getElementById("at.scaling");
  if (!data) return;
  const page = JSON.parse(data.textContent);
  const { mix, named, writer } = globalThis.traysideScale;
  const { UNITS, typed } = globalThis.traysideTyped;
  const write = writer(page);
  /** How long the keys rest before the amounts follow, ms: nobody wants to hear each figure of 500. */
  const REST = 250;

  const make = (name, className, ...inside) => {
    const element = document.createElement(name);
    if (className) element.className = className;
    element.append(...inside.filter((one) => one !== null && one !== ""));
    return element;
  };
  const fill = (template, text) => template.replace("{1}", () => text);
  /** A sentence whose words in backticks are names. */
  const withNames = (text) => text.split("`").map((part, at) => (at % 2 === 1 ? make("code", "", part) : part));
  const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);
  const radio = (name, value, text) => {
    const input = make("input");
    Object.assign(input, { type: "radio", name, value });
    return make("label", "", input, make("span", "", text));
  };

  // The sheet.

  const amounts = ({ rows }) => {
    const body = make("tbody");
    for (const { material, amount, off, notes } of rows) {
      const name = make("th", "", material, ...notes.map((note) => make("small", "remark", note)));
      name.scope = "row";
      body.append(make("tr", "", name, make("td", "", amount, off && make("small", "remark", off))));
    }
    return make("table", "amounts", body);
  };
  const drawn = (sheet, level) => {
    const say = page.words.sheet;
    const head = (text) => make(`h${level}`, "part", text);
    const lines = (rows) => {
      const list = make("dl", "lines");
      for (const [name, ...text] of rows) list.append(make("div", "", make("dt", "", name), make("dd", "", ...text)));
      return list;
    };
    const all = sheet.groups.flatMap((group) => [group.name && head(group.name), amounts(group)]);
    if (sheet.rounding) all.push(make("p", "error", sheet.rounding));
    let part = null;
    let steps = null;
    const several = sheet.steps.some((step) => step.part !== null);
    let count = 0;
    for (const step of sheet.steps) {
      if (!steps || step.part !== part) {
        part = step.part;
        all.push(head(several && part ? `${say.steps}, ${part}` : say.steps));
        steps = make("ol", "steps");
        steps.start = count + 1;
        all.push(steps);
      }
      const figures = [step.figure, step.second].filter((text) => text !== "").map((text) => make("b", "", text));
      const words = figures.flatMap((figure) => [" ", figure]);
      steps.append(make("li", "", step.what, ...words, step.note && `, ${step.note}`));
      count += 1;
    }
    all.push(head(say.water_and_vessel), ...sheet.water.map((line) => make("p", "tell", line)));
    if (sheet.times.length > 0) all.push(lines(sheet.times.map(({ label, text }) => [label, text])));
    if (sheet.shelf.length > 0) {
      const left = ({ left: rest }) => rest && `, ${say.leaves} ${rest}`;
      all.push(head(say.shelf_afterwards), lines(sheet.shelf.map((one) => [
        one.material, `${say.takes} ${one.takes}${left(one)}`, one.short && make("b", "short", one.short),
      ])));
    }
    return all.filter((one) => one);
  };

  // The form.

  const begin = (form) => {
    const recipe = page.recipes[form.dataset.recipe];
    const block = form.closest(".block");
    if (!recipe || !block) return;
    const said = block.querySelector(".scaled");
    const mixed = block.querySelector(".mixed");
    const written = [...block.querySelectorAll(".written")];
    const words = page.words.form;
    const field = (name) => form.elements[name];
    const list = (name) => form.querySelector(`[data-list="${name}"]`);
    const picked = (name) => form.querySelector(`input[name="${name}"]:checked`)?.value;
    const measure = (limit) => ["volume", "mass", "count"].find((of) => limit[of] !== null);
    /** A packet's amount as the shelf tells it: number, unit, and the litres that it would make. */
    const held = (limit) => {
      const [number, unit = ""] = (limit.there ?? "").split("\u00a0");
      const found = typed(page, number, measure(limit), unit);
      return { number, unit, litres: found.refused === undefined ? found.value / limit[measure(limit)] : Infinity };
    };
    const own = write.volume(recipe.makes);
    let waits = 0;

    page.trays.forEach((tray, at) => list("tray").append(radio("tray", at, tray.name)));
    recipe.limits.forEach((limit, at) => list("limit").append(radio("limit", at, limit.name)));
    // The packet that runs short first is the one to ask about.
    const makes = recipe.limits.map((limit) => held(limit).litres);
    const shortest = makes.indexOf(Math.min(...makes));
    for (const [name, at] of [["tray", 0], ["limit", Math.max(shortest, 0)]]) {
      const first = list(name).querySelectorAll("input")[at];
      if (first) first.defaultChecked = true;
      form.querySelector(`[data-needs="${name}"]`).hidden = !first;
    }
    field("depth").defaultValue = write.number(page.rule.depth);
    // The volume that the recipe makes, where it is one.
    if (recipe.makes[0] === recipe.makes[2]) {
      const [number, unit] = own.split("\u00a0");
      field("volume").defaultValue = number;
      for (const one of form.querySelectorAll('[name="volume-unit"]')) one.defaultChecked = one.value === unit;
    }

    const limitOf = () => recipe.limits[picked("limit")];
    /** What is left of the material that was picked, where the shelf knows. */
    const offer = () => {
      const limit = limitOf();
      if (!limit) return;
      const { number, unit } = held(limit);
      const units = UNITS[measure(limit)];
      list("unit").replaceChildren(...units.filter((one) => one !== "").map((one) => radio("there-unit", one, one)));
      const chosen = list("unit").querySelector(`[value="${units.includes(unit) ? unit : units[0]}"]`);
      if (chosen) chosen.checked = true;
      field("there").value = number;
    };
    const show = () => {
      for (const ask of form.querySelectorAll(".ask")) ask.hidden = ask.dataset.by !== picked("by");
    };

    /** What is asked for; nothing while it is not yet said; a refusal where it is no number. */
    const target = () => {
      const by = picked("by");
      const input = field({ volume: "volume", tray: "depth", sheets: "sheets", limit: "there" }[by]);
      const text = input.value.trim();
      if (text === "") return [input, null];
      if (by === "sheets") {
        return [input, /^\d{1,15}$/.test(text) ? { by, sheets: Number(text) } : { refused: words.whole_wanted }];
      }
      const of = { volume: () => "volume", tray: () => "length", limit: () => measure(limitOf()) }[by]();
      const choice = { volume: "volume-unit", limit: "there-unit" }[by];
      const number = typed(page, text, of, by === "tray" ? "mm" : picked(choice) ?? "");
      if (number.refused !== undefined) return [input, number];
      // A unit that is typed is the one that is chosen.
      if (number.told && choice) form.querySelector(`[name="${choice}"][value="${number.unit}"]`).checked = true;
      if (by === "volume") return [input, { by, litres: number.value }];
      if (by === "tray") return [input, { by, tray: Number(picked("tray")), depth: number.value }];
      return [input, { by, limit: Number(picked("limit")), of, there: number.value, text: named(page, number) }];
    };
    const asWritten = (...told) => {
      mixed.hidden = true;
      mixed.replaceChildren();
      for (const one of written) one.hidden = false;
      said.replaceChildren(...told);
      block.classList.remove("rescaled");
    };
    const follow = () => {
      clearTimeout(waits);
      const [input, asked] = target();
      const found = asked && asked.refused === undefined ? mix(page, recipe.id, asked) : asked;
      const refused = found?.refused;
      input.setAttribute("aria-invalid", String(refused !== undefined));
      if (!found) {
        asWritten();
      } else if (refused !== undefined) {
        asWritten(...withNames(capital(fill(words.refused, refused))));
      } else {
        mixed.replaceChildren(...drawn(found, form.dataset.level));
        mixed.hidden = false;
        for (const one of written) one.hidden = true;
        const other = found.volume === own ? "" : fill(words.beside, own);
        said.replaceChildren(make("b", "", found.volume), `, ${found.because}${other}`);
        block.classList.add("rescaled");
      }
    };
    const soon = () => {
      clearTimeout(waits);
      waits = setTimeout(follow, REST);
    };

    form.addEventListener("input", (event) => (event.target.type === "radio" ? null : soon()));
    form.addEventListener("change", (event) => {
      if (event.target.name === "by") show();
      // A unit that is chosen takes the place of one that was typed.
      const chosenFor = { "volume-unit": "volume", "there-unit": "there" }[event.target.name];
      if (chosenFor) field(chosenFor).value = field(chosenFor).value.replace(/\s*\p{L}+\s*$/u, "");
      if (event.target.name === "limit" || (event.target.name === "by" && picked("by") === "limit")) offer();
      follow();
    });
    form.addEventListener("submit", (event) => {
      event.preventDefault();
      follow();
    });
    form.addEventListener("reset", (event) => {
      event.preventDefault();
      for (const input of form.querySelectorAll("input")) {
        if (input.type === "radio") input.checked = input.defaultChecked;
        else input.value = input.defaultValue;
        input.removeAttribute("aria-invalid");
      }
      clearTimeout(waits);
      show();
      asWritten(words.as_written);
    });
    show();
    form.hidden = false;
  };

  for (const form of document.querySelectorAll("form.scale")) begin(form);
})();
