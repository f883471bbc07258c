// Draws the clock of a line of trays, calls out what is due, and keeps the run on this device. What time it is for which
// sheet is the engine's business.
(() => {
  "use strict";

  const engine = globalThis.traysideClock;
  const signals = globalThis.traysideSignals;
  const { fill, face, amount } = engine;
  const at = (id) => document.getElementById(`clock-${id}`);
  const line = JSON.parse(at("run").textContent);
  const words = JSON.parse(at("words").textContent);
  const trays = line.trays;
  const place = `trayside clock ${line.notebook}/${line.id}`;

  // Longer than the browser lets a page rest while it is looked at: then nobody was called.
  const ASLEEP = 4000;
  // Wet fingers press twice.
  const BOUNCE = 700;

  const wordsOf = (of) => globalThis.traysideClockWords(of, words, document.querySelector("#clock-line .string .name").textContent);
  let run = null;
  let tell = wordsOf(line);
  let sheets = 1;
  const told = { sheets: [], baths: {}, lamp: "", temperature: "" };
  const on = { sound: true, shake: true, awake: true, own: false, letters: true };
  let looked = Date.now();
  let pressed = 0;
  let clearing = 0;
  // The heading and the lines of what was missed, and for how many seconds nobody was called.
  let missed = [];
  let unseen = 0;

  const attempt = (what) => { try { return what(); } catch { return null; } };
  const make = (tag, settings = {}, ...children) => {
    const made = Object.assign(document.createElement(tag), settings);
    made.append(...children);
    return made;
  };
  // Only what has changed is touched: screen readers and the battery both notice.
  const write = (element, text) => { if (element.textContent !== text) element.textContent = text; };
  const show = (element, shown) => { if (element.hidden === shown) element.hidden = !shown; };
  const say = (text) => { at("said").textContent = text; };

  // Kept on this device ---------------------------------------------------------------------------------------------

  const keep = () => attempt(() => localStorage.setItem(place, JSON.stringify({ run, sheets, told, on, looked, missed, unseen })));
  const recall = () => {
    const kept = attempt(() => JSON.parse(localStorage.getItem(place)));
    if (!kept) return;
    Object.assign(on, kept.on);
    Object.assign(told, kept.told);
    sheets = kept.sheets || sheets;
    missed = kept.missed || [];
    unseen = kept.unseen || 0;
    if (!kept.run || !kept.run.log.length) return;
    // A run that was begun keeps the line it was begun with.
    run = kept.run;
    tell = wordsOf(run.line);
    looked = kept.looked || looked;
    const old = JSON.stringify([run.line.trays, run.line.move, run.line.hands]);
    const changed = old !== JSON.stringify([trays, line.move, line.hands]);
    say(changed ? words.said_changed : words.said_kept);
  };

  const session = globalThis.traysideSession(line, words, told, keep);

  // Calling out -----------------------------------------------------------------------------------------------------

  const callOut = (from, to) => {
    const calls = engine.calls(run, from, to);
    const loudest = ["move", "soon", "agitate"].find((call) => calls.some((one) => one.call === call));
    if (!loudest) return;
    signals.give(loudest, on);
    say(calls.map((one) => tell.sentence(`call_${one.call}`, one)).join(" "));
  };

  // The clock was not looked at from `from` to `to`: writes down that nobody was called, and says what was due. What is not
  // seen yet of an earlier sleep stays.
  const wokeUp = (before, from, to) => {
    if (engine.picture(before, from).done) return;
    const list = tell.missed(before, run, from, to);
    run = engine.slept(run, from, to);
    if (!list.length) return;
    unseen += (to - from) / 1000;
    missed = [fill(words.missed_head, { time: amount(unseen) }), ...missed.slice(1), ...list];
    signals.give("move", on);
    say(missed.join(". "));
    drawMissed();
  };

  // Switches --------------------------------------------------------------------------------------------------------

  // The screen stays on while sheets are wet.
  const stayAwake = () => signals.awake(on.awake && run.log.length > 0 && !engine.picture(run, Date.now()).done);

  const states = () => ({
    sound: !on.sound ? words.off : signals.isLoud() ? words.on : words.sound_waits,
    shake: !signals.canShake ? words.not_here : on.shake ? words.on : words.off,
    awake: !signals.canWake ? words.awake_not : !on.awake ? words.off : signals.isAwake() || !run.log.length ? words.on : words.awake_lost,
    own: on.own ? words.on : words.off,
    letters: on.letters ? words.on : words.off,
  });
  const switches = () => {
    const now = states();
    for (const button of document.querySelectorAll("[data-switch]")) {
      button.setAttribute("aria-pressed", String(on[button.dataset.switch]));
      write(button.querySelector(".is"), now[button.dataset.switch]);
    }
  };

  // Drawing ---------------------------------------------------------------------------------------------------------

  const beds = [...document.querySelectorAll("#clock-line .bed")];
  const calm = matchMedia("(prefers-reduced-motion: reduce)");
  const tokens = [];
  let deep = 0;

  // Moves a token to a tray: it is lifted, and glides for as long as the move takes.
  const carry = (token, bed, lasts) => {
    const from = token.getBoundingClientRect();
    const moved = token.parentElement && token.parentElement !== bed;
    bed.append(token);
    if (!moved || calm.matches || !token.animate) return;
    const to = token.getBoundingClientRect();
    const [x, y] = [from.left - to.left, from.top - to.top];
    token.animate([
      { transform: `translate(${x}px, ${y}px)` },
      { transform: `translate(${x}px, ${y}px) rotate(-4deg)`, offset: 0.15 },
      { transform: "translate(0, 0) rotate(-4deg)", offset: 0.85 },
      { transform: "none" },
    ], { duration: Math.max(300, lasts * 1000), easing: "ease-in-out" });
  };

  const drawLine = (now) => {
    now.sheets.forEach((one, index) => {
      tokens[index] = tokens[index] || make("span", { className: "token" },
        make("b", { className: "number", textContent: String(index + 1) }), make("span", { className: "left", ariaHidden: "true" }));
      const token = tokens[index];
      // Its figure stands in its tray; the list below says the same in words.
      write(token.lastChild, one.is === "lying" ? tell.short(one) : "");
      const bed = beds[Math.min(one.tray + 1, beds.length - 1)];
      if (token.parentElement !== bed) carry(token, bed, one.is === "moving" ? one.arrives - now.clock : 0);
      token.classList.toggle("moving", one.is === "moving");
      token.classList.toggle("due", now.next === one && one.left <= 10);
      token.classList.toggle("stirred", one.stirs === true && !now.paused);
    });
    while (tokens.length > now.sheets.length) tokens.pop().remove();
    // Every tray is as deep from the start as the string will have to be: nothing jumps under a thumb.
    if (deep !== tokens.length) at("line").style.setProperty("--sheets", deep = tokens.length);
    const there = now.next || now.open[0] || null;
    beds.forEach((bed, index) => bed.parentElement.classList.toggle("at", there !== null && now.begun && there.tray + 1 === index));
  };

  const rows = [];
  const drawSheets = (now) => {
    now.sheets.forEach((one, index) => {
      if (!rows[index]) {
        const parts = { number: make("b", { className: "number", textContent: String(index + 1) }), where: make("span", { className: "where" }), left: make("span", { className: "left" }) };
        const button = make("button", { type: "button" }, parts.number, " ", parts.where, " ", parts.left);
        button.dataset.sheet = String(index);
        rows[index] = { ...parts, button, row: make("li", {}, button) };
        at("sheets").append(rows[index].row);
      }
      const row = rows[index];
      const inside = one.is === "waiting" || one.is === "hanging" || one.is === "moving" ? "" : tell.name(one.tray);
      write(row.where, inside);
      write(row.left, tell.status(one));
      row.button.classList.toggle("due", now.next === one && one.left <= 10);
      const still = one.is === "moving" || one.is === "hanging";
      if (row.button.disabled !== still) row.button.disabled = still;
    });
    while (rows.length > now.sheets.length) rows.pop().row.remove();
  };

  const drawDial = (now) => {
    const shown = now.begun ? tell.dial(now) : {
      // How long it all takes is not known where the eye ends a tray.
      ...(line.trays.some((tray) => tray.stay === null) ? { head: "", figure: "" } : { head: words.idle, figure: face(line.plans[sheets - 1].end) }),
      next: tell.sentence("move_words", { sheet: 0, tray: -1 }), press: words.start,
    };
    write(at("head"), now.paused ? words.paused : shown.head);
    write(at("figure"), shown.figure);
    write(at("next"), shown.next);
    write(at("press-words"), shown.press);
    show(at("press"), Boolean(shown.press));
    show(at("ready"), now.done);
    show(at("count"), !now.begun);
    const moved = now.sheets.filter((one) => one.is === "lying" && one.stirs !== false && run.line.trays[one.tray].agitation);
    write(at("way"), now.begun && !now.paused ? tell.ways(moved) : "");
    document.documentElement.toggleAttribute("data-running", now.begun && !now.done);
    const box = at("dial");
    box.dataset.urge = shown.urge || "";
    box.dataset.long = shown.figure.length > 5 ? "yes" : "";
    at("burn").style.transform = `scaleX(${Math.min(1, Math.max(0, shown.burn || 0)).toFixed(4)})`;
    show(at("lamp"), now.begun && now.light !== null && !now.done);
    write(at("lamp"), now.light ? words[`light_${now.light}`] : "");
    document.title = now.begun && shown.figure ? `${shown.figure} ${shown.head}` : title;
  };
  const title = document.title;

  const drawMissed = () => {
    show(at("missed"), missed.length > 0);
    write(at("missed-head"), missed[0] || "");
    at("missed-list").replaceChildren(...missed.slice(1).map((text) => make("li", { textContent: text })));
  };

  const draw = () => {
    const now = engine.picture(run, Date.now());
    drawLine(now);
    drawDial(now);
    drawSheets(now);
    show(at("sheets"), now.begun);
    show(at("keys"), now.begun);
    show(at("after"), now.begun);
    document.querySelector("[data-do=pause]").setAttribute("aria-pressed", String(now.paused));
  };

  // What is pressed -------------------------------------------------------------------------------------------------

  const changed = (next, message) => {
    if (next === run) { say(words.said_nothing); return; }
    const begins = !run.log.length;
    run = next;
    say(message);
    session.follow(run);
    keep();
    draw();
    // What stood above the dial is gone now: the time and the trays shall not be scrolled off with it.
    if (begins) scrollTo(0, 0);
    stayAwake();
  };

  const lift = (sheet) => {
    const moment = Date.now();
    if (moment - pressed < BOUNCE) return;
    pressed = moment;
    const before = engine.picture(run, moment);
    const next = engine.move(run, moment, sheet);
    if (next === run) {
      const one = sheet === null ? null : before.sheets[sheet];
      say(one && one.is === "moving" ? fill(words.said_still, { sheet: sheet + 1 }) : words.said_nothing);
      return;
    }
    const one = before.sheets[next.log[next.log.length - 1].sheet];
    const early = one.left !== null && one.left > 5;
    changed(next, early ? tell.sentence("said_early", one, { time: face(one.left) }) : tell.sentence(tell.isOut(one) ? "said_out" : "said_move", one));
  };

  const moved = (next) => {
    const last = next.log.findLast((entry) => entry.do === "move");
    changed(next, last ? fill(words.said_shift, { time: tell.hour(last.at) }) : "");
  };

  const DO = {
    move: () => lift(null),
    start: () => {
      const moment = Date.now();
      if (moment - pressed < BOUNCE) return;
      pressed = moment;
      const next = engine.start(run, moment);
      changed(next, tell.sentence("said_move", { sheet: (next.log[next.log.length - 1] || { sheet: 0 }).sheet, tray: -1 }));
    },
    undo: () => changed(engine.undo(run), words.said_undo),
    "on-time": () => moved(engine.onTime(run, Date.now())),
    earlier: () => moved(engine.shift(run, -5, Date.now())),
    later: () => moved(engine.shift(run, 5, Date.now())),
    grey: () => {
      const next = engine.grey(run, Date.now());
      const seen = next.log[next.log.length - 1] || {};
      changed(next, fill(words.said_grey, { sheet: seen.sheet + 1, time: amount(seen.after || 0) }));
    },
    pause: () => changed(engine.pause(run, Date.now()), engine.picture(run, Date.now()).paused ? words.said_go : words.said_pause),
    again: () => {
      if (Date.now() - clearing > 5000) { clearing = Date.now(); say(words.said_again); return; }
      clearing = 0;
      tell = wordsOf(line);
      run = engine.begin(line, sheets, on.own);
      session.forget();
      [missed, unseen] = [[], 0];
      drawMissed();
      keep();
      say(words.said_cleared);
      draw();
      stayAwake();
      at("press").focus();
    },
    seen: () => { [missed, unseen] = [[], 0]; keep(); drawMissed(); },
    copy: async () => {
      if (run.log.length) say(await session.copy() ? words.said_copied : words.said_not_copied);
    },
    save: () => {
      const name = session.save();
      if (name) say(fill(words.said_saved, { name }));
    },
  };

  const flip = (which) => {
    on[which] = !on[which];
    if (which === "own") run = { ...run, own: on.own };
    if (which === "sound" && on.sound) signals.open();
    if (which === "awake") stayAwake();
    keep();
    switches();
  };

  const choose = (count) => {
    if (run.log.length || !line.plans[count - 1]) return;
    sheets = count;
    run = engine.begin(line, sheets, on.own);
    document.querySelector(`[name=clock-sheets][value="${count}"]`).checked = true;
    keep();
    draw();
  };

  const KEYS = { m: "move", n: "start", u: "undo", t: "on-time", ",": "earlier", ".": "later", g: "grey", p: "pause", x: "again", c: "copy", d: "save" };
  const SWITCHES = { s: "sound", v: "shake", w: "awake", b: "own" };

  const onKey = (event) => {
    if (event.ctrlKey || event.metaKey || event.altKey || event.repeat) return;
    const { target } = event;
    if (target.closest("select, textarea, input[type=text]")) return;
    const key = event.key.toLowerCase();
    if (key === "escape") { DO.seen(); return; }
    if (key === " ") {
      // On a control the space bar is the control's own.
      if (target.closest("button, a, input, summary")) return;
      event.preventDefault();
      DO.move();
      return;
    }
    if (key === "k") { flip("letters"); return; }
    if (!on.letters) return;
    if (key >= "1" && key <= "9") {
      if (run.log.length) lift(Number(key) - 1); else choose(Number(key));
    } else if (KEYS[key]) DO[KEYS[key]]();
    else if (SWITCHES[key]) flip(SWITCHES[key]);
    else return;
    event.preventDefault();
  };

  document.addEventListener("keydown", onKey);
  // A browser lets a page be heard only once something was pressed.
  for (const kind of ["pointerdown", "keydown"]) document.addEventListener(kind, () => { if (on.sound) signals.open(); });
  signals.onChange = () => switches();
  at("dial").parentElement.addEventListener("click", (event) => {
    const button = event.target.closest("button");
    if (!button) return;
    if (button.dataset.do) DO[button.dataset.do]();
    else if (button.dataset.switch) flip(button.dataset.switch);
    else if (button.dataset.sheet) lift(Number(button.dataset.sheet));
  });
  at("count").addEventListener("change", (event) => choose(Number(event.target.value)));
  document.addEventListener("visibilitychange", () => { look(); stayAwake(); });
  addEventListener("pagehide", keep);

  // Time ------------------------------------------------------------------------------------------------------------

  const look = () => {
    const to = Date.now();
    const from = Math.min(looked, to);
    looked = to;
    if (run.log.length) {
      const before = run;
      if (on.own) run = engine.advance(run, to);
      if (to - from > ASLEEP) wokeUp(before, from, to);
      else if (run !== before) goneOn(before);
      else callOut(from, to);
      if (run !== before) { session.follow(run); keep(); stayAwake(); }
    }
    draw();
  };
  // The run went on by itself since `before`.
  const goneOn = (before) => {
    signals.give("move", on);
    say(run.log.slice(before.log.length).map((entry) => {
      const one = engine.picture(before, entry.at).sheets[entry.sheet];
      return tell.sentence("call_move", one || { sheet: entry.sheet, tray: -1 });
    }).join(" "));
  };
  // Half a second is often enough for a figure of whole seconds, and the moments come from the wall clock anyway.
  const tick = () => {
    look();
    const now = engine.picture(run, Date.now());
    setTimeout(tick, now.begun && !now.done ? 500 - (Date.now() % 500) : 2000);
  };

  recall();
  run = run || engine.begin(line, sheets, on.own);
  run = { ...run, own: on.own };
  at("count").append(...line.plans.map((_, index) => make("label", {},
    make("input", { type: "radio", name: "clock-sheets", value: String(index + 1) }), make("span", { textContent: String(index + 1) }))));
  at("still").hidden = true;
  show(at("dial"), true);
  show(at("switches"), true);
  show(at("help"), true);
  document.querySelector(`[name=clock-sheets][value="${sheets}"]`).checked = true;
  session.follow(run);
  drawMissed();
  switches();
  tick();
  stayAwake();
  setInterval(() => { if (run.log.length) keep(); }, 5000);
})();
