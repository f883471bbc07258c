// Light, dark and red: chosen, remembered, and in red not one pixel lit in green or blue.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { DESK, PHONE, address, start, visit } from './support/browser.js';
import { accessible, fits } from './support/checks.js';
import { pressed } from './support/notebook.js';
import { light, png } from './support/picture.js';
import { serve } from './support/server.js';

const NONE = [];

// Every hue there is, and a page that shows all that a browser draws by itself.
const RAINBOW = png(256, 96, (x, y) => [x, 255 - x, y < 48 ? 255 : x]);
const GALLERY = `# A page of colours

A [link with a title](index.md "words that a browser shows by itself"), <mark>a mark</mark>, \`code\`, <kbd>key</kbd>.

![every hue](rainbow.png)

<details><summary>more</summary>There is more.</details>

- [ ] to do
- [x] done

| a | b |
| --- | --- |
| 1 | 2 |

${'A long line to scroll by. '.repeat(300)}
`;

let notebook, server, browser, reader;

before(async () => {
  notebook = await pressed({ also: { 'gallery.md': GALLERY, 'rainbow.png': RAINBOW } });
  server = await serve(notebook.site, '/notes/');
  browser = await start({ scrollbars: true });
  reader = await (await browser.newContext()).newPage();
});

after(async () => {
  await browser?.close();
  await server?.close();
  await notebook?.remove();
});

const button = (page, view) => page.locator(`.views button[value=${view}]`);
const ground = (page) => page.evaluate(() => getComputedStyle(document.documentElement).backgroundColor);

for (const way of ['file', 'web']) {
  const at = (path) => (way === 'file' ? address(notebook.site, path) : server.origin + path);

  test(`a view is chosen by keyboard and remembered on every page: ${way}`, async () => {
    const { context, page, faults, close } = await visit(browser, { colorScheme: 'light' });
    await page.goto(at('index.html'));
    assert.equal(await ground(page), 'rgb(255, 255, 255)');
    assert.equal(await button(page, 'light').getAttribute('aria-pressed'), 'true');
    for (const [view, colour] of [['red', 'rgb(0, 0, 0)'], ['dark', 'rgb(21, 21, 21)'], ['light', 'rgb(255, 255, 255)'], ['red', 'rgb(0, 0, 0)']]) {
      await button(page, view).focus();
      await page.keyboard.press('Space');
      assert.equal(await ground(page), colour);
      assert.equal(await button(page, view).getAttribute('aria-pressed'), 'true');
      assert.equal(await page.locator('.views [aria-pressed=true]').count(), 1);
    }
    await page.goto(at('log/2031-04-12.html'));
    assert.equal(await ground(page), 'rgb(0, 0, 0)');
    assert.ok(await page.getByText('Any screen can still fog paper').isVisible());
    // Another window follows at once.
    const other = await context.newPage();
    await other.goto(at('class.html'));
    await button(other, 'dark').click();
    await page.waitForFunction(() => document.documentElement.dataset.view === 'dark');
    assert.deepEqual(faults, NONE);
    await close();
  });

  test(`no frame of a page that opens in red shows anything else: ${way}`, async () => {
    const { context, page, close } = await visit(browser, { colorScheme: 'light' });
    await page.goto(at('index.html'));
    await button(page, 'red').click();
    // Every page that is drawn from here on opens in red.
    await page.goto(at('pages.html'));
    const session = await context.newCDPSession(page);
    const frames = [];
    session.on('Page.screencastFrame', ({ data, sessionId }) => {
      frames.push(Buffer.from(data, 'base64'));
      session.send('Page.screencastFrameAck', { sessionId }).catch(() => {});
    });
    await session.send('Page.startScreencast', { format: 'png', everyNthFrame: 1 });
    for (const path of ['gallery.html', 'line.html', 'baths/bramble.html', 'facts.html']) {
      const drawn = frames.length;
      await page.goto(at(path));
      await page.waitForTimeout(150);
      for (let asked = 0; frames.length === drawn && asked < 200; asked += 1) await page.waitForTimeout(50);
      assert.ok(frames.length > drawn, `nothing was drawn of ${path}`);
    }
    await session.send('Page.stopScreencast');
    for (const frame of frames) assert.equal((await light(reader, frame)).stray, null);
    await close();
  });
}

test('a system that is dark is followed until a view is chosen', async () => {
  const { page, close } = await visit(browser, { colorScheme: 'dark' });
  await page.goto(address(notebook.site, 'index.html'));
  assert.equal(await ground(page), 'rgb(21, 21, 21)');
  assert.equal(await button(page, 'dark').getAttribute('aria-pressed'), 'true');
  await page.emulateMedia({ colorScheme: 'light' });
  assert.equal(await ground(page), 'rgb(255, 255, 255)');
  await button(page, 'dark').click();
  assert.equal(await ground(page), 'rgb(21, 21, 21)');
  await close();
});

test('without scripts there is no switch, and the system is followed', async () => {
  const { page, faults, close } = await visit(browser, { javaScriptEnabled: false, colorScheme: 'dark' });
  await page.goto(address(notebook.site, 'index.html'));
  assert.equal(await page.locator('.views').isVisible(), false);
  assert.equal((await light(reader, await page.screenshot())).red < 240, true);
  assert.deepEqual(faults, NONE);
  await close();
});

async function redPage(options, path) {
  const visited = await visit(browser, options);
  await visited.context.addInitScript(() => { try { localStorage.setItem('trayside view', 'red'); } catch { /* not a page */ } });
  await visited.page.goto(address(notebook.site, path));
  return visited;
}

for (const [name, viewport] of [['phone', PHONE], ['desk', DESK]]) {
  for (const [colours, options] of [['light', { colorScheme: 'light' }], ['forced colours', { forcedColors: 'active' }]]) {
    test(`in red, no pixel is lit in green or blue: ${name}, ${colours} system`, async () => {
      const { page, close } = await redPage({ viewport, ...options }, 'gallery.html');
      // Whatever a page of ours could ever hold.
      await page.evaluate(() => {
        const prose = document.querySelector('.prose');
        for (const type of ['text', 'number', 'range', 'checkbox', 'radio', 'date', 'color', 'file', 'search', 'button']) {
          const input = document.createElement('input');
          input.type = type;
          if (type === 'checkbox' || type === 'radio') input.checked = true;
          prose.prepend(input);
        }
        for (const element of ['select', 'textarea', 'progress', 'meter', 'canvas', 'button']) prose.prepend(document.createElement(element));
        const drawn = document.querySelector('canvas').getContext('2d');
        drawn.fillStyle = '#0ff';
        drawn.fillRect(0, 0, 300, 100);
        const box = document.createElement('div');
        box.className = 'wide';
        box.textContent = 'x'.repeat(999);
        box.style.cssText = 'overflow:scroll;width:9rem;height:5rem;background:#fff;color:#00f;white-space:nowrap';
        prose.prepend(box);
      });
      const states = {
        'as it opens': async () => {},
        'selected': () => page.evaluate(() => getSelection().selectAllChildren(document.body)),
        'link in focus': () => page.locator('.prose a').first().focus(),
        'text in focus': () => page.locator('input[type=text]').focus(),
        'box in focus': () => page.locator('input[type=checkbox]').focus(),
        'hovered': () => page.locator('.prose a').first().hover(),
        'scrolled': () => page.locator('img').first().scrollIntoViewIfNeeded(),
        'a dialog over it': () => page.evaluate(() => {
          const dialog = document.createElement('dialog');
          dialog.innerHTML = '<p>words</p><button>close</button>';
          dialog.style.background = '#8ff';
          document.body.append(dialog);
          dialog.showModal();
        }),
      };
      for (const [state, reach] of Object.entries(states)) {
        await reach();
        const found = await light(reader, await page.screenshot());
        assert.equal(found.stray, null, state);
        assert.ok(found.red > 200, state);
      }
      await close();
    });
  }

  test(`in red, a picture keeps its tones: ${name}`, async () => {
    const { page, close } = await redPage({ viewport }, 'gallery.html');
    const found = await light(reader, await page.locator('img').first().screenshot());
    assert.equal(found.stray, null);
    assert.ok(found.shades > 60, `${found.shades} shades`);
    await close();
  });

  test(`every page in red is pure red, fits, and passes the audit: ${name}`, async () => {
    const { page, faults, close } = await redPage({ viewport }, 'index.html');
    for (const path of await notebook.pages()) {
      await page.goto(address(notebook.site, path));
      // A window as tall as the page, or as a picture on a graphics card can be.
      const height = await page.evaluate(() => Math.min(document.documentElement.scrollHeight, 16000));
      await page.setViewportSize({ width: viewport.width, height });
      assert.equal((await light(reader, await page.screenshot())).stray, null, path);
      assert.deepEqual(await fits(page), NONE, path);
    }
    await page.setViewportSize(viewport);
    for (const path of ['baths/bramble.html', 'cameras.html', 'findings.html', 'line.html', 'pages.html']) {
      await page.goto(address(notebook.site, path));
      assert.deepEqual(await accessible(page), NONE, path);
      await button(page, 'dark').click();
      assert.deepEqual(await accessible(page), NONE, path);
    }
    assert.deepEqual(faults, NONE);
    await close();
  });
}

test('the browser shows no words of its own over a red page', async () => {
  const { page, close } = await redPage({}, 'gallery.html');
  assert.equal(await page.locator('body [title]').count(), 0);
  await button(page, 'light').click();
  assert.equal(await page.locator('body [title]').count(), 1);
  await close();
});

test('what is printed is black on white in any view', async () => {
  const { page, close } = await redPage({}, 'gallery.html');
  await page.emulateMedia({ media: 'print' });
  assert.equal(await ground(page), 'rgb(255, 255, 255)');
  assert.equal(await page.locator('.redcaution').isVisible(), false);
  const found = await light(reader, await page.screenshot());
  assert.deepEqual([found.red, found.green, found.blue], [255, 255, 255]);
  await close();
});
