// The clocks of a class: many trays with long names, in German and in English, and more sheets that wait than one evening takes.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { DESK, PHONE, address, start, visit } from './support/browser.js';
import { fits } from './support/checks.js';
import { pressed } from './support/notebook.js';

const NONE = [];
const EVENING = Date.parse('2031-05-20T18:00:00Z');

const BATHS = `\`\`\`recipe
id: nettle
title: Nettle developer
role: developer
makes: 1 l
add:
  washing soda, anhydrous: 30 g
  vitamin C powder: 10 g
use:
  time: 4–6 min
  agitation: rock 10 s every minute
keeps: 1 h
\`\`\`

\`\`\`recipe
id: hypo
title: Plain hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
\`\`\`
`;

const SHORT = `\`\`\`process
id: short-line
title: Short line
hands: 1
steps:
  - bath: nettle
    light: red
    drain: 10 s
    places: 3
  - rinse: tap water
    time: 30 s
    places: 3
  - bath: hypo
    time: 2 min
    places: 3
  - dry: string
    time: 2 h
\`\`\`
`;

// Ten trays, named as somebody names them who has to find them.
const LONG = `\`\`\`process
id: long-line
title: Long line
hands: 2
move: 5 s
steps:
  - rinse: tap water
    time: 1 min
    light: red
    drain: 5 s
    tray: Vorwässerungsschale links neben dem Waschbecken
  - bath: nettle
    time: 5–7 min
    drain: 20 s
    tray: Entwicklerschale (die große, weiße, mit dem Sprung)
    places: 3
  - rinse: tap water
    time: 30 s
    tray: Zwischenwässerung
    places: 3
  - rinse: tap water
    time: 1 min 30 s – 2 min
    tray: Zweite Zwischenwässerung
    places: 3
  - bath: hypo
    time: 4 min
    agitation: rock every half minute
    tray: Erstes Fixierbad
    places: 3
  - rinse: tap water
    time: 1 min
    light: room
    tray: Donaudampfschifffahrtsgesellschaftskapitänswasser
    places: 3
    slack: 10 min
  - wash: tap water
    time: 5 min
    tray: Erste Wässerung
    places: 6
    slack: 30 min
  - wash: tap water
    time: 20–24 min
    tray: Zweite Wässerung
    places: 12
    slack: 2 h
  - wash: tap water
    time: 20 min
    tray: Dritte Wässerung
    places: 12
    slack: 2 h
  - wash: tap water
    time: 1 h 30 min
    tray: Letzte Wässerung
    places: 12
    slack: 2 h
  - dry: string and pegs in the corridor behind the room
    time: 12 h
\`\`\`
`;

const camera = `\`\`\`camera
id: oat-drum
pinhole: 0.35 mm
distance: 125 mm
plane: wall, radius 62.5 mm
format: 5×7 in
\`\`\`
`;
const sheet = (number) => `\`\`\`exposure
id: shed-${number}
when: 2031-05-1${number} 11:00
camera: oat-drum
light: EV 12
time: 60 s
\`\`\`
`;
const settings = (language, decimal) => `format: 1\ntitle: Class\nlanguage: ${language}\ndecimal: ${decimal}\nzone: Europe/London\npress:\n  site: {}\n`;
const notebookIn = (language, decimal) => pressed({
  pages: {
    'trayside.yaml': settings(language, decimal),
    'line.md': `# Lines\n\n${BATHS}\n${SHORT}\n${LONG}`,
    'log.md': `# Sheets\n\n${[camera, ...[1, 2, 3, 4].map(sheet)].join('\n').replaceAll(/(\d)\.(\d)/g, decimal === 'comma' ? '$1,$2' : '$1.$2')}`,
  },
});
let english, german, browser;

before(async () => {
  english = await notebookIn('en', 'point');
  german = await notebookIn('de', 'comma');
  browser = await start();
});

after(async () => {
  await browser?.close();
  await english?.remove();
  await german?.remove();
});

/** Opens a clock; time passes only when it is told to. */
async function opened({ notebook = english, line = 'short-line', ...options } = {}) {
  const visited = await visit(browser, { viewport: PHONE, reducedMotion: 'reduce', ...options });
  await visited.page.clock.install({ time: EVENING - 60_000 });
  await visited.page.goto(address(notebook.site, `clock/${line}.html`));
  await visited.page.clock.pauseAt(EVENING);
  return { ...visited, words: (id) => visited.page.locator(`#clock-${id}`).textContent() };
}

/** The sheets that the session block names, in order. */
const sheetsOf = (block) => /^sheets: \[(.*)\]$/m.exec(block)[1].split(', ');

test('no sheet is guessed twice, however many more are started than were planned', async () => {
  const { page, words, faults, close } = await opened();
  await page.keyboard.press('2');
  await page.keyboard.press('Space');
  for (let more = 0; more < 4; more += 1) {
    await page.clock.runFor(1000);
    await page.keyboard.press('n');
  }
  // The two planned in the order in which they were exposed, then those before them; the fifth has no sheet left.
  const block = await words('session');
  assert.deepEqual(sheetsOf(block), ['shed-3', 'shed-4', 'shed-2', 'shed-1']);
  assert.deepEqual(block.match(/^ {4}sheet: .*$/gm).map((row) => row.slice(11)), ['shed-3', 'shed-4', 'shed-2', 'shed-1']);
  assert.match(await words('lacks'), /^Without a name yet: sheet 5\. /);

  // One that is chosen twice is said to be.
  await page.locator('#clock-told summary').nth(2).click();
  await page.locator('[name="clock-told-sheet-2"][value="shed-4"]').check();
  assert.match(await words('lacks'), /Sheets 2, 3 are all shed-4: a sheet goes in once\./);
  await page.locator('[name="clock-told-sheet-2"][value="shed-2"]').check();
  assert.doesNotMatch(await words('lacks'), /shed/);

  // Who was chosen not to be noted is not guessed again; the sheet that this leaves goes to whoever has none.
  await page.locator('[name="clock-told-sheet-2"][value=""]').check();
  await page.reload();
  await page.clock.runFor(300);
  assert.deepEqual(sheetsOf(await words('session')), ['shed-3', 'shed-4', 'shed-1', 'shed-2']);
  assert.match(await words('lacks'), /^Without a name yet: sheet 3\. /);
  assert.deepEqual(faults, NONE);
  await close();
});

test('a pause names no bath that nothing lies in', async () => {
  for (const [notebook, said] of [[english, 'what lies in a bath goes on'], [german, 'Was in einem Bad liegt, geht weiter']]) {
    const { page, words, close } = await opened({ notebook });
    await page.keyboard.press('Space');
    await page.clock.runFor(300_000);
    await page.keyboard.press('Space');
    await page.clock.runFor(20_000);
    assert.equal(await page.locator('#clock-line .tray').nth(2).locator('.number').count(), 1, 'in the rinse');
    await page.keyboard.press('p');
    assert.ok((await words('next')).endsWith(`${said}.`), await words('next'));
    await close();
  }
});

test('a temperature that is not understood is left out with words, in the language of the notebook', async () => {
  const cases = [
    [english, PHONE, '70 °F is not understood, and left out. Write °C, such as 21.5 or 19–21.', '1000 is left out: no bath has it. Water is liquid from 0 to 100 °C.', '21.5 °C'],
    [german, DESK, '70 °F ist nicht verständlich und bleibt weg. In °C schreiben, etwa 21,5 oder 19–21.', '1000 bleibt weg: So warm oder kalt ist kein Bad. Wasser ist von 0 bis 100 °C flüssig.', '21,5 °C'],
  ];
  for (const [notebook, viewport, unread, dry, taken] of cases) {
    const { page, words, faults, close } = await opened({ notebook, viewport });
    await page.keyboard.press('Space');
    const input = page.locator('#clock-told > .other input');
    for (const [typed, said] of [['70 °F', unread], ['1000', dry]]) {
      await input.fill(typed);
      assert.equal(await words('refused'), said);
      assert.equal(await input.getAttribute('aria-invalid'), 'true');
      assert.doesNotMatch(await words('session'), /^temperature/m);
    }
    assert.deepEqual(await fits(page), NONE);
    // Half a figure is not told off; left so, it is.
    await input.fill('21');
    await input.press('.');
    assert.equal(await words('refused'), '');
    await input.press('Tab');
    assert.match(await words('refused'), /^21\. /);
    await input.fill(taken.replace(' °', '').replace(',', '.'));
    assert.deepEqual([await words('refused'), await input.getAttribute('aria-invalid')], ['', null]);
    assert.match(await words('session'), new RegExp(`^temperature: ${taken.replace('.', '\\.')}$`, 'm'));
    await input.fill('19-21');
    assert.match(await words('session'), /^temperature: 19–21 °C$/m);
    assert.deepEqual(faults, NONE);
    await close();
  }
});

test('a sleep in which nothing was to be moved is written down, and the agitation that nobody called is listed', async () => {
  const cases = [
    [english, PHONE, '19:01:00–19:02:00: sheet 1 in the developer, 2 × not called: rock 10 s every minute', /"the clock slept for 2 min 3\d s"/],
    [german, DESK, '19:01:00–19:02:00: Blatt 1 in: Entwickler, 2 × nicht gerufen: rock 10 s every minute', /"die Uhr schlief 2 min 3\d s"/],
  ];
  for (const [notebook, viewport, line, note] of cases) {
    const { page, words, faults, close } = await opened({ notebook, viewport });
    await page.keyboard.press('Space');
    await page.clock.runFor(20_000);
    await page.clock.fastForward(150_000);
    await page.clock.runFor(1000);
    assert.deepEqual(await page.locator('#clock-missed-list li').allTextContents(), [line]);
    assert.match(await words('session'), note);
    // Asleep once more before that was seen: the list goes on.
    await page.clock.runFor(5000);
    await page.clock.fastForward(150_000);
    await page.clock.runFor(1000);
    const missed = await page.locator('#clock-missed-list li').allTextContents();
    assert.equal(missed[0], line);
    assert.equal(missed.length, 3, missed.join('\n'));
    assert.match(await words('missed-head'), /\b5 min/);
    assert.deepEqual(await fits(page), NONE);
    await page.keyboard.press('Escape');
    // A sleep that nothing fell into is written down, and calls nobody.
    await page.clock.runFor(5000);
    await page.clock.fastForward(10_000);
    await page.clock.runFor(1000);
    assert.equal(await page.locator('#clock-missed').isVisible(), false);
    assert.equal((await words('session')).match(/slept|schlief/g).length, 3);
    assert.deepEqual(faults, NONE);
    await close();
  }
});

test('ten trays with long names are one line each, and the button is in sight wherever one reads while the clock runs', async () => {
  const sizes = [[390, 844], [320, 568], [844, 390], [667, 375], [768, 1024], [1280, 900]];
  for (const [width, height] of sizes) for (const hasTouch of [true, false]) {
    const at = `${width}×${height}${hasTouch ? ', touched' : ''}`;
    const { page, faults, close } = await opened({ line: 'long-line', viewport: { width, height }, hasTouch, isMobile: hasTouch });
    assert.deepEqual(await fits(page), NONE, at);
    await page.keyboard.press('3');
    await page.keyboard.press('Space');
    await page.clock.runFor(64_000);
    await page.keyboard.press('Space');
    await page.clock.runFor(20_000);
    assert.deepEqual(await fits(page), NONE, at);
    const found = await page.evaluate(() => {
      const wrong = [];
      const within = (part, whole, what) => {
        const [inner, outer] = [part.getBoundingClientRect(), whole.getBoundingClientRect()];
        if (inner.width && (inner.left < outer.left - 1 || inner.right > outer.right + 1)) wrong.push(`${what} reaches out: ${part.textContent}`);
      };
      const lineOf = (element) => Number.parseFloat(getComputedStyle(element).lineHeight);
      for (const tray of document.querySelectorAll('#clock-line .tray')) {
        const name = tray.querySelector('.name');
        const box = name.getBoundingClientRect();
        const across = getComputedStyle(name).writingMode === 'vertical-rl' ? box.width : box.height;
        if (across > lineOf(name) + 1) wrong.push(`more than a line: ${name.textContent}`);
        within(name, tray, 'a name');
        for (const part of tray.querySelectorAll('.time span')) {
          within(part, tray, 'a time');
          if (part.getBoundingClientRect().height > lineOf(part) + 1) wrong.push(`broken: ${part.textContent}`);
        }
        for (const token of tray.querySelectorAll('.number')) within(token, tray, 'a sheet');
      }
      const press = document.getElementById('clock-press');
      for (const part of press.children) within(part, press, 'the label');
      return wrong;
    });
    assert.deepEqual(found, NONE, at);
    const inSight = async () => {
      const box = await page.locator('#clock-press').evaluate((button) => { const { top, bottom } = button.getBoundingClientRect(); return { top, bottom, height: innerHeight }; });
      assert.ok(box.top >= 0 && box.bottom <= box.height, `${at}: ${JSON.stringify(box)}`);
    };
    await inSight();
    // Where a screen is small it stays there, and covers nothing that cannot be scrolled out from under it.
    if (width <= 768 || height <= 480) {
      await page.evaluate(() => scrollTo(0, document.documentElement.scrollHeight));
      await inSight();
      const [last, press] = await page.evaluate(() => [document.querySelector('.foot').getBoundingClientRect().bottom, document.getElementById('clock-press').getBoundingClientRect().top]);
      assert.ok(last <= press, `${at}: the end of the page lies under the button`);
    }
    assert.deepEqual(faults, NONE);
    await close();
  }
});

test('tables show times beside long names, and no rows that are blank but for a name', async () => {
  for (const width of [320, 390, 1280]) {
    const { page, close } = await opened({ line: 'long-line', viewport: { width, height: 900 } });
    const tables = await page.locator('.read .wide').evaluateAll((all) => all.map((wide) => {
      const rows = [...wide.querySelectorAll('tbody tr')];
      const text = document.createRange();
      const edge = wide.getBoundingClientRect().right;
      return {
        names: Math.max(...rows.map((row) => row.cells[0].getBoundingClientRect().width)),
        hidden: rows.filter((row) => { text.selectNodeContents(row.cells[1]); return text.getBoundingClientRect().right > edge + 1; }).length,
        // How much higher a row is than the name in it.
        blank: Math.max(...rows.map((row) => row.getBoundingClientRect().height - row.cells[0].firstElementChild.getBoundingClientRect().height)),
      };
    }));
    assert.equal(tables.length, 7);
    for (const table of tables) {
      // The space between the columns is of the first.
      assert.ok(table.names <= width * 0.4 + 16, `${width}: ${table.names}`);
      assert.equal(table.hidden, 0, `${width}: a time out of sight`);
      assert.ok(table.blank < 32, `${width}: ${table.blank} px blank`);
    }
    await close();
  }
});
