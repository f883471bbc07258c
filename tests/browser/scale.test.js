// The script that scales recipes, held against the compiler in a real browser: ten thousand cases, text by text.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { after, before, test } from 'node:test';
import { start } from './support/browser.js';

const ENGINE = ['scale-figures.js', 'scale.js'].map((name) => fileURLToPath(new URL(`../../templates/site/${name}`, import.meta.url)));
/** Left there by `cargo test --test it scaling`: a line for each page, with its cases and the compiler's answers. */
const CASES = new URL('../../target/tmp/scaling.jsonl', import.meta.url);
let browser;

before(async () => { browser = await start(); });
after(() => browser?.close());

test('ten thousand recipes and targets come to what the compiler says, to the last digit', async () => {
  let lines;
  try {
    lines = readFileSync(CASES, 'utf8').trim().split('\n');
  } catch {
    assert.fail('there are no cases: cargo test --test it scaling makes them');
  }
  const page = await browser.newPage();
  for (const path of ENGINE) await page.addScriptTag({ path });
  await page.evaluate(() => {
    const { mix, typed, named } = globalThis.traysideScale;
    const tens = { ml: -3, l: 0, g: 0, kg: 3, mm: 0, '': 0 };
    // What the form of a page makes of what is typed into it.
    const read = (on, { number, unit, ...target }) => {
      if (number === undefined || number === null) return target;
      const found = typed(on, number, tens[unit]);
      if (target.by === 'volume') return { ...target, litres: found.value };
      if (target.by === 'tray') return { ...target, depth: found.value };
      return { ...target, there: found.value, text: named(on, found, unit) };
    };
    const sorted = (value) => {
      if (Array.isArray(value)) return value.map(sorted);
      if (value === null || typeof value !== 'object') return value;
      return Object.fromEntries(Object.keys(value).sort().map((key) => [key, sorted(value[key])]));
    };
    globalThis.compared = (line) => {
      const { page: on, cases } = JSON.parse(line);
      const wrong = [];
      for (const { id, target, answer } of cases) {
        const [got, wanted] = [mix(on, id, read(on, target)), answer].map((of) => JSON.stringify(sorted(of)));
        if (got !== wanted) {
          const at = [...got].findIndex((letter, place) => letter !== wanted[place]);
          wrong.push(`${id} ${JSON.stringify(target)}: …${got.slice(Math.max(at - 60, 0), at + 60)} is not …${wanted.slice(Math.max(at - 60, 0), at + 60)}`);
        }
      }
      return { count: cases.length, wrong };
    };
  });
  let count = 0;
  const wrong = [];
  for (const line of lines) {
    const found = await page.evaluate((text) => globalThis.compared(text), line);
    count += found.count;
    wrong.push(...found.wrong);
  }
  assert.ok(count >= 10_000, `only ${count} cases`);
  assert.deepEqual(wrong.slice(0, 5), [], `${wrong.length} of ${count} differ`);
});
