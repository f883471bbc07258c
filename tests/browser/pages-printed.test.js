// Pages on A4 paper: a part of a recipe is weighed out from one sheet, and no sheet is printed for the last line alone.

import assert from 'node:assert/strict';
import { execFile } from 'node:child_process';
import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { promisify } from 'node:util';
import { address, start, visit } from './support/browser.js';
import { pressed } from './support/notebook.js';

const run = promisify(execFile);
const part = (name, grams) => `  - name: ${name}
    water: 100 ml at 24 °C
    add:
      washing soda, anhydrous: ${grams} g
    steps:
      - dissolve: 1 min
`;
// A line more each time, so that every place of the recipe once comes to the end of a sheet.
const recipe = (lines) => `# Recipe

${'A line that moves all below it down by one.\n\n'.repeat(lines)}

\`\`\`recipe
id: bath-${lines}
title: Bath
role: wash aid
makes: 1 l
parts:
${part('first', 11)}${part('second', 22)}${part('third', 33)}steps:
  - make up
keeps: 1 h
from: made up
\`\`\`
`;
const LINES = Array.from({ length: 30 }, (_, at) => at);
let notebook, browser;

before(async () => {
  const pages = Object.fromEntries(LINES.map((lines) => [`page-${lines}.md`, recipe(lines)]));
  notebook = await pressed({ pages: { 'trayside.yaml': 'format: 1\ntitle: Notes\nby: A. Nyone\nzone: Europe/Lisbon\npress:\n  site: {}\n', ...pages } });
  browser = await start();
});

after(async () => {
  await browser?.close();
  await notebook?.remove();
});

/** The words of each sheet of a page as it would be printed. */
async function sheets(page, lines) {
  await page.goto(address(notebook.site, `page-${lines}.html`));
  const file = join(notebook.folder, 'printed.pdf');
  await writeFile(file, await page.pdf({ format: 'A4' }));
  const { stdout } = await run('pdftotext', ['-layout', file, '-']);
  return stdout.split('\f').slice(0, -1).map((text) => text.replace(/\s+/g, ' ').trim());
}

test('a part stands on one sheet, and every sheet says something of the page', async () => {
  const { page, close } = await visit(browser);
  let several = 0;
  for (const lines of LINES) {
    const all = await sheets(page, lines);
    several += all.length > 1;
    assert.match(all[0], /^Notes A\. Nyone Pressed by trayside [\d.]+ /, `${lines}`);
    for (const text of all) assert.doesNotMatch(text, /^(Pressed by trayside.*)?$/, `${lines}: ${JSON.stringify(all)}`);
    for (const [name, grams] of [['first', 11], ['second', 22], ['third', 33]]) {
      const rows = new RegExp(`${name} water at 24 °C 100 ml washing soda, anhydrous (\\d+ g/l )?${grams} g`);
      assert.ok(all.some((text) => rows.test(text)), `${lines}: ${name}: ${JSON.stringify(all)}`);
    }
  }
  assert.ok(several > 10, `${several} have more than one sheet`);
  await close();
});
