// How the line stands, in words: what the large figure says, what is said of each sheet.
(() => {
  "use strict";

  const engine = globalThis.traysideClock;
  const { fill, face, amount } = engine;

  // For a line and the sentences of the page; `string` is what the sheets dry on.
  globalThis.traysideClockWords = (line, words, string) => {
    const name = (tray) => (tray < 0 ? words.safe : tray < line.trays.length ? line.trays[tray].name : string);
    const isOut = (one) => one.tray + 1 >= line.trays.length;
    const sentence = (key, one, more = {}) => {
      const kind = one.tray < 0 && words[`${key}_start`] ? "_start" : isOut(one) && words[`${key}_out`] ? "_out" : "";
      const way = one.tray >= 0 && line.trays[one.tray] && line.trays[one.tray].agitation;
      return fill(words[key + kind], { sheet: one.sheet + 1, from: name(one.tray), to: name(one.tray + 1), way: way ? way.words : "", ...more });
    };

    // The time of day where the notebook is.
    const hour = (moment) => engine.stamp(moment, line.zone).slice(11, 19);

    const status = (one) => {
      if (one.is === "hanging") return words.hangs;
      if (one.is === "moving") return sentence("moving", { ...one, tray: one.tray - 1 });
      if (one.left === null) return one.is === "waiting" ? words.safe : fill(words.lies, { time: face(one.for) });
      if (one.held) return sentence("full", one);
      if (one.left <= 0) return fill(words.late, { time: face(-one.left) });
      return face(Math.ceil(one.left));
    };

    // The figure alone: what is left, or how long a sheet has lain where the eye ends it.
    const short = (one) => (one.left === null ? face(one.for) : one.left <= 0 ? words.now : face(Math.ceil(one.left)));

    const head = (key, one, left) => ({ head: fill(words[key], { sheet: one.sheet + 1, from: name(one.tray) }), figure: left });

    // The large figure and the lines about it.
    const dial = (now) => {
      const one = now.next || now.open[0] || null;
      const moving = now.sheets.find((other) => other.is === "moving");
      if (now.done) {
        const last = Math.max(...now.sheets.map((other) => other.arrives));
        const dry = line.dry && hour(now.now + (last + line.dry[1] - now.clock) * 1000).slice(0, 5);
        return { head: "", figure: words.done, next: fill(words.done_next, { dry: dry ? fill(words.dry_by, { time: dry }) : "" }), press: "" };
      }
      if (!one) {
        if (moving) return { ...head("head_moving", moving, face(Math.ceil(moving.arrives - now.clock))), next: sentence("moving", { ...moving, tray: moving.tray - 1 }), press: "" };
        const waits = now.waiting[0];
        return waits ? { ...head("head_waiting", waits, words.now), next: sentence("next_waiting", waits), press: sentence("move_words", waits) } : { head: "", figure: "", next: "", press: "" };
      }
      const drip = one.tray >= 0 ? line.trays[one.tray].drain : 0;
      const next = one.tray < 0 ? sentence("next_waiting", one)
        : sentence(drip > 0 ? (isOut(one) ? "next_drip_out" : "next_drip") : (isOut(one) ? "next_out" : "next"), one, { drip: amount(drip) });
      const press = sentence(isOut(one) ? "out_words" : "move_words", one);
      const key = one.tray < 0 ? "head_waiting" : "head_lying";
      if (one.left === null) return { ...head(key, one, face(one.for)), next: `${words.eye}, ${next}`, press };
      if (now.paused) return { ...head(key, one, face(Math.ceil(one.left))), next: words.paused_next, press: "" };
      if (one.left > 0) {
        const whole = one.tray < 0 ? 0 : one.goes - one.arrives;
        return { ...head(key, one, face(Math.ceil(one.left))), next, press, burn: whole > 0 ? one.left / whole : 0, urge: one.left <= 10 ? "soon" : "" };
      }
      const late = one.left > -1 ? "" : fill(words.late, { time: face(-one.left) });
      return { ...head(key, one, words.now), next: [next, late].filter(Boolean).join(" · "), press, urge: "now" };
    };

    // How sheets are moved just now; those that are moved alike are said together.
    const ways = (moved) => {
      const alike = new Map();
      for (const one of moved) {
        const way = line.trays[one.tray].agitation.words;
        alike.set(way, [...(alike.get(way) || []), one.sheet + 1]);
      }
      return [...alike].map(([way, all]) => fill(all.length > 1 ? words.call_agitate_many : words.call_agitate, { sheet: all.join(", "), way })).join(" ");
    };

    // What was due while nobody looked, a line each, in order; the times at which one sheet was to be moved in one tray are one.
    const missed = (before, run, from, to) => {
      const unheard = engine.unheard(before, run, from, to);
      const lines = run.log.slice(before.log.length).map((entry) => {
        const tray = engine.picture(before, entry.at).sheets[entry.sheet];
        return { at: entry.at, text: sentence("missed_own", { sheet: entry.sheet, tray: tray ? tray.tray : -1 }, { at: hour(entry.at) }) };
      });
      for (const one of run.own ? [] : unheard.filter(({ call }) => call === "move")) {
        lines.push({ at: one.at, text: sentence(one.tray < 0 ? "missed_start" : "missed_move", one, { at: hour(one.at) }) });
      }
      const stirs = new Map();
      for (const one of unheard.filter(({ call }) => call === "agitate")) {
        const key = `${one.sheet} ${one.tray}`;
        stirs.set(key, [...(stirs.get(key) || []), one]);
      }
      for (const all of stirs.values()) {
        const [first, last] = [hour(all[0].at), hour(all[all.length - 1].at)];
        lines.push({ at: all[0].at, text: sentence("missed_agitate", all[0], { at: first === last ? first : `${first}–${last}`, count: all.length }) });
      }
      return lines.sort((a, b) => a.at - b.at).map(({ text }) => text);
    };

    return { name, sentence, isOut, hour, status, short, dial, ways, missed };
  };
})();
