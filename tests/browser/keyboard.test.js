// Pages for those who do not point: by keyboard alone, by headings and landmarks, on paper.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { DESK, PHONE, address, start, visit } from './support/browser.js';
import { pressed } from './support/notebook.js';
import { light } from './support/picture.js';

const NONE = [];
let notebook, browser, pages, reader;

before(async () => {
  notebook = await pressed();
  pages = await notebook.pages();
  browser = await start();
  reader = await (await browser.newContext()).newPage();
});

after(async () => {
  await browser?.close();
  await notebook?.remove();
});

const focused = (page) => page.evaluate(() => {
  const element = document.activeElement;
  if (!element || element === document.body) return null;
  const box = element.getBoundingClientRect();
  const style = getComputedStyle(element);
  return {
    what: element.outerHTML.slice(0, 120),
    order: [...document.querySelectorAll('*')].indexOf(element),
    seen: box.width > 0 && box.height > 0 && box.bottom > 0 && box.right > 0 && box.top < innerHeight && box.left < innerWidth,
    ring: style.outlineStyle !== 'none' && parseFloat(style.outlineWidth) >= 2,
  };
});

for (const [name, viewport] of [['phone', PHONE], ['desk', DESK]]) {
  test(`every stop of the tab key is seen, marked and in order: ${name}`, async () => {
    const { page, close } = await visit(browser, { viewport });
    for (const path of pages) {
      // Asked nothing, the search puts the reader into its field, past the head.
      await page.goto(address(notebook.site, path) + (path === 'search.html' ? '?q=soda' : ''));
      const wanted = await page.evaluate(() => (
        [...document.querySelectorAll('a[href], button, input, select, textarea, summary')]
          .filter((element) => element.checkVisibility() && element.getClientRects().length > 0 && !element.disabled && !element.hidden)
          .filter((element) => element.type !== 'radio').length
      ));
      let last = -1;
      let stops = 0;
      // Long lists are walked at their beginning: one row is like another.
      while (stops < 60) {
        await page.keyboard.press('Tab');
        const at = await focused(page);
        // From the end the key leads round to the beginning.
        if (!at || (stops > 0 && at.what.includes('class="skip"'))) break;
        stops += 1;
        assert.ok(at.order > last, `${path}: back at ${at.what}`);
        assert.ok(at.seen, `${path}: out of sight: ${at.what}`);
        assert.ok(at.ring, `${path}: unmarked: ${at.what}`);
        last = at.order;
      }
      assert.ok(stops >= Math.min(wanted, 60), `${path}: ${stops} of ${wanted}`);
    }
    await close();
  });
}

test('the first stop skips to the text, and reading goes on from there', async () => {
  const { page, close } = await visit(browser);
  await page.goto(address(notebook.site, 'line.html'));
  await page.keyboard.press('Tab');
  assert.equal(await page.locator(':focus').textContent(), 'Skip to the text');
  assert.ok(await page.locator('.skip').evaluate((link) => link.getBoundingClientRect().left >= 0));
  await page.keyboard.press('Enter');
  assert.ok(await page.locator('main:focus').isVisible());
  await page.keyboard.press('Tab');
  assert.equal(await page.locator('main :focus').count(), 1);
  await close();
});

test('every page has its landmarks, its language, and headings that skip no level', async () => {
  const { page, close } = await visit(browser);
  for (const path of pages) {
    await page.goto(address(notebook.site, path));
    const found = await page.evaluate(() => ({
      language: document.documentElement.lang,
      landmarks: ['main', 'body > header', 'body > footer'].map((landmark) => document.querySelectorAll(landmark).length),
      unnamed: [...document.querySelectorAll('nav, section, [role=group], [role=region]')]
        .filter((element) => element.checkVisibility())
        .filter((element) => element.matches('nav, [role]') || element.hasAttribute('aria-labelledby'))
        .filter((element) => {
          const by = element.getAttribute('aria-labelledby');
          return by ? !document.getElementById(by)?.textContent.trim() : !element.getAttribute('aria-label');
        }).length,
      levels: [...document.querySelectorAll('h1, h2, h3, h4, h5, h6')].map((heading) => Number(heading.localName[1])),
      bare: [...document.querySelectorAll('table')].filter((table) => !table.querySelector('th')).length,
      wordless: document.querySelectorAll('img:not([alt])').length,
      title: document.title.length > 0,
    }));
    assert.equal(found.language, 'en', path);
    assert.deepEqual(found.landmarks, [1, 1, 1], path);
    assert.deepEqual([found.unnamed, found.bare, found.wordless, found.title], [0, 0, 0, true], path);
    assert.equal(found.levels[0], 1, path);
    found.levels.forEach((level, at) => assert.ok(at === 0 || (level > 1 && level <= found.levels[at - 1] + 1), `${path}: ${found.levels}`));
  }
  await close();
});

test('nothing moves for those who asked for stillness', async () => {
  const { page, close } = await visit(browser, { reducedMotion: 'reduce' });
  for (const path of pages) {
    await page.goto(address(notebook.site, path));
    assert.equal(await page.evaluate(() => document.getAnimations().length), 0, path);
  }
  await close();
});

test('on paper a page is its text with its slips, without what is for a screen', async () => {
  const { page, close } = await visit(browser, { viewport: { width: 700, height: 1000 }, colorScheme: 'dark' });
  await page.goto(address(notebook.site, 'index.html'));
  await page.emulateMedia({ media: 'print' });
  assert.equal(await page.locator('.head nav').isVisible(), false);
  assert.equal(await page.locator('.views').isVisible(), false);
  assert.equal(await page.locator('.turns').first().isVisible(), false);
  assert.ok(await page.locator('.slip').first().isVisible());
  const shown = await light(reader, await page.screenshot());
  assert.deepEqual([shown.red, shown.green, shown.blue], [255, 255, 255]);
  const paper = await page.pdf({ preferCSSPageSize: true });
  assert.equal(paper.subarray(0, 5).toString(), '%PDF-');
  await close();
});

test('with scripts switched off every page reads', async () => {
  const { page, faults, close } = await visit(browser, { javaScriptEnabled: false });
  for (const path of pages) {
    await page.goto(address(notebook.site, path));
    assert.ok((await page.locator('main').innerText()).length > 20, path);
    assert.deepEqual(faults, NONE, path);
  }
  await close();
});
