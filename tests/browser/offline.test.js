// The site as an app: read without a network once it was opened, never older than the network says, and never in the way
// of the preview.

import assert from 'node:assert/strict';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { DESK, start, visit } from './support/browser.js';
import { lay, pressed, run, tend } from './support/notebook.js';
import { serve } from './support/server.js';

const NONE = [];
const SMALL = {
  'trayside.yaml': 'title: A small notebook\n',
  'index.md': '# Home\n\n[One](one.md), [two](a/two words.md).\n',
  'one.md': '# One\n\nThe first words.\n',
  'a/two words.md': '# Two\n\nStays as it is: 100 %.\n',
};

let browser;
before(async () => { browser = await start(); });
after(() => browser?.close());

// Asks the page again and again. Playwright's own waiting takes a promise for a yes.
async function until(page, holds, argument) {
  const end = Date.now() + 20000;
  while (!await page.evaluate(holds, argument).catch(() => false)) {
    if (Date.now() > end) throw new Error(`never: ${holds}`);
    await new Promise((resolve) => { setTimeout(resolve, 50); });
  }
}

// Until the worker has kept what it keeps at first, and answers for the page.
async function kept(page) {
  await until(page, () => navigator.serviceWorker.controller !== null);
  await page.locator('.kept').filter({ hasText: 'Kept on this device' }).waitFor();
}

test('every page of the demo reads without a network after one was opened', async () => {
  const notebook = await pressed();
  const server = await serve(notebook.site, '/notes/');
  const { page, faults, close } = await visit(browser, { viewport: DESK });
  await page.goto(server.origin);
  await kept(page);
  const pages = await notebook.pages();
  assert.match(await page.locator('.kept').textContent(), new RegExp(`all ${pages.length} pages`));
  assert.deepEqual(faults, NONE);
  await server.close();
  for (const path of pages) {
    await page.goto(server.origin + path);
    assert.ok(await page.locator('h1').isVisible(), path);
    const whole = await page.evaluate(() => document.fonts.ready.then(() => (
      [...document.fonts].every((font) => font.status !== 'error')
      && document.styleSheets[0].cssRules.length > 50
    )));
    assert.ok(whole, path);
    // A picture that waits until it is scrolled to is asked for now.
    const shown = await page.evaluate(() => Promise.all([...document.images].map((image) => {
      image.loading = 'eager';
      return image.decode().then(() => image.naturalWidth > 0, () => false);
    })));
    assert.ok(shown.every(Boolean), path);
  }
  await page.goto(`${server.origin}?q=anything#at.text`);
  assert.ok(await page.locator('h1').isVisible());
  await page.goto(`${server.origin}no-such-page.html`);
  assert.equal(await page.locator('h1').textContent(), 'Not kept on this device');
  await close();
  await notebook.remove();
});

test('what the network says comes first; what is gone from the site goes from the device', async () => {
  const notebook = await pressed({ pages: SMALL });
  let server = await serve(notebook.site);
  const { page, close } = await visit(browser);
  await page.goto(server.origin);
  await kept(page);
  await page.goto(`${server.origin}one.html`);
  await lay(notebook.folder, {
    'one.md': '# One\n\nOther words.\n',
    'index.md': '# Home\n',
    'a/two words.md': '---\naudience: private\n---\n# Two\n\nStays as it is: 100 %.\n',
  });
  await run(['press', notebook.folder]);
  await page.reload();
  assert.match(await page.locator('.prose').textContent(), /Other words/);
  // The new worker takes over in the background.
  const version = JSON.parse(await readFile(join(notebook.site, 'kept.json'), 'utf8')).version;
  await until(page, async (now) => {
    const names = await caches.keys();
    return names.length === 1 && names[0].endsWith(now);
  }, version);
  const { port } = server;
  await server.close();
  await page.goto(`${server.origin}a/two%20words.html`);
  assert.equal(await page.locator('h1').textContent(), 'Not kept on this device');
  await page.goto(`${server.origin}one.html`);
  assert.match(await page.locator('.prose').textContent(), /Other words/);
  server = await serve(notebook.site, '/', port);
  await page.goto(`${server.origin}index.html`);
  assert.equal(await page.locator('h1').textContent(), 'Home');
  await server.close();
  await close();
  await notebook.remove();
});

test('a network that says nothing is not waited for long, nor twice', async () => {
  const notebook = await pressed({ pages: SMALL });
  // More patience than the site has: how long a busy machine takes for a page must not count.
  const worker = join(notebook.site, 'worker.js');
  const written = await readFile(worker, 'utf8');
  const patience = 3 * Number(written.match(/PATIENCE = (\d+)/)[1]);
  await writeFile(worker, written.replace(/PATIENCE = \d+/, `PATIENCE = ${patience}`));
  const server = await serve(notebook.site);
  const { page, close } = await visit(browser);
  await page.goto(server.origin);
  await kept(page);
  server.fallSilent();
  let began = Date.now();
  await page.goto(`${server.origin}one.html`);
  const [first, twice] = [Date.now() - began, 2 * patience];
  assert.ok(first >= patience && first < twice, `${first} ms`);
  began = Date.now();
  await page.goto(`${server.origin}a/two%20words.html`);
  assert.ok(Date.now() - began < patience, `${Date.now() - began} ms`);
  assert.match(await page.locator('.prose').textContent(), /100 %/);
  await server.close();
  await close();
  await notebook.remove();
});

test('the same notebook has the same version, another has another', async () => {
  const worker = async (pages) => {
    const notebook = await pressed({ pages });
    const text = await readFile(join(notebook.site, 'worker.js'), 'utf8');
    await notebook.remove();
    return text;
  };
  const first = await worker(SMALL);
  assert.equal(await worker(SMALL), first);
  assert.notEqual(await worker({ ...SMALL, 'one.md': '# One\n\nOther words.\n' }), first);
});

test('a browser takes the site for an app', async () => {
  const notebook = await pressed({ pages: SMALL });
  const server = await serve(notebook.site, '/notes/');
  const { context, page, faults, close } = await visit(browser);
  await page.goto(`${server.origin}one.html`);
  await kept(page);
  const session = await context.newCDPSession(page);
  const { errors, data, url } = await session.send('Page.getAppManifest');
  assert.deepEqual(errors, NONE);
  assert.equal(url, `${server.origin}site.webmanifest`);
  assert.equal(JSON.parse(data).name, 'A small notebook');
  const { installabilityErrors } = await session.send('Page.getInstallabilityErrors');
  // The tests browse in a private window.
  assert.deepEqual(installabilityErrors.map(({ errorId }) => errorId).filter((id) => id !== 'in-incognito'), NONE);
  assert.deepEqual(faults, NONE);
  await server.close();
  await close();
  await notebook.remove();
});

test('the preview is never a copy, even where the site was once served at its address', async () => {
  const notebook = await pressed({ pages: SMALL });
  const server = await serve(notebook.site);
  const { page, faults, close } = await visit(browser);
  await page.goto(server.origin);
  await kept(page);
  await server.close();
  const tending = await tend(notebook.folder, server.port);
  try {
    await page.goto(`${server.origin}one.html`);
    await until(page, async () => (
      navigator.serviceWorker.controller === null
      && (await navigator.serviceWorker.getRegistrations()).length === 0
      && (await caches.keys()).length === 0
    ));
    assert.ok(await page.locator('[id=".tend"]').isVisible());
    assert.equal(await page.locator('.kept').isVisible(), false);
    await lay(notebook.folder, { 'one.md': '# One\n\nWritten just now.\n' });
    await page.getByText('Written just now.').waitFor();
    await page.goto(`${server.origin}index.html`);
    await page.waitForTimeout(500);
    assert.equal(await page.evaluate(async () => (await navigator.serviceWorker.getRegistrations()).length), 0);
    assert.deepEqual(faults, NONE);
  } finally {
    await tending.stop();
  }
  await close();
  await notebook.remove();
});
