// The engine of the clock without a browser: moments in, the line as it stands out.

import assert from "node:assert/strict";
import { readFileSync } from "node:fs";
import test from "node:test";
import vm from "node:vm";

const source = readFileSync(new URL("../../templates/site/clock-engine.js", import.meta.url), "utf8");
vm.runInThisContext(source);
const engine = globalThis.traysideClock;

const tray = (name, stay, more = {}) => ({
  name, step: name, bath: null, stay, slack: null, places: 1, drain: 0, light: null, agitation: null, ...more,
});
/** One pair of hands, moves of 10 s; the optimum for two sheets is the solver's business, here they are 150 s apart. */
const LINE = {
  notebook: "Test", id: "line", title: "Line", zone: "Europe/London", decimal: ".", hands: 1, move: 10,
  trays: [
    tray("developer", 120, { slack: 0, drain: 10, light: "red", agitation: { words: "rock 10 s every minute", every: 60, lasts: 10, first: null } }),
    tray("stop", 30, { light: "red" }),
    tray("fix", 60, { places: 2, light: "room" }),
  ],
  plans: [
    { starts: [[0, 130, 180, 250]], end: 260 },
    { starts: [[0, 130, 180, 250], [150, 280, 330, 400]], end: 410 },
  ],
  dry: [600, 600], sheets: [], lamps: [], batches: [],
};
const T = Date.UTC(2031, 4, 2, 18, 30, 0);
const WORDS = {
  sheet_of_note: "sheet {sheet}", lay: "lay in: {times}", by_clock: "{count} of {of} by the clock",
  slept_note: "slept {time}", paused_note: "paused {time}",
};
const after = (seconds) => T + seconds * 1000;
const begun = (sheets, own = false) => engine.move(engine.begin(LINE, sheets, own), T);
const left = (run, seconds) => engine.picture(run, after(seconds)).sheets.map((one) => one.left);

test("before the start nothing is due", () => {
  const now = engine.picture(engine.begin(LINE, 2), T);
  assert.equal(now.begun, false);
  assert.equal(now.next, null);
  assert.deepEqual(now.sheets.map((one) => one.is), ["waiting", "waiting"]);
});

test("who follows the plan meets its very moments", () => {
  let run = begun(2);
  const all = LINE.plans[1].starts.flatMap((starts, sheet) => starts.map((start, at) => ({ sheet, start, at }))).sort((a, b) => a.start - b.start);
  for (const { sheet, start, at } of all.slice(1)) {
    const now = engine.picture(run, after(start));
    assert.equal(now.next.sheet, sheet, `at ${start}`);
    assert.ok(Math.abs(now.next.left) < 1e-6, `sheet ${sheet} move ${at}: ${now.next.left}`);
    run = engine.move(run, after(start));
  }
  assert.equal(engine.picture(run, after(409)).done, false);
  assert.equal(engine.picture(run, after(411)).done, true);
});

test("a plan without a second to spare is met as well", () => {
  // What the solver finds for three sheets, of which two lie in the developer at once: the third arrives as the first leaves.
  const trays = [tray("developer", 300, { slack: 60, places: 2, drain: 10 }), tray("rinse", 15, { places: 2 }), tray("fix", 60, { places: 2 })];
  const starts = [[0, 305, 335, 400], [5, 320, 350, 415], [300, 605, 635, 700]];
  const line = { ...LINE, move: 5, trays, plans: [{ starts: [[0, 305, 335, 400]], end: 405 }, null, { starts, end: 705 }] };
  let run = engine.move(engine.begin(line, 3), T);
  const all = starts.flatMap((sheet, number) => sheet.map((start) => ({ number, start }))).sort((a, b) => a.start - b.start);
  for (const { number, start } of all.slice(1)) {
    const now = engine.picture(run, after(start));
    assert.deepEqual([now.next.sheet, Math.round(now.next.left * 1000)], [number, 0], `at ${start}`);
    run = engine.move(run, after(start));
  }
  assert.ok(engine.picture(run, after(706)).done);
});

test("a sheet is moving for as long as it drips and is carried", () => {
  const run = engine.move(begun(1), after(130), 0);
  assert.equal(engine.picture(run, after(149)).sheets[0].is, "moving");
  const lying = engine.picture(run, after(150)).sheets[0];
  assert.deepEqual([lying.is, lying.tray, lying.left], ["lying", 1, 30]);
});

test("what was late makes later what follows it, and what was early makes it earlier", () => {
  const run = engine.move(begun(2), after(150), 0);
  assert.deepEqual(left(run, 160), [40, 10]);
  const early = engine.move(begun(2), after(120), 0);
  assert.deepEqual(left(early, 121), [49, 19]);
  // As long as it is not moved, the next waits with it.
  assert.deepEqual(left(begun(2), 200), [-70, 20]);
});

test("a late press can be set right, and taken back", () => {
  let run = engine.onTime(begun(2), after(170));
  assert.equal(run.log[1].at, after(130));
  run = engine.shift(run, 5, after(171));
  assert.equal(run.log[1].at, after(135));
  assert.equal(engine.shift(run, 500, after(171)).log[1].at, after(171));
  assert.equal(engine.shift(run, -500, after(171)).log[1].at, after(10));
  run = engine.undo(run);
  assert.deepEqual(left(run, 100), [30, 50]);
  assert.equal(engine.undo(engine.undo(run)).log.length, 0);
  assert.equal(engine.onTime(begun(1), after(20)).log.length, 1);
});

test("a pause shifts what is due, and not how long a sheet really lay", () => {
  let run = engine.pause(begun(1), after(60));
  assert.deepEqual(left(run, 100), [70]);
  assert.equal(engine.move(run, after(100)).log.length, 2);
  run = engine.pause(run, after(160));
  assert.deepEqual(left(run, 160), [70]);
  run = engine.move(run, after(230));
  assert.equal(engine.real(run)[0][0], 220);
});

test("calls fall at their moments, once, however often one looks", () => {
  const run = begun(1);
  const heard = [];
  for (let at = 0; at < 200; at += 0.25) heard.push(...engine.calls(run, after(at), after(at + 0.25)));
  assert.deepEqual(
    heard.map((one) => [one.call, (one.at - T) / 1000]),
    [["agitate", 10], ["agitate", 70], ["soon", 120], ["move", 130]],
  );
  assert.deepEqual(engine.calls(run, after(0), after(200)).map((one) => one.call), ["agitate", "agitate", "soon", "move"]);
  assert.deepEqual(engine.calls(engine.pause(run, after(50)), after(100), after(300)), []);
});

test("who slept is told what was due, and the rest is right", () => {
  const run = begun(2);
  assert.deepEqual(engine.calls(run, after(20), after(1000)).filter((one) => one.call === "move").map((one) => [one.sheet, one.at]), [[0, after(130)]]);
  assert.equal(left(run, 1000)[0], -870);
});

test("what nobody heard is each call as it fell, those before a move that the clock made too", () => {
  const heard = (before, run, from, to) => engine.unheard(before, run, after(from), after(to)).map((one) => [one.call, one.sheet, (one.at - T) / 1000]);
  // The developer is entered at 10 s and rocked at its full minutes: a sleep in which no move falls due is one all the same.
  assert.deepEqual(heard(begun(1), begun(1), 5, 100), [["agitate", 0, 10], ["agitate", 0, 70]]);
  assert.deepEqual(heard(begun(1), begun(1), 20, 60), []);
  const before = begun(2, true);
  const gone = engine.advance(before, after(240));
  assert.deepEqual(heard(before, gone, 20, 240).filter(([call]) => call === "agitate"), [
    ["agitate", 0, 70], ["agitate", 1, 160], ["agitate", 1, 220],
  ]);
});

test("a sleep is written down whatever was due, and one that a glance a minute breaks is one", () => {
  let run = engine.slept(begun(1), after(20), after(60));
  run = engine.slept(run, after(60), after(120));
  assert.match(engine.session(run, {}, WORDS).text, /- at: 20 s\n {4}note: "slept 1 min 40 s"/);
  run = engine.slept(run, after(121), after(126));
  assert.deepEqual(run.log.filter((entry) => entry.do === "slept").map(({ at, to }) => [(at - T) / 1000, (to - T) / 1000]), [[20, 120], [121, 126]]);
  // Taken back to before the start, nothing is left that could keep the number of sheets from being chosen.
  assert.deepEqual(engine.undo(engine.pause(run, after(130))).log, []);
});

test("by itself it goes on at the planned moments, however long nobody looked", () => {
  let often = begun(2, true);
  for (let at = 0; at <= 500; at += 1) often = engine.advance(often, after(at));
  const once = engine.advance(begun(2, true), after(500));
  assert.deepEqual(once.log, often.log);
  assert.deepEqual(once.log.filter((entry) => entry.sheet === 1).map((entry) => (entry.at - T) / 1000), [150, 280, 330, 400]);
  assert.ok(engine.picture(once, after(500)).done);
});

test("a sheet more than planned can be started, and full trays are waited for", () => {
  let run = engine.start(begun(1), after(20));
  assert.equal(engine.picture(run, after(20)).sheets.length, 2);
  // Its own time in the developer is kept, whatever the other does.
  assert.deepEqual(left(run, 30), [100, 120]);
  run = engine.move(run, after(130), 0);
  const now = engine.picture(run, after(155));
  // The stop holds one, which leaves at 180 s; the other arrives at that instant, 20 s after it is lifted.
  assert.equal(now.sheets[1].left, 5);
  // And does not go where one lies that should have left.
  const late = engine.picture(run, after(200)).sheets[1];
  assert.deepEqual([late.held, late.left], [true, 1]);
});

test("of two that want the hands, the one that cannot wait goes first", () => {
  const trays = [tray("developer", 100, { slack: 0, places: 2 }), tray("fix", 90, { places: 4 })];
  const line = { ...LINE, trays, plans: [{ starts: [[0, 110, 210]], end: 220 }] };
  // The first may leave the fixer at 210, the second must leave the developer at 215.
  let run = engine.move(engine.begin(line, 1), T);
  run = engine.move(run, after(110), 0);
  run = engine.start(run, after(105));
  const now = engine.picture(run, after(200));
  assert.equal(now.next.sheet, 1);
  assert.deepEqual(now.sheets.map((one) => one.left), [25, 15]);
});

test("a bath that the eye ends counts up and calls nobody", () => {
  const line = { ...LINE, trays: [tray("toner", null), tray("wash", 60)], plans: [{ starts: [[0, 10, 80]], end: 90 }] };
  let run = engine.move(engine.begin(line, 1), T);
  const now = engine.picture(run, after(95));
  assert.deepEqual([now.next, now.open.length, now.sheets[0].for], [null, 1, 85]);
  assert.deepEqual(engine.calls(run, after(0), after(500)), []);
  run = engine.move(run, after(100));
  assert.deepEqual(left(run, 120), [50]);
});

test("the light is that of the sheet that can bear least", () => {
  let run = begun(2);
  assert.equal(engine.picture(run, after(1)).light, "red");
  for (const [at, sheet] of [[130, 0], [150, 1], [180, 0]]) run = engine.move(run, after(at), sheet);
  assert.equal(engine.picture(run, after(200)).light, "red");
  for (const [at, sheet] of [[280, 1], [330, 1]]) run = engine.move(run, after(at), sheet);
  assert.equal(engine.picture(run, after(335)).light, "red");
  assert.equal(engine.picture(run, after(341)).light, "room");
});

test("the session holds what was, not what was planned", () => {
  let run = begun(2);
  for (const [at, sheet] of [[132, 0], [153, 1], [180, 0], [251, 0], [285, 1], [335, 1], [401, 1]]) run = engine.move(run, after(at), sheet);
  const { text, nameless } = engine.session(run, { sheets: ["pier-2"], baths: { tea: "tea-may" }, lamp: "beam", temperature: "21,5" }, WORDS);
  assert.match(text, /^```session\nid: session-2031-05-02-193000\nwhen: 2031-05-02T19:30:00\+01:00\nprocess: line\n/);
  assert.match(text, /\ntemperature: 21\.5 °C\n/);
  assert.match(text, /\n {2}developer: 2 min 2 s\n/);
  assert.match(text, /\n {2}stop: 28 s – 30 s\n/);
  assert.match(text, /sheets: \[pier-2\]/);
  assert.deepEqual(nameless, [1]);
  assert.ok(text.endsWith("\n```\n"));
});

test("a sheet that has two numbers is named once, and said to have them; one that never started is not named", () => {
  const told = { sheets: ["pier-2", "pier-2"] };
  const one = engine.session(begun(2), told, WORDS);
  assert.match(engine.session(begun(2), { sheets: ["pier-2", "pier-3"] }, WORDS).text, /^sheets: \[pier-2\]$/m);
  assert.deepEqual([one.nameless, one.twice], [[], []]);
  const both = engine.session(engine.start(begun(2), after(150)), told, WORDS);
  assert.match(both.text, /^sheets: \[pier-2\]$/m);
  assert.deepEqual([both.nameless, both.twice], [[], [{ id: "pier-2", sheets: [0, 1] }]]);
});

test("a temperature is taken as people write it, and as the notebook does", () => {
  const taken = (typed, mark = ".") => engine.warmth(typed, mark).text;
  for (const typed of ["21.5", "21,5", "21.5 °C", "21.5°C", "21.5 C", "21,5 c", "21.5°", " 21.5 ℃ "]) assert.equal(taken(typed), "21.5 °C", typed);
  assert.equal(taken("21.5 °C", ","), "21,5 °C");
  for (const typed of ["19-21", "19–21 °C", "19 °C – 21 °C", "21 - 19"]) assert.equal(taken(typed), "19–21 °C", typed);
  assert.equal(taken("19,5-21", ","), "19,5–21 °C");
  assert.deepEqual([taken("0"), taken("100")], ["0 °C", "100 °C"]);
  assert.deepEqual(engine.warmth("  ", "."), { text: "" });
});

test("what is no temperature of a bath is refused with a reason", () => {
  const why = (typed) => engine.warmth(typed, ".").why;
  for (const typed of ["70 °F", "abc", "21.5.3", "21 °C\nfrom: x", "19-20-21", "K 294"]) assert.equal(why(typed), "unread", typed);
  for (const typed of ["-5", "−5 °C", "1000", "100.1", "19-1000", "-5 - 5"]) assert.equal(why(typed), "dry", typed);
  for (const typed of ["70 °F", "1000"]) {
    assert.doesNotMatch(engine.session(begun(1), { temperature: typed }, WORDS).text, /temperature/);
  }
});

test("nothing written by hand can break out of the session", () => {
  const odd = { ...LINE, trays: LINE.trays.map((one) => ({ ...one, step: `a: "b"\n\`\`\` ${one.name}`, name: "```\nx" })) };
  let run = engine.move(engine.begin(odd, 1), T);
  run = engine.move(run, after(130));
  const { text } = engine.session(run, { sheets: ["x: y"] }, WORDS);
  assert.equal(text.split("\n").filter((row) => row.startsWith("```")).length, 2);
  assert.match(text, /sheets: \["x: y"\]/);
});

test("the offset is that of the moment, not of the season", () => {
  assert.equal(engine.stamp(Date.UTC(2031, 0, 2, 18, 0, 5), "Europe/London"), "2031-01-02T18:00:05+00:00");
  assert.equal(engine.stamp(Date.UTC(2031, 6, 2, 18, 0, 5), "America/St_Johns"), "2031-07-02T15:30:05-02:30");
});
