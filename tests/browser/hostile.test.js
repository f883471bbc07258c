// Notes that were written to do harm, or by a strange hand: on the page they are words, and nothing else.

import assert from 'node:assert/strict';
import { randomBytes } from 'node:crypto';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { DESK, address, followLink, start, visit } from './support/browser.js';
import { valid } from './support/checks.js';
import { pressed } from './support/notebook.js';
import { png } from './support/picture.js';
import { serve } from './support/server.js';

const NONE = [];
const EVIL = '</script></title></style><script>alert(1)</script><img src=x onerror=alert(2)>"\'`{{ 7 * 7 }}{% raw %}';
// As a YAML string in single quotes.
const YAML = `'${EVIL.replaceAll("'", "''")}'`;
const SVG = '<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9" onload="alert(3)"><script>alert(4)</script>'
  + '<image href="http://example.org/x.png"/></svg>';

// A block of each kind with the words in every field that takes words.
const BLOCKS = `
\`\`\`recipe
id: bath
title: ${YAML}
role: developer
makes: 1 l
add:
  ${YAML}: 3 g
  washing soda, anhydrous: 30 g
steps:
  - ${YAML}
note: ${YAML}
use:
  agitation: ${YAML}
source: ${YAML}
\`\`\`

\`\`\`ingredient
title: ${YAML}
formula: Na2CO3
pack: 500 g
source: ${YAML}
note: ${YAML}
\`\`\`

\`\`\`camera
id: tin
title: ${YAML}
pinhole: 0.35 mm
distance: 125 mm
format: 5×7 in
note: ${YAML}
\`\`\`

\`\`\`paper
id: sheet
title: ${YAML}
speed: ISO 6
note: ${YAML}
\`\`\`

\`\`\`process
id: line
title: ${YAML}
steps:
  - develop: bath
    time: 2 min
  - ${YAML}
note: ${YAML}
\`\`\`

\`\`\`safelight
title: ${YAML}
lamp: ${YAML}
colour: ${YAML}
note: ${YAML}
\`\`\`

\`\`\`exposure
id: one
when: 2031-05-02 11:20
camera: tin
paper: sheet
light: EV 12.5
result: ${YAML}
scan: picture.svg
note: ${YAML}
\`\`\`

\`\`\`batch
of: bath
mixed: 2031-05-02
note: ${YAML}
\`\`\`

\`\`\`session
when: 2031-05-02
process: line
note: ${YAML}
\`\`\`
`;

const PROSE = `# ${EVIL}

${EVIL}

[a link](javascript:alert(5)) <a href="javascript:alert(6)" onclick="alert(7)">another</a>
<a href="data:text/html,<script>alert(8)</script>">a third</a> [a fourth](vbscript:x "title${EVIL.replaceAll('"', '')}")

![picture](picture.svg) ![far](http://example.org/spy.png) ![${EVIL.replaceAll(/[[\]]/g, '')}](picture.png "${EVIL.replaceAll('"', '')}")
![up](../../../../etc/passwd) ![up](..\\..\\x.png)

<svg onload=alert(9)><script>alert(10)</script></svg><math><mtext></mtext><style><img src=x onerror=alert(11)></style></math>
<iframe srcdoc="<script>alert(12)</script>"></iframe><object data="picture.svg"></object><embed src="picture.svg">
<form action="http://example.org"><input name=a autofocus onfocus=alert(13)><button formaction="javascript:alert(14)">send</button></form>
<base href="http://example.org/"><meta http-equiv="refresh" content="0;url=http://example.org"><link rel=stylesheet href="http://example.org/x.css">
<style>@import "http://example.org/y.css"; body { background: url(http://example.org/z.png) }</style>
<details open ontoggle=alert(15)><summary>more</summary>x</details><div style="background:url(http://example.org/w.png)">styled</div>
<video src="http://example.org/v.mp4" autoplay onerror=alert(16)></video><p id="location">named</p><img name="body" src="x" onerror=alert(17)>
<!-- <script>alert(18)</script> --><!--><script>alert(19)</script-->

\`\`\`
${EVIL}
\`\`\`

| ${EVIL} | b |
| --- | --- |
| <script>alert(20)</script> | {{ bath.pH }} |

[^note]: ${EVIL}

A note[^note]. {{ ${EVIL} }} {{ bath.<script>alert(21)</script> }}
`;

const PAGES = {
  'trayside.yaml': `title: ${YAML}\nauthor: ${YAML}\n`,
  'index.md': `---\ntitle: ${YAML}\ndate: ${YAML}\ntags: [${YAML}, '<b onclick=alert(22)>']\n---\n${PROSE}`,
  'blocks.md': `# Blocks\n${BLOCKS}`,
  "od'd <b>&\"#?%41 name.md": '# Odd\n\n[home](index.md)\n',
  'emoji.md': '# 🌿\n\n```recipe\nid: 🌿\ntitle: 🌿\nrole: stop\nmakes: 1 l\nadd:\n  citric acid: 15 g\n```\n\n[🌿](#🌿) {{ 🌿.pH }}\n',
  'CON.md': '# A name that one system keeps for itself\n',
  'picture.svg': SVG,
  'picture.png': png(8, 8, () => [90, 90, 90]),
};

let browser;
before(async () => { browser = await start(); });
after(() => browser?.close());

// The words that stand where somebody wrote an address that is not kept, or a picture that cannot be: no fault of the page.
const missing = (fault) => /^failed: file:.*net::ERR_FILE_NOT_FOUND$|^answer: 404 /.test(fault)
  || /^console: Failed to load resource: (net::ERR_FILE_NOT_FOUND|the server responded with a status of 404)/.test(fault);

async function harmless(notebook) {
  const server = await serve(notebook.site, '/notes/');
  const pages = await notebook.pages();
  for (const way of ['file', 'web']) {
    // Once as it is, and once with the policy off: the page must be harmless by itself.
    for (const bypassCSP of [false, true]) {
      const { page, faults, close } = await visit(browser, { viewport: DESK, bypassCSP });
      for (const path of pages) {
        const at = way === 'file' ? address(notebook.site, path) : server.origin + path.split('/').map(encodeURIComponent).join('/');
        await page.goto(at);
        for (const summary of await page.locator('summary').all()) await summary.click();
        await page.waitForTimeout(20);
        assert.deepEqual(faults.filter((fault) => !missing(fault)), NONE, `${way} ${path}`);
        assert.equal(page.url(), at);
        const found = await page.evaluate(() => ({
          // Data is no script, but has to be data.
          scripts: [...document.scripts].filter((script) => {
            if (script.type !== 'application/json') return !script.src || script.textContent;
            return script.src || typeof JSON.parse(script.textContent) !== 'object';
          }).length,
          handlers: [...document.querySelectorAll('*')].flatMap((element) => (
            [...element.attributes].filter(({ name, value }) => name.startsWith('on') || name === 'style' || /^\s*(javascript|data|vbscript):/i.test(value))
          )).length,
          // Two forms are ours: those that sift the sheets and ask the search.
          foreign: document.querySelectorAll('main :is(iframe, object, embed, form:not(.sift, .question), base, meta, link, style, math, video)').length,
          headings: document.querySelectorAll('h1').length,
        }));
        assert.deepEqual(found, { scripts: 0, handlers: 0, foreign: 0, headings: 1 }, `${way} ${path}`);
      }
      await close();
    }
  }
  await server.close();
  for (const path of pages) assert.deepEqual(await valid(await readFile(join(notebook.site, path), 'utf8'), path), NONE);
}

test('script in every field that reaches a page is words', async () => {
  const notebook = await pressed({ pages: PAGES });
  await harmless(notebook);
  const { page, close } = await visit(browser);
  await page.goto(address(notebook.site, 'index.html'));
  // Said, not swallowed.
  assert.match(await page.title(), /<\/script>.*alert\(1\)/);
  assert.match(await page.locator('.notebook').textContent(), /<script>alert\(1\)<\/script>/);
  await page.goto(address(notebook.site, 'blocks.html'));
  assert.match(await page.locator('main').textContent(), /<script>alert\(1\)<\/script>/);
  await close();
  await notebook.remove();
});

test('a picture that is a drawing with script is not shown, and a finding says so', async () => {
  const notebook = await pressed({ pages: PAGES });
  assert.match(notebook.said, /picture\.svg/);
  assert.ok(!(await notebook.files()).some((path) => path.endsWith('picture.svg')));
  await notebook.remove();
});

test('an id of emoji is refused by a finding, and its block stands on the page all the same', async () => {
  const notebook = await pressed({ pages: PAGES });
  assert.match(notebook.said, /id-malformed.*🌿/);
  const { page, close } = await visit(browser);
  await page.goto(address(notebook.site, 'emoji.html'));
  assert.equal(await page.locator('h1').textContent(), '🌿');
  assert.match(await page.locator('.block.recipe .slips').textContent(), /pH\s\d/);
  // Its heading links to itself, whatever anchor it was given.
  await followLink(page, page.locator('.block.recipe header a'));
  assert.equal(await page.locator('section:target').count(), 1);
  await close();
  await notebook.remove();
});

test('a link to a page out of the notebook leads nowhere, and a finding says so', async () => {
  const pages = {
    'trayside.yaml': 'title: Out\n',
    'index.md': '# Out\n\n[out](../x.md), [far out](../../../../etc/passwd), ![out](../x.png), [rooted](/etc/passwd)\n',
  };
  const notebook = await pressed({ pages });
  assert.match(notebook.said, /\.\.\/x/);
  for (const path of await notebook.files()) assert.ok(!path.includes('..'));
  const { page, close } = await visit(browser);
  await page.goto(address(notebook.site, 'index.html'));
  const links = await page.locator('.prose a, .prose img').evaluateAll((all) => all.map((one) => one.href ?? one.src));
  const outside = links.filter((link) => link && !link.startsWith(address(notebook.site, '')));
  assert.deepEqual(outside, NONE);
  await close();
  await notebook.remove();
});

test('a picture of fifty megabytes arrives as one for the screen', async () => {
  const noise = randomBytes(4200 * 4000 * 3);
  const large = png(4200, 4000, (x, y) => noise.subarray((y * 4200 + x) * 3, (y * 4200 + x) * 3 + 3));
  assert.ok(large.length > 50e6, `${large.length}`);
  const notebook = await pressed({
    pages: { 'trayside.yaml': 'title: Large\n', 'index.md': '# Large\n\n![noise](large.png)\n', 'large.png': large },
  });
  const { page, faults, close } = await visit(browser);
  await page.goto(address(notebook.site, 'index.html'));
  const shown = await page.locator('.prose img').evaluate((image) => [image.naturalWidth, image.naturalHeight]);
  assert.ok(Math.max(...shown) === 1600, `${shown}`);
  assert.deepEqual(faults, NONE);
  await close();
  await notebook.remove();
});

test('what slips past all that is refused by the policy of the page', async () => {
  const notebook = await pressed({ pages: PAGES });
  const name = (await notebook.pages()).find((page) => page.startsWith('CON'));
  const path = join(notebook.site, name);
  const page = await readFile(path, 'utf8');
  // As a template of the notebook's own might let through.
  const slips = '<script>document.title = "ran"</script><img src="none.png" onerror="document.title = \'ran\'">'
    + '<style>body { display: none }</style><p style="display: none">hidden</p><base href="http://example.org/">'
    + '<script src="http://example.org/x.js"></script><iframe src="index.html"></iframe>'
    + '<form action="http://example.org/"><button>send</button></form><form class="find" action="index.html"><input name="q"></form>';
  await writeFile(path, page.replace('</main>', `${slips}</main>`));
  const server = await serve(notebook.site, '/notes/');
  for (const at of [address(notebook.site, name), server.origin + name]) {
    const { page: window, faults, close } = await visit(browser);
    await window.goto(at);
    await window.waitForTimeout(200);
    assert.notEqual(await window.title(), 'ran', at);
    assert.ok(await window.getByText('hidden').isVisible(), at);
    assert.equal(await window.evaluate(() => document.baseURI), at);
    assert.equal(window.frames().filter((frame) => frame.url().endsWith('index.html')).length, 0, at);
    const refused = faults.filter((fault) => fault.startsWith('policy:')).map((fault) => fault.split(' ')[1]);
    for (const directive of ['script-src-elem', 'script-src-attr', 'style-src-elem', 'style-src-attr', 'frame-src', 'base-uri']) {
      assert.ok(refused.includes(directive), `${at}: ${directive} not among ${refused}`);
    }
    // A form of the site's own may lead to a page of it.
    await window.locator('form.find input[name=q]').last().fill('x');
    await window.locator('form.find input[name=q]').last().press('Enter');
    await window.waitForURL(/index\.html\?q=x$/);
    await window.goto(at);
    await window.getByText('send').evaluate((button) => button.click());
    await window.waitForTimeout(200);
    assert.equal(window.url(), at);
    await close();
  }
  await server.close();
  await notebook.remove();
});
