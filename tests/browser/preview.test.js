// The preview of `trayside tend`: the same pages with a line at their foot.

import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { DESK, PHONE, start, visit } from './support/browser.js';
import { accessible, fits } from './support/checks.js';
import { lay, pressed, tend } from './support/notebook.js';
import { light } from './support/picture.js';

const NONE = [];
const BROKEN = '# The line\n\n```recipe\ntitle: Stop\nrole: no such role\nmakes: 1 l\n```\n';

let notebook, preview, browser, reader;

before(async () => {
  notebook = await pressed();
  preview = await tend(notebook.folder);
  browser = await start();
  reader = await (await browser.newContext()).newPage();
});

after(async () => {
  await browser?.close();
  await preview?.stop();
  await notebook?.remove();
});

for (const [name, viewport] of [['phone', PHONE], ['desk', DESK]]) {
  test(`pages of the preview are without fault in every view: ${name}`, async () => {
    const { page, faults, close } = await visit(browser, { viewport });
    for (const view of ['light', 'dark', 'red']) {
      for (const path of ['index.html', 'baths/bramble.html']) {
        await page.goto(preview.origin + path);
        await page.locator(`.views button[value=${view}]`).click();
        assert.deepEqual(await fits(page), NONE, path);
        assert.deepEqual(await accessible(page), NONE, path);
        if (view === 'red') assert.equal((await light(reader, await page.screenshot())).stray, null, path);
      }
    }
    assert.deepEqual(faults, NONE);
    await close();
  });
}

test('what is being read stays where it is when something above it grows', async () => {
  const { page, faults, close } = await visit(browser, { viewport: PHONE });
  await page.goto(`${preview.origin}papers.html`);
  const heading = page.locator('main h2').last();
  await heading.evaluate((element) => scrollTo(0, element.getBoundingClientRect().top + scrollY - 1));
  const before = await heading.evaluate((element) => element.getBoundingClientRect().top);
  const text = await readFile(join(notebook.folder, 'papers.md'), 'utf8');
  const more = 'One more sentence, said again and again so that it fills a line. '.repeat(20);
  await lay(notebook.folder, { 'papers.md': text.replace(/\n# .*\n/, (title) => `${title}\n${more}\n`) });
  await page.getByText('One more sentence').waitFor({ state: 'attached' });
  await page.waitForTimeout(300);
  const after = await heading.evaluate((element) => element.getBoundingClientRect().top);
  assert.ok(Math.abs(after - before) < 3, `${before} became ${after}`);
  assert.deepEqual(faults, NONE);
  await close();
});

test('a page that a save broke stays as it was, under a stripe that can be read', async () => {
  const { page, faults, close } = await visit(browser);
  await page.goto(`${preview.origin}class.html`);
  const before = await page.locator('main').textContent();
  await lay(notebook.folder, { 'class.md': BROKEN });
  await page.locator('.tend-stale').waitFor();
  assert.match(await page.locator('.tend-stale').textContent(), /Stale: .*class\.md:\d+/);
  assert.equal(await page.locator('main').textContent(), before);
  assert.deepEqual(await accessible(page), NONE);
  await page.locator('.views button[value=red]').click();
  assert.equal((await light(reader, await page.screenshot())).stray, null);
  await page.locator('.tend-stale a').click();
  await page.getByRole('heading', { name: 'Stop' }).waitFor();
  assert.deepEqual(faults, NONE);
  await close();
});
