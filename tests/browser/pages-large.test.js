// Larger text: whoever doubles it, or holds a small phone, still reads the head of a page, and nothing runs out at the side.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { DESK, PHONE, address, start, visit } from './support/browser.js';
import { fits } from './support/checks.js';
import { pressed } from './support/notebook.js';

const NONE = [];
const SMALL = { width: 320, height: 568 };
const LONG = 'Workshop of the school by the canal: the long notebook of form nine about pinhole boxes and paper';
const settings = (title, by) => `format: 1\ntitle: "${title}"\nby: ${by}\nzone: Europe/Lisbon\npress:\n  site: {}\n`;
const PAGES = { 'index.md': '# Paper\n\nRead the [second](second.md).\n', 'second.md': '# The second\n\nText.\n' };
const NOTEBOOKS = {
  short: settings('The Signal Cabin Notebook', 'Ann Bee'),
  long: settings(LONG, 'Wilhelmina Featherstonehaugh-Throckmorton of the upper school'),
};
const notebooks = {};
let browser;

before(async () => {
  for (const [name, yaml] of Object.entries(NOTEBOOKS)) notebooks[name] = await pressed({ pages: { 'trayside.yaml': yaml, ...PAGES } });
  browser = await start();
});

after(async () => {
  await browser?.close();
  for (const notebook of Object.values(notebooks)) await notebook.remove();
});

for (const [name, viewport, times] of [
  ['phone', PHONE, 1], ['phone', PHONE, 2], ['small phone', SMALL, 1], ['small phone', SMALL, 1.5], ['small phone', SMALL, 2], ['desk', DESK, 2],
]) {
  test(`the head of a page has room for its title: ${name}, text ${times} times as large`, async () => {
    const { page, faults, close } = await visit(browser, { viewport });
    for (const [which, notebook] of Object.entries(notebooks)) {
      await page.goto(address(notebook.site, 'second.html'));
      await page.evaluate((factor) => {
        const root = document.documentElement;
        root.style.fontSize = `${parseFloat(getComputedStyle(root).fontSize) * factor}px`;
      }, times);
      assert.deepEqual(await fits(page), NONE, which);
      const head = await page.evaluate(() => {
        const box = (selector) => document.querySelector(selector).getBoundingClientRect();
        const [line, title, views] = [box('.head'), box('.notebook'), box('.views')];
        return {
          share: title.width / line.width, under: views.top >= title.bottom - 1, beside: views.left >= title.right - 1,
        };
      });
      // Either the views stand under the title, which then has the whole line, or they leave it most of one.
      assert.ok(head.under ? head.share > 0.99 : head.beside && head.share > 0.45, `${which}: ${JSON.stringify(head)}`);
    }
    assert.deepEqual(faults, NONE);
    await close();
  });
}
