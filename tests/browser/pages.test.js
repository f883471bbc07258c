// Every page of the demo notebook, opened from its folder and over the web, at a phone's width and a desk's.

import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { DESK, PHONE, address, start, visit } from './support/browser.js';
import { accessible, fits, valid } from './support/checks.js';
import { pressed } from './support/notebook.js';
import { serve } from './support/server.js';

let notebook, server, browser, pages;

before(async () => {
  notebook = await pressed();
  pages = await notebook.pages();
  // Below a folder of its host, where addresses from the root would miss.
  server = await serve(notebook.site, '/notes/');
  browser = await start();
});

after(async () => {
  await browser?.close();
  await server?.close();
  await notebook?.remove();
});

const NONE = [];

for (const [name, viewport] of [['phone', PHONE], ['desk', DESK]]) {
  for (const way of ['file', 'web']) {
    test(`every page opens without a fault and fits: ${name}, ${way}`, async () => {
      assert.ok(pages.length > 15);
      const { page, faults, close } = await visit(browser, { viewport });
      for (const path of pages) {
        await page.goto(way === 'file' ? address(notebook.site, path) : server.origin + path);
        assert.deepEqual(await fits(page), NONE, path);
        assert.deepEqual(faults, NONE, path);
      }
      await close();
    });
  }

  test(`every page passes the accessibility audit: ${name}`, async () => {
    const { page, close } = await visit(browser, { viewport });
    const found = [];
    for (const path of pages) {
      await page.goto(address(notebook.site, path));
      found.push(...(await accessible(page)).map((line) => `${path}: ${line}`));
    }
    assert.deepEqual(found, NONE);
    await close();
  });
}

test('every page is valid HTML', async () => {
  const found = [];
  for (const path of pages) found.push(...await valid(await readFile(join(notebook.site, path), 'utf8'), path));
  assert.deepEqual(found, NONE);
});
