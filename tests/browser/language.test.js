// The site speaks the notebook's language: the same notebook in two of them has no words of the site's own in common, but for
// what is marked as English: findings, and how facts come about.

import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { DESK, PHONE, address, start, visit } from './support/browser.js';
import { accessible, fits, valid } from './support/checks.js';
import { everything } from './support/everything.js';
import { DEMO, lay, pressed, run } from './support/notebook.js';

// What the author wrote is called Xo, so that it can be told from what the site says.
const PAGE = `# Xo

\`\`\`recipe
id: xo-tea
title: Xo tea
role: developer
makes: 1 l
add:
  washing soda, anhydrous: 30 g
  vitamin C powder: 10 g
use:
  time: 4–6 min
  agitation: 10 s alle 60 s Xo
  capacity: 20 sheets
keeps: 1 h
\`\`\`

\`\`\`recipe
id: xo-hypo
title: Xo hypo
role: fixer
makes: 1 l
add:
  hypo, crystals: 200 g
keeps: 12 weeks
\`\`\`

\`\`\`process
id: xo-line
title: Xo line
hands: 1
steps:
  - bath: xo-tea
    tray: Xo one
    drain: 10 s
  - rinse: Xo
    tray: Xo two
    time: 30 s
  - bath: xo-hypo
    tray: Xo three
    time: 2 min
  - dry: Xo string
    time: 2 h
\`\`\`
`;
const settings = (language, decimal) => `format: 1
title: Xo
language: ${language}
decimal: ${decimal}
zone: Europe/Berlin
trays:
  - name: Xo tray
    inside: 160×210 mm
shelf:
  - material: washing soda, anhydrous
    left: 500 g
press:
  site: {}
`;
const NONE = [];
// Letters of keys, figures, units and the author's words are alike in any language.
const ALIKE = /Xo|washing soda|vitamin C|^[A-Z,.]$|^esc$|^[\d–:,]+(\s(h|min|s))?$|^ml$|^l$/;
let english, german, browser;
// The same notebook with a block and a page of every kind.
let full, voll;

before(async () => {
  english = await pressed({ pages: { 'trayside.yaml': settings('en', 'point'), 'index.md': PAGE } });
  german = await pressed({ pages: { 'trayside.yaml': settings('de', 'comma'), 'index.md': PAGE } });
  const scan = { 'log/xo.jpg': await readFile(join(DEMO, 'log/scans/gate-1.jpg')) };
  full = await pressed({ pages: everything('en', 'point'), also: scan });
  voll = await pressed({ pages: everything('de', 'comma'), also: scan });
  // Once more with another recipe than a batch was mixed by.
  for (const [notebook, language, decimal] of [[full, 'en', 'point'], [voll, 'de', 'comma']]) {
    await lay(notebook.folder, everything(language, decimal, '250 g'));
    await run(['press', notebook.folder]);
  }
  browser = await start();
});

after(async () => {
  await browser?.close();
  await full?.remove();
  await voll?.remove();
  await english?.remove();
  await german?.remove();
});

/** Every text and label within `selector`, whether it is shown or not. */
const textsOf = (page, selector) => page.locator(selector).evaluate((root) => {
  const found = new Set();
  const walk = document.createTreeWalker(root, NodeFilter.SHOW_ALL);
  for (let node = walk.currentNode; node; node = walk.nextNode()) {
    if (node.nodeType === Node.TEXT_NODE) found.add(node.textContent.trim());
    else if (node.getAttribute) found.add((node.getAttribute('aria-label') ?? '').trim());
  }
  found.delete('');
  return [...found];
});

async function opened(notebook, path) {
  const { page, faults, close } = await visit(browser, { viewport: PHONE });
  await page.goto(address(notebook.site, path));
  return { page, faults, close };
}

async function shared(path, selector, act) {
  const all = [];
  for (const notebook of [english, german]) {
    const { page, close } = await opened(notebook, path);
    await act(page);
    all.push(await textsOf(page, selector));
    await close();
  }
  const [ours, theirs] = all;
  assert.ok(ours.length > 15 && theirs.length > 15, 'there are words to compare');
  return theirs.filter((text) => ours.includes(text) && !ALIKE.test(text));
}

/**
 * Every word of three letters and more that a reader or a screen reader is told, in small letters, but for what is marked as
 * English and for what stands as the notebook has it: names of facts, places of findings.
 */
const wordsOf = (page) => page.evaluate(() => {
  const left = 'code, .place, .rule, script, style, body [lang="en"]';
  const said = [document.title];
  const walk = document.createTreeWalker(document.documentElement, NodeFilter.SHOW_ALL);
  for (let node = walk.currentNode; node; node = walk.nextNode()) {
    const element = node.nodeType === Node.TEXT_NODE ? node.parentElement : node;
    if (!element?.closest || element.closest(left)) continue;
    if (node.nodeType === Node.TEXT_NODE) said.push(node.textContent);
    else for (const name of ['aria-label', 'alt', 'title', 'placeholder', 'data-all', 'data-some', 'data-pages']) said.push(node.getAttribute(name) ?? '');
  }
  return said.join(' ').replace(/\{\w+\}/g, '').toLowerCase().match(/[\p{L}]{3,}/gu) ?? [];
});

// What the author of the notebook wrote, names that are the same in both, and units.
const AUTHORS = /^xo|^(washing|soda|anhydrous|vitamin|powder|citric|gallic|ascorbate|acid|hypo|crystals|tea|alle)$/;
const BOTH = new Set(['trayside', 'film', 'filter', 'format', 'journal', 'petzval', 'png', 'pdf', 'json', 'csv', 'iso', 'mol', 'atm', 'dpi', 'min', 'feed', 'gas', 'scan', 'text', 'was', 'block', 'vibration', 'esc', 'hand', 'exponent', 'radius', 'browser', 'mmol']);

test('no word on any page is left in English, but for what is marked as English', async () => {
  const paths = (await voll.pages()).concat('at/xo-tea.html');
  assert.deepEqual((await full.pages()).concat('at/xo-tea.html'), paths);
  for (const kind of ['404', 'clock/xo-line', 'contact', 'facts', 'findings', 'index', 'journal', 'not-kept', 'pages', 'search', 'tags', 'tools', 'log/day']) {
    assert.ok(paths.includes(`${kind}.html`), `there is a page ${kind}`);
  }
  const left = {};
  for (const path of paths) {
    const told = [];
    for (const notebook of [full, voll]) {
      const { page, close } = await opened(notebook, path.startsWith('at/') ? '404.html' : path);
      // That one leads on by itself before anybody could read it.
      if (path.startsWith('at/')) await page.setContent((await readFile(join(notebook.site, path), 'utf8')).replace(/<meta http-equiv="refresh".*>/, ''));
      if (path === 'contact.html') {
        await page.locator('.sieve summary').first().click();
        await page.locator('.sieve label:has(input:not([value=""]))').first().click();
      }
      if (path === 'search.html') {
        await page.locator('[id="at.question"]').fill('xo');
        await page.waitForSelector('[id="at.hits"][aria-busy="false"] li');
      }
      told.push(new Set(await wordsOf(page)));
      await close();
    }
    const both = [...told[1]].filter((word) => told[0].has(word) && !AUTHORS.test(word) && !BOTH.has(word));
    if (both.length > 0) left[path] = both;
  }
  assert.deepEqual(left, {});
});

test('what stays English on a German page is marked as English', async () => {
  const { page, close } = await opened(voll, 'findings.html');
  assert.equal(await page.locator('.finding').count(), await page.locator('.finding > p:first-child > [lang="en"]').count());
  assert.match(await page.locator('.opening').textContent(), /Englisch/);
  await page.goto(address(voll.site, 'index.html'));
  assert.equal(await page.locator('.how:not([lang="en"])').count(), 0);
  assert.equal(await page.locator('.unreviewed').count(), 1);
  await close();
});

test('the search answers in German', async () => {
  const { page, close } = await opened(voll, 'search.html');
  const question = page.locator('[id="at.question"]');
  for (const [asked, says] of [['xo', /^\d Seiten$/], ['qqqq', /^Nichts gefunden für qqqq$/], ['xonote xohill qqqq', /^Keine Seite hat alle/]]) {
    await question.fill(asked);
    await page.waitForFunction(() => document.querySelector('[id="at.hits"][aria-busy="false"]'));
    assert.match(await page.locator('[id="at.status"]').textContent(), says);
  }
  await close();
});

test('every page of the German notebook is valid, fits and can be read by all', async () => {
  for (const viewport of [PHONE, DESK]) {
    for (const path of await voll.pages()) {
      const { page, faults, close } = await visit(browser, { viewport });
      await page.goto(address(voll.site, path));
      assert.deepEqual(await fits(page), NONE, path);
      assert.deepEqual(await accessible(page), NONE, path);
      if (viewport === PHONE) assert.deepEqual(await valid(await readFile(new URL(page.url()), 'utf8'), path), NONE);
      assert.deepEqual(faults, NONE, path);
      await close();
    }
  }
});

test('no word of the clock is left in English', async () => {
  assert.deepEqual(await shared('clock/xo-line.html', '#clock', async (page) => {
    await page.locator('#clock-press').click();
    await page.waitForTimeout(1200);
  }), NONE);
});

test('no word of the line that scales is left in English', async () => {
  assert.deepEqual(await shared('index.html', '#xo-tea form.scale', async () => {}), NONE);
});

test('the German clock says that nobody has reviewed it, is valid, fits and can be read by all', async () => {
  for (const path of ['clock/xo-line.html', 'index.html']) {
    const { page, faults, close } = await opened(german, path);
    assert.equal(await page.locator('.unreviewed').first().isVisible(), true);
    assert.deepEqual(await fits(page), NONE);
    assert.deepEqual(await accessible(page), NONE);
    assert.deepEqual(await valid(await readFile(new URL(page.url()), 'utf8'), path), NONE);
    assert.deepEqual(faults, NONE);
    await close();
  }
  const { page, close } = await opened(english, 'clock/xo-line.html');
  assert.equal(await page.locator('.unreviewed').count(), 0);
  await close();
});

test('a rhythm that is written in German is called out', async () => {
  const { page, close } = await opened(german, 'clock/xo-line.html');
  const data = JSON.parse(await page.locator('#clock-run').textContent());
  assert.deepEqual([data.trays[0].agitation.every, data.trays[0].agitation.lasts], [60, 10]);
  await close();
});

test('a mark that may set off thousands is asked about, in the words of the language', async () => {
  const asked = [
    [english, '1,500', '1,500 is not a number in this notebook: write 1500 for a thousand and more, or 1.500 for a decimal.'],
    [german, '1.500', '1.500 ist in diesem Notizbuch keine Zahl: 1500 schreiben für tausend und mehr, 1,500 für eine Dezimalzahl.'],
  ];
  for (const [notebook, text, says] of asked) {
    const { page, close } = await opened(notebook, 'index.html');
    const volume = page.locator('#xo-tea input[name="volume"]');
    const said = page.locator('#xo-tea .scaled');
    await volume.fill(text);
    await volume.press('Enter');
    assert.ok((await said.textContent()).startsWith(says), await said.textContent());
    assert.equal(await volume.getAttribute('aria-invalid'), 'true');
    // What leaves no doubt is taken, whichever mark the keyboard has.
    for (const clear of ['1,5', '1.5', '0.500', '0,500', '1500.5', '1500,5']) {
      await volume.fill(clear);
      await page.locator('#xo-tea label:has([value="ml"])').click();
      await volume.press('Enter');
      assert.equal(await volume.getAttribute('aria-invalid'), 'false', `${clear}: ${await said.textContent()}`);
    }
    await close();
  }
});

test('in a language that there are no words in, the words of the site are marked as English, and the author\'s are not', async () => {
  const notebook = await pressed({ pages: everything('fr', 'point') });
  const { page, close } = await visit(browser);
  const told = { en: new Set(), fr: new Set() };
  for (const path of await notebook.pages()) {
    await page.goto(address(notebook.site, path));
    const places = 'main :is(.kind, .part, .cautions li, .tally, .uses .of, .evidence, .lines dt, .pairs dt, .scale legend), .turns a > *';
    const spoken = await page.locator(places).evaluateAll((all) => all.map((one) => (
      [one.textContent.replace(/#$/, '').trim(), one.closest('[lang]').lang]
    )));
    for (const [text, lang] of spoken) told[lang].add(text);
    for (const lists of await page.locator('.cautions, .turns').evaluateAll((all) => all.map((one) => one.closest('[lang]').lang))) {
      assert.equal(lists, 'en', path);
    }
    assert.deepEqual(await valid(await readFile(new URL(page.url()), 'utf8'), path), NONE);
    assert.deepEqual(await accessible(page), NONE);
  }
  for (const text of ['recipe', 'all together', 'use', 'previous', 'next', 'Mix by']) {
    assert.ok([...told.en].some((one) => one.toLowerCase() === text.toLowerCase()), `${text}: ${[...told.en].join(' | ')}`);
  }
  assert.ok([...told.en].some((text) => text.includes('Goggles')), [...told.en].join(' | '));
  assert.deepEqual([...told.en].filter((text) => /^Xo\w*$/.test(text)), NONE);
  assert.ok(['Xocare', 'Xodrain', 'Xoleaf'].every((text) => told.fr.has(text)), [...told.fr].join(' | '));
  assert.deepEqual([...told.fr].filter((text) => /fault|doubt|hint|Goggles/.test(text) || told.en.has(text) && text !== 'time'), NONE);
  await close();
  await notebook.remove();
});
