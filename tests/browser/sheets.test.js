// The contact sheet, sifted by script and whole without one; and the small pages that lead to a block by its id.

import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { DESK, PHONE, address, followLink, start, visit } from './support/browser.js';
import { accessible, fits } from './support/checks.js';
import { pressed } from './support/notebook.js';
import { light } from './support/picture.js';

const NONE = [];

/** A log of so many days, two sheets on each. */
function log(days) {
  const pages = { 'trayside.yaml': 'title: Weir notebook\nzone: Europe/Oslo\n' };
  for (let day = 0; day < days; day += 1) {
    const date = new Date(Date.UTC(2031, 0, 1 + day)).toISOString().slice(0, 10);
    const sheet = (number, camera, result) => `\`\`\`exposure\nid: sheet-${day}-${number}\nwhen: ${date}\ncamera: ${camera}\npaper: plain\n${result}\`\`\`\n`;
    pages[`log/${date}.md`] = `---\ndate: ${date}\n---\n\n# Day ${day}\n\n${sheet(1, 'crate', 'result: right\n')}\n${sheet(2, 'tin & lid', '')}`;
  }
  return pages;
}

/** Opens a sieve and chooses from it. */
async function choose(page, sieve, value) {
  const details = page.locator(`.sieve[data-name=${sieve}]`);
  if (!await details.getAttribute('open').then((open) => open !== null)) await details.locator('summary').click();
  await details.locator(`input[value="${value}"]`).check();
}

let demo, long, browser;

before(async () => {
  demo = await pressed();
  long = await pressed({ pages: log(180) });
  browser = await start();
});

after(async () => {
  await browser?.close();
  await demo?.remove();
  await long?.remove();
});

test('sheets are sifted by what made them, and the choice is kept on the way back', async () => {
  const { page, faults, close } = await visit(browser);
  await page.goto(address(demo.site, 'contact.html'));
  const shown = () => page.locator('.frame:visible').count();
  const all = await shown();
  await choose(page, 'verdict', 'right');
  const right = await shown();
  assert.ok(right > 0 && right < all, `${right} of ${all}`);
  for (const words of await page.locator('.frame:visible .result').allTextContents()) assert.equal(words, 'right');
  assert.equal(await page.getByRole('status').textContent(), `${right} sheets`);
  await followLink(page, page.locator('.frame:visible h3 a').first());
  await page.goBack();
  await page.waitForFunction((count) => [...document.querySelectorAll('.frame')].filter((frame) => !frame.hidden).length === count, right);
  await choose(page, 'verdict', '');
  assert.equal(await shown(), all);
  assert.deepEqual(faults, NONE);
  await close();
});

test('other parts tell how many of them they hold, and keep the choice', async () => {
  const { page, faults, close } = await visit(browser);
  await page.goto(address(long.site, 'contact.html'));
  await choose(page, 'camera', 'tin & lid');
  const here = await page.locator('.frame:visible').count();
  const links = page.getByRole('status').getByRole('link');
  const words = await links.allTextContents();
  const elsewhere = words.reduce((sum, text) => sum + Number.parseInt(text, 10), 0);
  assert.equal(here + elsewhere, 180);
  await followLink(page, links.first());
  assert.equal(await page.locator('[name=camera]:checked').inputValue(), 'tin & lid');
  const there = await page.locator('.frame:visible').count();
  assert.equal(there, Number.parseInt(words[0], 10));
  assert.deepEqual(faults, NONE);
  await close();
});

test('a choice by finger makes room for its sheets, and by keyboard one tries through the list', async () => {
  const { page, faults, close } = await visit(browser, { viewport: PHONE, hasTouch: true, isMobile: true });
  await page.goto(address(demo.site, 'contact.html'));
  const sieve = page.locator('details.sieve[data-name=verdict]');
  const isOpen = () => sieve.evaluate((box) => box.open);
  await sieve.locator('summary').tap();
  await sieve.getByText('right', { exact: true }).tap();
  await page.waitForFunction(() => !document.querySelector('details.sieve[data-name=verdict]').open);
  assert.equal(await sieve.locator('summary b').textContent(), 'right');
  assert.equal(await sieve.locator('summary').evaluate((summary) => summary === document.activeElement), true);
  await page.keyboard.press('Enter');
  await page.keyboard.press('Tab');
  await page.keyboard.press('ArrowUp');
  assert.notEqual(await sieve.locator('summary b').textContent(), 'right');
  assert.equal(await isOpen(), true);
  assert.deepEqual(faults, NONE);
  await close();
});

test('without scripts every sheet lies there', async () => {
  const { page, close } = await visit(browser, { javaScriptEnabled: false });
  await page.goto(address(demo.site, 'contact.html'));
  assert.equal(await page.locator('.frame:visible').count(), await page.locator('.frame').count());
  assert.equal(await page.locator('#at\\.sift').isVisible(), false);
  await close();
});

for (const [name, viewport] of [['phone', PHONE], ['desk', DESK]]) {
  test(`long sheets, journal and tags fit and pass the accessibility audit: ${name}`, async () => {
    const { page, close } = await visit(browser, { viewport });
    for (const path of ['contact.html', 'contact-1.html', 'journal.html']) {
      await page.goto(address(long.site, path));
      assert.deepEqual(await fits(page), NONE, path);
      assert.deepEqual(await accessible(page), NONE, path);
    }
    await close();
  });
}

test('a lasting address is red for the moment that it is seen, where red was chosen', async () => {
  const { page, faults, close } = await visit(browser);
  const at = address(long.site, 'at/sheet-3-1.html');
  await page.goto(address(long.site, 'index.html'));
  await page.locator('.views button[value=red]').click();
  // The moment is held: the page without the order to go on.
  const text = await readFile(join(long.site, 'at', 'sheet-3-1.html'), 'utf8');
  await page.route(at, (route) => route.fulfill({ contentType: 'text/html', body: text.replace(/<meta http-equiv="refresh"[^>]*>/, '') }));
  await page.goto(at);
  const reader = await (await browser.newContext()).newPage();
  assert.equal((await light(reader, await page.screenshot())).stray, null);
  assert.deepEqual(faults, NONE);
  await close();
});

test('a lasting address leads to the block, with and without scripts', async () => {
  for (const javaScriptEnabled of [true, false]) {
    const { page, faults, close } = await visit(browser, { javaScriptEnabled });
    await page.goto(address(long.site, 'at/sheet-3-1.html'));
    await page.waitForURL(/2031-01-04\.html#sheet-3-1$/);
    assert.deepEqual(faults, NONE);
    await close();
  }
});
