// The script that scales recipes, held against the compiler in a real browser: ten thousand cases, text by text.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { after, before, test } from 'node:test';
import { start } from './support/browser.js';

const ENGINE = ['scale-figures.js', 'scale-typed.js', 'scale.js'].map((name) => fileURLToPath(new URL(`../../templates/site/${name}`, import.meta.url)));
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
    const { mix, named } = globalThis.traysideScale;
    const { typed } = globalThis.traysideTyped;
    // What the form of a page makes of what is typed into it.
    const read = (on, { number, unit, ...target }) => {
      if (number === undefined || number === null) return target;
      const found = typed(on, number, target.of ?? { volume: 'volume', tray: 'length' }[target.by], unit);
      if (found.refused !== undefined) return found;
      if (target.by === 'volume') return { ...target, litres: found.value };
      if (target.by === 'tray') return { ...target, depth: found.value };
      return { ...target, there: found.value, text: named(on, found) };
    };
    // What cannot be read is refused in the command's words, which a notebook in another language has in its own.
    const same = (on, got, unread) => got.refused !== undefined
      && (on.words.and !== 'and' || got.refused === unread || got.refused.startsWith(`${unread}: `));
    const sorted = (value) => {
      if (Array.isArray(value)) return value.map(sorted);
      if (value === null || typeof value !== 'object') return value;
      return Object.fromEntries(Object.keys(value).sort().map((key) => [key, sorted(value[key])]));
    };
    globalThis.compared = (line) => {
      const { page: on, cases } = JSON.parse(line);
      const wrong = [];
      let unread = 0;
      for (const { id, target, answer } of cases) {
        const asked = read(on, target);
        const found = asked.refused === undefined ? mix(on, id, asked) : asked;
        if (answer.unread !== undefined && same(on, found, answer.unread)) {
          unread += 1;
          continue;
        }
        const [got, wanted] = [found, answer].map((of) => JSON.stringify(sorted(of)));
        if (got !== wanted) {
          const at = [...got].findIndex((letter, place) => letter !== wanted[place]);
          wrong.push(`${id} ${JSON.stringify(target)}: …${got.slice(Math.max(at - 60, 0), at + 60)} is not …${wanted.slice(Math.max(at - 60, 0), at + 60)}`);
        }
      }
      return { count: cases.length, unread, wrong };
    };
  });
  let [count, unread] = [0, 0];
  const wrong = [];
  for (const line of lines) {
    const found = await page.evaluate((text) => globalThis.compared(text), line);
    count += found.count;
    unread += found.unread;
    wrong.push(...found.wrong);
  }
  assert.ok(count >= 10_000, `only ${count} cases`);
  assert.ok(unread >= 500, `only ${unread} that cannot be read`);
  assert.deepEqual(wrong.slice(0, 5), [], `${wrong.length} of ${count} differ`);
});
