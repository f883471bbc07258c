// The line over a recipe that scales it: typed and touched, by keyboard alone, out of a folder.

import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { DESK, PHONE, address, start, visit } from './support/browser.js';
import { accessible, fits, valid } from './support/checks.js';
import { pressed, run } from './support/notebook.js';

const PAGE = 'baths/bramble.html';
const NONE = [];
let notebook, browser;

before(async () => {
  notebook = await pressed();
  browser = await start();
});

after(async () => {
  await browser?.close();
  await notebook?.remove();
});

async function open(options = {}) {
  const { page, faults, close } = await visit(browser, options);
  await page.goto(address(notebook.site, PAGE));
  const block = page.locator('#bramble-leaf');
  return {
    page, faults, close, block,
    input: (name) => block.locator(`input[name="${name}"]`),
    choose: (name, value) => block.locator(`label:has([name="${name}"][value="${value}"])`).click(),
    said: block.locator('.scaled'),
    /** Every amount that is seen, by what it is of. */
    amounts: () => block.locator('.amounts:visible tr').evaluateAll((rows) => rows.map((row) => (
      [row.cells[0].firstChild.textContent.trim(), row.cells[1].firstChild.textContent.trim()].join(': ')
    ))),
  };
}
const spaces = (text) => text.replaceAll('\u00a0', ' ');

test('a volume that is typed changes the amounts to those of the command, and is said', async () => {
  const { block, input, choose, said, amounts, faults, close, page } = await open();
  const written = await amounts();
  assert.equal(await said.getAttribute('role'), 'status');
  assert.equal(await input('volume').inputValue(), '1');
  await choose('volume-unit', 'ml');
  await input('volume').fill('500');
  await said.getByText('500').waitFor();
  assert.equal(spaces(await said.textContent()), '500 ml, as asked for; use and facts are those of 1 l');
  const { said: told } = await run(['mix', 'bramble-leaf', '--notebook', notebook.folder, '--volume', '500 ml', '--format', 'json']);
  const sheet = JSON.parse(told);
  const wanted = sheet.groups.flatMap(({ rows }) => rows.map(({ material, amount }) => `${material}: ${amount}`));
  assert.deepEqual(await amounts(), wanted);
  assert.notDeepEqual(wanted, written);
  const shown = await block.locator('.mixed').innerText();
  for (const line of [...sheet.water, sheet.rounding, ...sheet.times.map(({ text }) => text)]) assert.ok(shown.includes(line), line);
  assert.deepEqual(faults, NONE);
  assert.equal(page.url(), address(notebook.site, PAGE));
  await close();
});

test('tray, sheets and the packet that runs short, by keyboard alone', async () => {
  const { page, input, said, close } = await open();
  for (let stops = 0; stops < 60; stops += 1) {
    await page.keyboard.press('Tab');
    if (await page.evaluate(() => document.activeElement.name === 'by')) break;
  }
  await page.keyboard.press('ArrowRight');
  await said.getByText('for tray developer').waitFor();
  await page.keyboard.press('Tab');
  await page.keyboard.press('Control+A');
  await page.keyboard.type('20');
  await page.keyboard.press('Enter');
  assert.match(spaces(await said.textContent()), /^672 ml, for tray developer, 160×210 mm, 20 mm deep/);
  await page.keyboard.press('Shift+Tab');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Tab');
  await page.keyboard.type('12');
  await page.keyboard.press('Enter');
  assert.match(spaces(await said.textContent()), /^500 ml, for 12 sheets, by its capacity/);
  await page.keyboard.press('Shift+Tab');
  await page.keyboard.press('ArrowRight');
  // 700 g of crystals at 97.2 g a litre.
  assert.match(spaces(await said.textContent()), /^7.2 l, what 700 g of washing soda, crystals allow/);
  assert.equal(await input('there').inputValue(), '700');
  await close();
});

test('what the command refuses is refused in its words, and the amounts stand as written', async () => {
  const { block, input, choose, said, amounts, close } = await open();
  const written = await amounts();
  const refuses = async (name, text, why) => {
    await input(name).fill(text);
    await input(name).press('Enter');
    assert.ok(spaces(await said.textContent()).startsWith(why), `${text}: ${await said.textContent()}`);
    assert.equal(await input(name).getAttribute('aria-invalid'), 'true');
    assert.deepEqual(await amounts(), written);
  };
  await refuses('volume', '0', 'It must be more than nothing');
  await refuses('volume', '5000', '5000 l is more than anyone mixes');
  await refuses('volume', 'much', 'A number is wanted here');
  await input('volume').fill('');
  await input('volume').press('Enter');
  assert.equal(await said.textContent(), '');
  await choose('by', 'tray');
  await refuses('depth', '46', 'Tray developer is only 45 mm deep, 46 mm would run over');
  await choose('by', 'sheets');
  await refuses('sheets', '0', 'No sheets need no bath');
  await refuses('sheets', '1.5', 'A whole number is wanted here');
  assert.equal(await block.locator('.mixed').isVisible(), false);
  await close();
});

test('a number may be typed as the command reads it, with its unit or without', async () => {
  const { block, input, said, amounts, faults, close } = await open();
  const chosen = () => block.locator('[name="volume-unit"]:checked').inputValue();
  for (const [text, told] of [
    ['1½', '1.5 l'], ['1 1/2', '1.5 l'], ['1/2', '500 ml'], ['½', '500 ml'], ['1e-1', '100 ml'], ['1,5', '1.5 l'], ['500 ml', '500 ml'],
    ['2l', '2 l'],
  ]) {
    await input('volume').fill(text);
    await input('volume').press('Enter');
    assert.ok(spaces(await said.textContent()).startsWith(`${told}, as asked for`), `${text}: ${await said.textContent()}`);
    assert.equal(await input('volume').getAttribute('aria-invalid'), 'false');
    assert.equal(await chosen(), text.endsWith('ml') ? 'ml' : 'l');
    if (text.includes(',')) continue;
    const asked = /l$/.test(text) ? text : `${text} l`;
    const { said: sheet } = await run(['mix', 'bramble-leaf', '--notebook', notebook.folder, '--volume', asked, '--format', 'json']);
    assert.deepEqual(await amounts(), JSON.parse(sheet).groups.flatMap(({ rows }) => rows.map(({ material, amount }) => `${material}: ${amount}`)));
  }
  // The unit that is chosen afterwards takes the place of the one that was typed.
  await input('volume').fill('250 ml');
  await input('volume').press('Enter');
  await block.locator('label:has([name="volume-unit"][value="l"])').click();
  assert.equal(await input('volume').inputValue(), '250');
  assert.match(spaces(await said.textContent()), /^250 l, as asked for/);
  for (const text of ['-1', '1/0', '1e30', '1.5.5', '1,500', '1e9', '0']) {
    await input('volume').fill(text);
    await input('volume').press('Enter');
    const { said: told, exit } = await run(['mix', 'bramble-leaf', '--notebook', notebook.folder, `--volume=${text} l`]);
    assert.notEqual(exit, 0, text);
    // The command says first what was asked, and last what to do.
    const why = told.replace(/^trayside: (--volume `[^`]*`: )?/, '').replace(/(; .*)?\n$/, '');
    const refused = await said.textContent();
    assert.ok(refused.toLowerCase().startsWith(why.replaceAll('`', '').toLowerCase()), `${text}: ${refused} is not ${why}`);
  }
  assert.deepEqual(faults, NONE);
  await close();
});

test('as written is one press away, and nothing is kept', async () => {
  const { page, block, input, said, amounts, close } = await open();
  const written = await amounts();
  const kept = () => page.evaluate(() => [JSON.stringify(localStorage), JSON.stringify(sessionStorage), document.cookie, location.hash]);
  const before = await kept();
  await input('volume').fill('2,5');
  await input('volume').press('Enter');
  assert.notDeepEqual(await amounts(), written);
  await block.getByRole('button', { name: 'as written' }).click();
  assert.deepEqual(await amounts(), written);
  assert.equal(await said.textContent(), 'as written');
  assert.equal(await input('volume').inputValue(), '1');
  await input('volume').fill('3');
  await input('volume').press('Enter');
  assert.deepEqual(await kept(), before);
  await page.reload();
  assert.deepEqual(await amounts(), written);
  assert.equal(await input('volume').inputValue(), '1');
  await close();
});

for (const [name, viewport] of [['phone', PHONE], ['desk', DESK]]) {
  test(`it fits, can be read by all, and is large enough for wet thumbs: ${name}`, async () => {
    const { page, block, input, choose, close } = await open({ viewport });
    for (const by of ['tray', 'sheets', 'limit', 'volume']) {
      await choose('by', by);
      if (by === 'sheets') await input('sheets').fill('6');
      assert.deepEqual(await fits(page), NONE, by);
      assert.deepEqual(await accessible(page), NONE, by);
      const small = await block.locator('.scale :is(label:has([type="radio"]), button):visible').evaluateAll((all) => (
        all.map((one) => one.getBoundingClientRect()).filter(({ width, height }) => width < 44 || height < 44).length
      ));
      assert.equal(small, 0, by);
    }
    await close();
  });
}

test('without scripts the amounts stand as written and no form is offered', async () => {
  const { block, amounts, close } = await open({ javaScriptEnabled: false });
  assert.equal(await block.locator('.scale').isVisible(), false);
  assert.ok((await amounts()).includes('washing soda, anhydrous: 36\u00a0g'));
  assert.deepEqual(await valid(await readFile(join(notebook.site, PAGE), 'utf8'), PAGE), NONE);
  await close();
});
