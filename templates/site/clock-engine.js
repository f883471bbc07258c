// The clock of a line of trays, without a page: what was pressed goes in, how the line stands comes out.
//
// Nothing is counted in ticks. A run is what was planned and a log of moments of the wall clock; everything shown is worked
// out from these and the time it is now, so a phone that slept is right as soon as it wakes. Moments are milliseconds since
// 1970, lengths are seconds.
(() => {
  "use strict";

  const SOON = 10;
  const DEEP = { dark: 2, red: 1, room: 0 };

  // A run of `line` (the page's data) with so many sheets. `own` is whether it goes on by itself where nobody presses.
  const begin = (line, sheets, own = false) => ({ line, plan: line.plans[sheets - 1], own, log: [] });

  const copy = (run, log) => ({ ...run, log });
  const put = (run, entry) => copy(run, [...run.log, entry]);

  // Seconds for which the clock was not paused until `at`.
  const running = (run, at) => {
    let held = 0;
    let since = null;
    for (const entry of run.log) {
      if (entry.at > at) continue;
      if (entry.do === "pause" && since === null) since = entry.at;
      if (entry.do === "go" && since !== null) { held += entry.at - since; since = null; }
    }
    if (since !== null) held += at - since;
    return (at - held) / 1000;
  };

  const isPaused = (run) => {
    const last = run.log.filter((entry) => entry.do === "pause" || entry.do === "go").pop();
    return last !== undefined && last.do === "pause";
  };

  // How long the move into tray `to` takes: the drip over the tray before, and the way.
  const moveLength = (line, to) => line.move + (to > 0 ? line.trays[to - 1].drain : 0);

  const startsOf = (run, sheet) => run.plan.starts[sheet] || run.line.plans[0].starts[0];

  // How long the plan lets a sheet lie in a tray; null where the eye ends it.
  const planned = (run, sheet, tray) => {
    if (run.line.trays[tray].stay === null) return null;
    const starts = startsOf(run, sheet);
    return starts[tray + 1] - starts[tray] - moveLength(run.line, tray);
  };

  // For each sheet its moves, in order.
  const movesOf = (run) => {
    const all = run.plan.starts.map(() => []);
    for (const entry of run.log) {
      if (entry.do !== "move") continue;
      while (all.length <= entry.sheet) all.push([]);
      all[entry.sheet].push(entry);
    }
    return all;
  };

  // The sheets as they are at `now`, before the hands are asked.
  const sheetsAt = (run, now) => {
    const { line } = run;
    const all = movesOf(run);
    const clock = running(run, now);
    return all.map((moves, sheet) => {
      const tray = moves.length - 1;
      if (tray < 0) return { sheet, moves, tray, is: "waiting", due: null };
      const lifted = running(run, moves[tray].at);
      const arrives = lifted + moveLength(line, tray);
      if (tray === line.trays.length) return { sheet, moves, tray, is: clock < arrives ? "moving" : "hanging", lifted, arrives, due: null };
      const stay = planned(run, sheet, tray);
      const { slack } = line.trays[tray];
      return {
        sheet, moves, tray, lifted, arrives,
        is: clock < arrives ? "moving" : "lying",
        due: stay === null ? null : arrives + stay,
        latest: stay === null || slack === null ? Infinity : arrives + line.trays[tray].stay + slack,
      };
    });
  };

  // Gives the next waiting sheet its moment: as planned, and as much later as those in the line are.
  const call = (run, sheets, clock) => {
    const next = sheets.find((one) => one.is === "waiting");
    const first = sheets[0];
    if (!next || next.sheet === 0 || !first.moves.length) return;
    const base = running(run, first.moves[0].at) - startsOf(run, 0)[0];
    const inLine = sheets.filter((one) => one.due !== null);
    const late = inLine.map((one) => {
      const due = run.own ? one.due : Math.max(one.due, clock);
      return due - base - startsOf(run, one.sheet)[one.tray + 1];
    });
    next.due = base + startsOf(run, next.sheet)[0] + (late.length ? Math.max(...late) : 0);
    next.latest = Infinity;
  };

  // Whoever is to go into a full tray arrives when one leaves it, and is held up by one that should have left.
  const makeRoom = (run, sheets, clock) => {
    for (const one of sheets) {
      const into = one.tray + 1;
      if (one.due === null || into >= run.line.trays.length) continue;
      const there = sheets.filter((other) => other !== one && other.tray === into && other.is !== "hanging");
      if (there.length < run.line.trays[into].places) continue;
      const leaves = Math.min(...there.map((other) => (other.due === null ? Infinity : other.due)));
      one.held = !run.own && leaves < clock;
      if (one.held) one.due = Math.max(one.due, clock + 1);
      else if (Number.isFinite(leaves)) one.due = Math.max(one.due, leaves - moveLength(run.line, into));
    }
  };

  // Shares the hands out: the earliest first, unless another could not wait for it and it can wait for the other.
  const handle = (run, sheets, clock) => {
    const free = Array.from({ length: run.line.hands }, () => -Infinity);
    const take = (until) => {
      const soonest = free.indexOf(Math.min(...free));
      free[soonest] = Math.max(free[soonest], until);
    };
    for (const one of sheets) {
      if (one.is === "moving" && one.arrives > clock) take(one.arrives);
    }
    const todo = sheets
      .filter((one) => one.due !== null)
      .map((one) => ({ one, due: one.due, latest: one.latest, length: moveLength(run.line, one.tray + 1) }))
      .sort((a, b) => a.due - b.due || a.one.sheet - b.one.sheet);
    while (todo.length) {
      const hand = Math.min(...free);
      let pick = 0;
      const at = Math.max(todo[0].due, hand);
      const pressed = todo.findIndex((other, place) => place > 0 && other.due < at + todo[0].length
        && other.latest < at + todo[0].length
        && todo[0].latest >= Math.max(other.due, hand) + other.length);
      if (pressed > 0) pick = pressed;
      const [{ one, due, length }] = todo.splice(pick, 1);
      one.goes = Math.max(due, hand);
      take(one.goes + length);
    }
  };

  // How the line stands at `now`.
  const picture = (run, now) => {
    const clock = running(run, now);
    const sheets = sheetsAt(run, now);
    call(run, sheets, clock);
    makeRoom(run, sheets, clock);
    handle(run, sheets, clock);
    const begun = sheets[0].moves.length > 0;
    for (const one of sheets) {
      one.left = one.goes === undefined ? null : one.goes - clock;
      one.for = one.is === "lying" ? clock - one.arrives : 0;
      one.stirs = stirs(run.line.trays[one.tray], one);
    }
    const next = sheets.filter((one) => one.left !== null).sort((a, b) => a.left - b.left)[0] || null;
    const open = sheets.filter((one) => one.is === "lying" && one.due === null);
    const waiting = sheets.filter((one) => one.is === "waiting");
    const done = begun && sheets.every((one) => one.is === "hanging");
    return { now, clock, sheets, next, open, waiting, begun, done, paused: isPaused(run), light: light(run.line, sheets) };
  };

  // Whether a sheet is to be moved in its tray just now; null where the words do not say.
  const stirs = (tray, one) => {
    const way = tray && tray.agitation;
    if (!way || one.is !== "lying") return null;
    if (way.first !== null && one.for < way.first) return true;
    if (way.every !== null) return one.for % way.every < (way.lasts === null ? 5 : way.lasts);
    return way.first !== null ? false : null;
  };

  // The least light that what is not hanging yet can bear. A tray that says nothing is lit as the one before it.
  const light = (line, sheets) => {
    const lights = [];
    for (const tray of line.trays) lights.push(tray.light || lights[lights.length - 1] || null);
    let least = "room";
    for (const one of sheets) {
      if (one.is === "hanging") continue;
      const at = one.is === "moving" ? [one.tray - 1, one.tray] : [one.tray];
      for (const tray of at) {
        const here = lights[Math.min(Math.max(tray, 0), lights.length - 1)];
        if (here === null) return null;
        if (DEEP[here] > DEEP[least]) least = here;
      }
    }
    return least;
  };

  // What was pressed ------------------------------------------------------------------------------------------------

  // Moves a sheet on: `sheet` by its number from 0, or whichever is next. The same run where there is nothing to move.
  const move = (run, at, sheet = null, by = "hand") => {
    const now = picture(run, at);
    const next = now.next || now.open[0] || now.waiting[0];
    const one = sheet === null ? next : now.sheets[sheet];
    if (!one || one.is === "moving" || one.is === "hanging" || isPaused(run)) return run;
    return put(run, { do: "move", sheet: one.sheet, at, by });
  };

  // Starts the next sheet; one more than was planned where all have started.
  const start = (run, at) => {
    if (isPaused(run)) return run;
    const sheets = sheetsAt(run, at);
    const next = sheets.find((one) => one.is === "waiting");
    return put(run, { do: "move", sheet: next ? next.sheet : sheets.length, at, by: "hand" });
  };

  // The sheet that should have gone did go, when it was due.
  const onTime = (run, at) => {
    const now = picture(run, at);
    if (!now.next || now.next.left > 0 || now.paused) return run;
    return put(run, { do: "move", sheet: now.next.sheet, at: at + now.next.left * 1000, by: "said" });
  };

  // Everything that is due by `at` goes when it was due. For a run that goes on by itself.
  const advance = (run, at) => {
    let gone = run;
    for (;;) {
      const now = picture(gone, at);
      if (now.paused || !now.next || now.next.left > 0) return gone;
      gone = put(gone, { do: "move", sheet: now.next.sheet, at: at + now.next.left * 1000, by: "clock" });
    }
  };

  const takesBack = (entry) => entry.do === "move" || entry.do === "grey";

  // Takes the last move or first grey back. Before the first move there is nothing to pause in, and nothing to sleep through.
  const undo = (run) => {
    const last = run.log.findLastIndex(takesBack);
    if (last < 0) return run;
    const left = run.log.filter((_, at) => at !== last);
    return copy(run, left.some((entry) => entry.do === "move") ? left : []);
  };

  // The last move was so many seconds later (or earlier, below zero) than it was pressed.
  const shift = (run, seconds, now) => {
    const last = run.log.findLastIndex((entry) => entry.do === "move");
    if (last < 0) return run;
    const entry = run.log[last];
    const moves = movesOf(run)[entry.sheet];
    const before = moves[moves.length - 2];
    const least = before ? before.at + moveLength(run.line, moves.length - 2) * 1000 : -Infinity;
    const at = Math.min(Math.max(entry.at + seconds * 1000, least), now);
    return copy(run, run.log.map((other, place) => (place === last ? { ...entry, at, by: "said" } : other)));
  };

  const pause = (run, at) => (run.log.length ? put(run, { do: isPaused(run) ? "go" : "pause", at }) : run);

  // The first grey showed on the sheet that went in last and still lies in the first tray.
  const grey = (run, at) => {
    const seen = new Set(run.log.filter((entry) => entry.do === "grey").map((entry) => entry.sheet));
    const one = picture(run, at).sheets.filter((other) => other.is === "lying" && other.tray === 0 && !seen.has(other.sheet)).pop();
    return one ? put(run, { do: "grey", sheet: one.sheet, at, after: one.for }) : run;
  };

  // The clock was not looked at from one moment to another. A browser that lets a page look once a minute has slept once.
  const slept = (run, from, to) => {
    const last = run.log.findLastIndex((entry) => entry.do === "slept");
    if (last < 0 || run.log[last].to !== from) return put(run, { do: "slept", at: from, to });
    return copy(run, run.log.map((entry, place) => (place === last ? { ...entry, to } : entry)));
  };

  // What is called out ----------------------------------------------------------------------------------------------

  // The calls that fall after `from` and not after `to`: agitate, soon (ten seconds to go), move.
  const calls = (run, from, to) => {
    const now = picture(run, to);
    if (now.paused || !now.begun) return [];
    const found = [];
    const wall = (clock) => to + (clock - now.clock) * 1000;
    const say = (call, one, clock) => {
      const at = wall(clock);
      if (at > from && at <= to) found.push({ call, sheet: one.sheet, tray: one.tray, at });
    };
    for (const one of now.sheets) {
      const lasts = one.goes === undefined ? Infinity : one.goes - (one.arrives || -Infinity);
      if (one.goes !== undefined) {
        if (lasts > SOON + 5) say("soon", one, one.goes - SOON);
        say("move", one, one.goes);
      }
      const way = one.is === "lying" && run.line.trays[one.tray].agitation;
      if (!way) continue;
      say("agitate", one, one.arrives);
      if (way.every === null) continue;
      // Not in the opening stretch, and not when the sheet is about to leave.
      const after = Math.max(way.first || 0, 1);
      const count = Math.floor((now.clock - one.arrives) / way.every);
      const since = Math.max(Math.ceil(after / way.every), Math.floor(((from - to) / 1000 + now.clock - one.arrives) / way.every));
      for (let beat = since; beat <= count; beat += 1) {
        if (beat * way.every < lasts - 3) say("agitate", one, one.arrives + beat * way.every);
      }
    }
    return found.sort((a, b) => a.at - b.at);
  };

  // The calls that nobody heard while `before` became `run` from one moment to another, by the clock alone: each as it fell
  // while the line stood so.
  const unheard = (before, run, from, to) => {
    let [then, since] = [before, from];
    const found = [];
    for (const entry of [...run.log.slice(before.log.length), null]) {
      const until = entry ? Math.max(entry.at, since) : to;
      found.push(...calls(then, since, until));
      if (entry) [then, since] = [put(then, entry), until];
    }
    return found;
  };

  // Afterwards ------------------------------------------------------------------------------------------------------

  // Seconds as a clock shows them.
  const face = (seconds) => {
    const whole = Math.max(0, Math.round(seconds));
    const two = (number) => String(number).padStart(2, "0");
    const [hours, minutes] = [Math.floor(whole / 3600), Math.floor(whole / 60) % 60];
    return hours ? `${hours}:${two(minutes)}:${two(whole % 60)}` : `${minutes}:${two(whole % 60)}`;
  };

  // Seconds as the notebook writes them.
  const amount = (seconds) => {
    const whole = Math.max(0, Math.round(seconds));
    const parts = [[Math.floor(whole / 3600), "h"], [Math.floor(whole / 60) % 60, "min"], [whole % 60, "s"]];
    const said = parts.filter(([count]) => count).map(([count, unit]) => `${count} ${unit}`);
    return said.length ? said.join(" ") : "0 s";
  };

  // How long each sheet really lay in each tray, in seconds: null where it has not left it.
  const real = (run) => movesOf(run).map((moves) => run.line.trays.map((_, tray) => {
    const [into, out] = [moves[tray], moves[tray + 1]];
    return into && out ? Math.max(0, (out.at - into.at) / 1000 - moveLength(run.line, tray)) : null;
  }));

  // A date and time in a zone, with seconds and offset: a clock change cannot make it mean another moment.
  const stamp = (at, zone) => {
    const parts = (timeZone) => {
      const shown = new Intl.DateTimeFormat("en-GB", {
        timeZone, hourCycle: "h23", year: "numeric", month: "2-digit", day: "2-digit", hour: "2-digit", minute: "2-digit", second: "2-digit",
      }).formatToParts(at);
      return Object.fromEntries(shown.map(({ type, value }) => [type, value]));
    };
    let here;
    try { here = parts(zone || undefined); } catch { here = parts(undefined); }
    const { year, month, day, hour, minute, second } = here;
    const local = Date.UTC(year, month - 1, day, hour, minute, second);
    const offset = Math.round((local - Math.floor(at / 1000) * 1000) / 60000);
    const two = (number) => String(number).padStart(2, "0");
    const [sign, size] = [offset < 0 ? "-" : "+", Math.abs(offset)];
    return `${year}-${month}-${day}T${hour}:${minute}:${second}${sign}${two(Math.floor(size / 60))}:${two(size % 60)}`;
  };

  // Text as a YAML value: bare where that is safe, else in double quotes as JSON writes it.
  const value = (text) => (/^[\p{L}][\p{L}\p{N}]*([ -][\p{L}\p{N}]+)*$/u.test(text) && !/^(y|n|yes|no|on|off|true|false|null)$/i.test(text)
    ? text : JSON.stringify(text));

  const DEGREES = String.raw`([-−+]?\d+(?:[.,]\d+)?)\s*(?:°\s*C?|℃|C)?`;
  const WARM = new RegExp(`^${DEGREES}(?:\\s*[-–—]\\s*${DEGREES})?$`, "i");

  // What was typed as a bath's temperature in °C, one figure or a range: `text` as a session takes it, or `why` there is none:
  // `unread`, or `dry` where water is no liquid (below 0 °C or above 100 °C, at the pressure at which these are defined).
  const warmth = (typed, mark) => {
    if (!typed.trim()) return { text: "" };
    const found = WARM.exec(typed.trim());
    if (!found) return { text: "", why: "unread" };
    const number = (figure) => Number(figure.replace(",", ".").replace("−", "-"));
    const ends = found.slice(1).filter(Boolean).sort((a, b) => number(a) - number(b));
    if (ends.some((end) => number(end) < 0 || number(end) > 100)) return { text: "", why: "dry" };
    return { text: `${ends.map((end) => end.replace(/^[-−+]/, "").replace(/[.,]/, mark)).join("–")} °C` };
  };

  // The session as a block to paste, and what it still lacks: sheets without a name, and such as share one. `told` is { sheets, baths, lamp, temperature }, all optional;
  // `words` are the sentences of the page.
  const session = (run, told, words) => {
    const { line, log } = run;
    const first = log.find((entry) => entry.do === "move");
    if (!first) return null;
    const named = (sheet) => (told.sheets && told.sheets[sheet]) || null;
    const began = Math.floor(first.at / 1000) * 1000;
    const when = stamp(began, line.zone);
    const rows = ["```session", `id: session-${when.slice(0, 10)}-${when.slice(11, 19).replaceAll(":", "")}`, `when: ${when}`, `process: ${value(line.id)}`];
    const baths = Object.entries(told.baths || {}).filter(([, batch]) => batch);
    if (baths.length) rows.push("baths:", ...baths.map(([recipe, batch]) => `  ${value(recipe)}: ${value(batch)}`));
    const warm = warmth(told.temperature || "", line.decimal).text;
    if (warm) rows.push(`temperature: ${warm}`);
    if (told.lamp) rows.push(`safelight: ${value(told.lamp)}`);
    const stays = real(run);
    const gone = movesOf(run).flatMap((moves, sheet) => (moves.length ? [sheet] : []));
    const ids = [...new Set(gone.map(named).filter(Boolean))];
    rows.push(`sheets: [${ids.map(value).join(", ")}]`);
    rows.push("events:", ...events(run, stays, named, words).flatMap(({ at, sheet, step, grey: seen, note }) => [
      `  - at: ${amount((at - began) / 1000)}`,
      ...(named(sheet) ? [`    sheet: ${value(named(sheet))}`] : []),
      ...(step ? [`    step: ${value(step)}`] : []),
      ...(seen === undefined ? [] : [`    appeared: ${amount(seen)}`]),
      ...(note ? [`    note: ${JSON.stringify(note)}`] : []),
    ]));
    const times = line.trays.map((tray, at) => {
      const lengths = stays.map((sheet) => sheet[at]).filter((stay) => stay !== null).map(Math.round).sort((a, b) => a - b);
      if (!lengths.length) return null;
      const [low, high] = [amount(lengths[0]), amount(lengths[lengths.length - 1])];
      return `  ${value(tray.step)}: ${low === high ? low : `${low} – ${high}`}`;
    }).filter(Boolean);
    if (times.length) rows.push("times:", ...times);
    rows.push("```", "");
    const nameless = gone.filter((sheet) => !named(sheet));
    const twice = ids.map((id) => ({ id, sheets: gone.filter((sheet) => named(sheet) === id) })).filter(({ sheets }) => sheets.length > 1);
    return { text: rows.join("\n"), nameless, twice, stem: `session-${when.slice(0, 10)}` };
  };

  const fill = (sentence, places) => sentence.replace(/\{(\w+)\}/g, (all, name) => (name in places ? places[name] : all));

  // What happened, in order: each sheet with its real times, first greys, pauses, and when nobody was called.
  const events = (run, stays, named, words) => {
    const found = [];
    const number = (sheet) => (named(sheet) ? "" : fill(words.sheet_of_note, { sheet: sheet + 1 }));
    stays.forEach((trays, sheet) => {
      const moves = movesOf(run)[sheet];
      if (!moves.length) return;
      const said = trays.map((stay, at) => (stay === null ? null : `${run.line.trays[at].name} ${amount(stay)}`)).filter(Boolean);
      const by = moves.filter((entry) => entry.by === "clock").length;
      const notes = [number(sheet), said.length ? fill(words.lay, { times: said.join(", ") }) : "", by ? fill(words.by_clock, { count: by, of: moves.length }) : ""];
      found.push({ at: moves[0].at, sheet, note: notes.filter(Boolean).join("; ") });
    });
    let since = null;
    for (const entry of run.log) {
      if (entry.do === "grey") {
        found.push({ at: entry.at, sheet: entry.sheet, step: run.line.trays[0].step, grey: entry.after, note: number(entry.sheet) });
      }
      if (entry.do === "slept") found.push({ at: entry.at, sheet: -1, note: fill(words.slept_note, { time: amount((entry.to - entry.at) / 1000) }) });
      if (entry.do === "pause") since = entry.at;
      if (entry.do === "go" && since !== null) {
        found.push({ at: since, sheet: -1, note: fill(words.paused_note, { time: amount((entry.at - since) / 1000) }) });
        since = null;
      }
    }
    return found.sort((a, b) => a.at - b.at);
  };

  globalThis.traysideClock = {
    begin, picture, move, start, onTime, advance, undo, shift, pause, grey, slept, calls, unheard, face, amount, real, stamp, warmth, session, fill, moveLength,
  };
})();
