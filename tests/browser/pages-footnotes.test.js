// Footnotes: the number stands beside the note, and what the note says runs down in one column.

import assert from 'node:assert/strict';
import { after, before, test } from 'node:test';
import { DESK, PHONE, address, start, visit } from './support/browser.js';
import { fits } from './support/checks.js';
import { pressed } from './support/notebook.js';

const PAGES = {
  'trayside.yaml': 'format: 1\ntitle: Notes\nzone: Europe/Lisbon\npress:\n  site: {}\n',
  'index.md': `# Notes

One[^one] and two[^two].

[^one]: A short note.
[^two]: A long note, which goes on for a while.

    It has a second paragraph.

    - and a list
`,
};
let notebook, browser;

before(async () => {
  notebook = await pressed({ pages: PAGES });
  browser = await start();
});

after(async () => {
  await browser?.close();
  await notebook?.remove();
});

for (const [name, viewport] of [['phone', PHONE], ['desk', DESK]]) {
  test(`a footnote of several paragraphs is one column: ${name}`, async () => {
    const { page, close } = await visit(browser, { viewport });
    await page.goto(address(notebook.site, 'index.html'));
    const notes = await page.locator('.footnote-definition').evaluateAll((all) => all.map((note) => (
      [...note.children].map((one) => {
        const { left, top, bottom, width } = one.getBoundingClientRect();
        return { left, top, bottom, width };
      })
    )));
    assert.deepEqual(notes.map((note) => note.length), [2, 4]);
    for (const [number, first, ...others] of notes) {
      assert.ok(number.left + number.width <= first.left);
      assert.ok(number.top < first.bottom && first.top < number.bottom, 'the number stands on the first line');
      let above = first;
      for (const one of others) {
        assert.ok(one.top >= above.bottom, 'one below the other');
        assert.deepEqual([one.left, one.width], [first.left, first.width]);
        above = one;
      }
    }
    assert.deepEqual(await fits(page), []);
    await close();
  });
}
