// The search, from a folder and over the web: by keyboard, with what it shows and where that leads.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { DESK, PHONE, address, followLink, start, visit } from './support/browser.js';
import { accessible, fits } from './support/checks.js';
import { pressed } from './support/notebook.js';
import { serve } from './support/server.js';

const NONE = [];

const HOSTILE = `---
title: "</script><img src=x onerror=alert(1)>"
tags: ["<b>owl</b>"]
---

# Owl & <i>quarry</i>

Thé à la menthe, f/216 and "__proto__" stand by the weir.

\`\`\`camera
id: owl-box
title: "Owl <script>alert(1)</script> box"
pinhole: 0.4 mm
distance: 100 mm
\`\`\`
`;

// Many pages whose titles begin with c, and one that has a sign behind it.
const SIGNS = Object.fromEntries([
  ...Array.from({ length: 25 }, (_, at) => [`signs/${at}.md`, `# Cold and clear ${at}\n\nA c in the choir.\n`]),
  ['signs/zinc.md', '---\ntitle: Zinc\ntags: [c++]\n---\n\n# Zinc\n\nText.\n'],
]);

let notebook, server, browser;

before(async () => {
  notebook = await pressed({ also: { 'deep/hostile.md': HOSTILE, ...SIGNS } });
  server = await serve(notebook.site, '/notes/');
  browser = await start();
});

after(async () => {
  await browser?.close();
  await server?.close();
  await notebook?.remove();
});

const ways = {
  file: (path) => address(notebook.site, path),
  web: (path) => server.origin + path,
};

/** Until the list is the answer to what stands in the field. */
const answered = (page) => page.locator('#at\\.hits[aria-busy=false]').waitFor({ state: 'attached' });

/** What the list holds, when it answers `question`. */
async function ask(page, question) {
  await page.getByRole('searchbox').fill(question);
  await answered(page);
  return page.locator('#at\\.hits a.title').allTextContents();
}

for (const [way, to] of Object.entries(ways)) {
  test(`a page's search field leads to what it asks for: ${way}`, async () => {
    const { page, faults, close } = await visit(browser);
    await page.goto(to('baths/fixer.html'));
    await page.getByRole('search').getByLabel('Search').fill('washing soda');
    await page.keyboard.press('Enter');
    await page.waitForURL(/search\.html\?q=/);
    await page.locator('#at\\.hits li').first().waitFor();
    assert.equal(await page.getByRole('searchbox').inputValue(), 'washing soda');
    assert.ok((await page.locator('#at\\.hits mark').count()) > 0);
    await answered(page);
    const link = page.locator('#at\\.hits a.title').first();
    const href = await link.getAttribute('href');
    assert.equal(await followLink(page, link), new URL(href, to('search.html')).href);
    await page.goBack();
    await page.locator('#at\\.hits li').first().waitFor();
    assert.deepEqual(faults, NONE);
    await close();
  });

  test(`words in any case and accent, and how they begin: ${way}`, async () => {
    const { page, faults, close } = await visit(browser);
    await page.goto(to('search.html'));
    for (const question of ['the a la MENTHE', 'thé weir', 'f/216 owl', 'owl-bo', '__proto__']) {
      const titles = await ask(page, question);
      assert.ok(titles.some((title) => title.includes('Owl') || title.includes('</script>')), `${question}: ${titles}`);
    }
    assert.deepEqual(await ask(page, 'qqqqzzzz'), NONE);
    assert.match(await page.getByRole('status').textContent(), /Nothing found/);
    assert.deepEqual(faults, NONE);
    await close();
  });
}

test('signs put first what has them, and alone find nothing', async () => {
  const { page, faults, close } = await visit(browser);
  await page.goto(ways.file('search.html'));
  for (const question of ['c++', 'C++', ' c++ ']) assert.equal((await ask(page, question))[0], 'Zinc', question);
  for (const question of ['%', '++', '…']) {
    assert.deepEqual(await ask(page, question), NONE);
    assert.match(await page.getByRole('status').textContent(), /Nothing found/, question);
  }
  assert.deepEqual(await ask(page, ' '), NONE);
  assert.equal(await page.getByRole('status').textContent(), '');
  assert.deepEqual(faults, NONE);
  await close();
});

test('a slip of the pen is read as what is near, and said', async () => {
  const { page, faults, close } = await visit(browser, { viewport: PHONE });
  await page.goto(ways.file('search.html'));
  for (const [typed, meant] of [['bramlbe', 'bramble'], ['vinagar stop', 'vinegar stop'], ['washnig soad', 'washing soda'], ['clearng', 'clearing'], ['rbamble', 'bramble'], ['binegar', 'vinegar'], ['ramble', 'bramble']]) {
    assert.ok((await ask(page, typed)).length > 0, typed);
    assert.match(await page.getByRole('status').textContent(), new RegExp(`^Nothing found for ${typed}; shown is ${meant}: `));
  }
  // What stands somewhere is taken at its word, and short words are not guessed.
  for (const question of ['bramble', 'tea', 'qx']) {
    await ask(page, question);
    assert.doesNotMatch(await page.getByRole('status').textContent(), /shown is/, question);
  }
  assert.deepEqual(faults, NONE);
  await close();
});

test('by keyboard alone', async () => {
  const { page, faults, close } = await visit(browser);
  await page.goto(ways.file('search.html'));
  await page.keyboard.type('hypo');
  await answered(page);
  await page.locator('#at\\.hits li').nth(2).waitFor();
  const focused = () => page.evaluate(() => document.activeElement.textContent);
  const titles = await page.locator('#at\\.hits a.title').allTextContents();
  await page.keyboard.press('ArrowDown');
  assert.equal(await focused(), titles[0]);
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('ArrowUp');
  assert.equal(await focused(), titles[1]);
  await page.keyboard.press('Escape');
  assert.equal(await page.evaluate(() => document.activeElement.id), 'at.question');
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Enter');
  await page.waitForURL((url) => !url.pathname.endsWith('search.html'));
  assert.doesNotMatch(page.url(), /search\.html/);
  assert.deepEqual(faults, NONE);
  await close();
});

for (const [name, viewport] of [['phone', PHONE], ['desk', DESK]]) {
  test(`what was found fits and passes the accessibility audit: ${name}`, async () => {
    const { page, close } = await visit(browser, { viewport });
    await page.goto(`${ways.file('search.html')}?q=so`);
    await page.locator('#at\\.hits li').nth(5).waitFor();
    assert.deepEqual(await fits(page), NONE);
    assert.deepEqual(await accessible(page), NONE);
    await close();
  });
}

test('without scripts the page says so and leads on', async () => {
  const { page, close } = await visit(browser, { javaScriptEnabled: false });
  await page.goto(ways.file('search.html'));
  assert.ok(await page.getByText('Searching needs the script').isVisible());
  assert.equal(await page.locator('#at\\.question').isVisible(), false);
  await close();
});
