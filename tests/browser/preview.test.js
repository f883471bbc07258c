// The preview of `trayside tend`: the same pages with a line at their foot.

import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { DESK, PHONE, start, visit } from './support/browser.js';
import { accessible, fits } from './support/checks.js';
import { lay, pressed, tend } from './support/notebook.js';
import { light } from './support/picture.js';

const NONE = [];
const BROKEN = '# The line\n\n```recipe\ntitle: Stop\nrole: no such role\nmakes: 1 l\n```\n';

let notebook, preview, browser, reader;

before(async () => {
  notebook = await pressed();
  preview = await tend(notebook.folder);
  browser = await start();
  reader = await (await browser.newContext()).newPage();
});

after(async () => {
  await browser?.close();
  await preview?.stop();
  await notebook?.remove();
});

test('an address without a page is red where red was chosen', async () => {
  const { page, faults, close } = await visit(browser);
  await page.goto(preview.origin);
  await page.locator('.views button[value=red]').click();
  const answer = await page.goto(`${preview.origin}log/no-such-page.html`);
  assert.equal(answer.status(), 404);
  const seen = await light(reader, await page.screenshot());
  assert.equal(seen.stray, null);
  assert.deepEqual(await accessible(page), NONE);
  assert.deepEqual(await fits(page), NONE);
  assert.deepEqual(faults.filter((fault) => !fault.includes('404')), NONE);
  await close();
});

for (const [name, viewport] of [['phone', PHONE], ['desk', DESK]]) {
  test(`pages of the preview are without fault in every view: ${name}`, async () => {
    const { page, faults, close } = await visit(browser, { viewport });
    for (const view of ['light', 'dark', 'red']) {
      for (const path of ['index.html', 'baths/bramble.html']) {
        await page.goto(preview.origin + path);
        await page.locator(`.views button[value=${view}]`).click();
        assert.deepEqual(await fits(page), NONE, path);
        assert.deepEqual(await accessible(page), NONE, path);
        if (view === 'red') assert.equal((await light(reader, await page.screenshot())).stray, null, path);
      }
    }
    assert.deepEqual(faults, NONE);
    await close();
  });
}

/** Opens a page at its last heading; `stays` asserts that this is still at its place. */
async function reading(page) {
  await page.goto(`${preview.origin}papers.html`);
  const heading = page.locator('main h2').last();
  await heading.evaluate((element) => scrollTo(0, element.getBoundingClientRect().top + scrollY - 1));
  const top = () => heading.evaluate((element) => element.getBoundingClientRect().top);
  const before = await top();
  const stays = async () => {
    // Pictures and fonts move the text once more, and the script puts it back.
    await page.waitForLoadState('load');
    await page.evaluate(() => document.fonts.ready);
    await page.waitForTimeout(300);
    const after = await top();
    assert.ok(Math.abs(after - before) < 3, `${before} became ${after}`);
  };
  return { heading, stays };
}

test('what is being read stays where it is when something above it grows', async () => {
  const { page, faults, close } = await visit(browser, { viewport: PHONE });
  const { stays } = await reading(page);
  const text = await readFile(join(notebook.folder, 'papers.md'), 'utf8');
  const more = 'One more sentence, said again and again so that it fills a line. '.repeat(20);
  await lay(notebook.folder, { 'papers.md': text.replace(/\n# .*\n/, (title) => `${title}\n${more}\n`) });
  await page.getByText('One more sentence').waitFor({ state: 'attached' });
  await stays();
  assert.deepEqual(faults, NONE);
  await close();
});

test('a place on a page that is empty for a moment is found again', async () => {
  const { page, faults, close } = await visit(browser, { viewport: PHONE });
  const { heading, stays } = await reading(page);
  const text = await readFile(join(notebook.folder, 'papers.md'), 'utf8');
  await lay(notebook.folder, { 'papers.md': '' });
  await heading.waitFor({ state: 'detached' });
  await page.waitForLoadState('load');
  await lay(notebook.folder, { 'papers.md': text });
  await heading.waitFor({ state: 'attached' });
  await stays();
  assert.deepEqual(faults, NONE);
  await close();
});

test('a save shows anew what it changes, once, and leaves every other page alone', async () => {
  const { context, page, faults, close } = await visit(browser);
  const other = await context.newPage();
  await other.goto(`${preview.origin}class.html`);
  await page.goto(`${preview.origin}strips.html`);
  await other.evaluate(() => { window.leftAlone = true; });
  let loads = 0;
  page.on('load', () => { loads += 1; });
  const text = await readFile(join(notebook.folder, 'strips.md'), 'utf8');
  await lay(notebook.folder, { 'strips.md': `${text}\nWords for saltzander.\n` });
  await page.getByText('saltzander').waitFor({ state: 'attached' });
  // The search is pressed last.
  await page.waitForFunction(() => (
    fetch('/search/w-s-.js').then((answer) => answer.text()).then((words) => words.includes('saltzander'))
  ), undefined, { polling: 200 });
  await page.waitForTimeout(300);
  assert.equal(loads, 1);
  assert.equal(await other.evaluate(() => window.leftAlone), true);
  assert.deepEqual(faults, NONE);
  await close();
});

test('a save does not hold back who is on the way to another page', async () => {
  const { page, faults, close } = await visit(browser);
  await page.goto(`${preview.origin}strips.html`);
  const text = await readFile(join(notebook.folder, 'strips.md'), 'utf8');
  let saved = false;
  await page.route('**/class.html', async (route) => {
    await lay(notebook.folder, { 'strips.md': `${text}\nSaved while somebody leaves.\n` });
    // Until the save is pressed, and told to whoever listens.
    const pressed = join(notebook.folder, 'pressed/site/strips.html');
    while (!saved) saved = (await readFile(pressed, 'utf8')).includes('while somebody leaves');
    await page.waitForTimeout(300);
    await route.continue();
  });
  await page.evaluate(() => {
    const link = document.createElement('a');
    link.href = '/class.html';
    document.body.append(link);
    link.click();
  });
  await page.waitForURL('**/class.html');
  assert.ok(saved);
  assert.deepEqual(faults, NONE);
  await close();
});

test('what was typed into the line that scales is there after a swap, and gone after a visit', async () => {
  const { page, faults, close } = await visit(browser);
  const path = `${preview.origin}baths/bramble.html`;
  const block = page.locator('#bramble-leaf');
  const input = (name) => block.locator(`input[name="${name}"]`);
  const choose = (name, value) => block.locator(`label:has([name="${name}"][value="${value}"])`).click();
  const said = () => block.locator('.scaled').textContent();
  const file = 'baths/bramble.md';
  const text = await readFile(join(notebook.folder, file), 'utf8');
  let saves = 0;
  const swapped = async () => {
    saves += 1;
    const more = `Saved for the ${saves}. time.`;
    await lay(notebook.folder, { [file]: `${text}\n${more}\n` });
    await page.getByText(more).waitFor({ state: 'attached' });
  };
  /** Waits until all of it is so: one save may be two swaps, the page alone and then with all the others. */
  const says = (name, value, text, more = {}) => page.waitForFunction(([of, wanted, told, { focus, limit }]) => {
    const field = document.querySelector(`#bramble-leaf input[name="${of}"]`);
    const picked = document.querySelector('#bramble-leaf input[name="limit"]:checked');
    return field?.value === wanted && document.querySelector('#bramble-leaf .scaled').textContent.includes(told)
      && (!focus || document.activeElement === field) && (!limit || picked?.value === limit);
  }, [name, value, text, more]);
  await page.goto(path);
  await choose('volume-unit', 'ml');
  await input('volume').fill('500');
  await block.getByText('500 ml, as asked for').waitFor();
  const before = await said();
  await swapped();
  await says('volume', '500', before, { focus: true });
  // A choice that fills in fields of its own keeps what was typed over them; a number that cannot be read stays too.
  await choose('by', 'limit');
  await choose('limit', '1');
  await input('there').fill('7');
  await input('there').press('Enter');
  const short = await said();
  await swapped();
  await says('there', '7', short, { limit: '1' });
  await input('there').fill('much');
  await swapped();
  await says('there', 'much', 'A number is wanted here');
  // Nothing outlasts the page.
  assert.deepEqual(await page.evaluate(() => [sessionStorage.length, Object.keys(localStorage).filter((key) => key.includes('tend'))]), [0, []]);
  await page.goto(path);
  await page.waitForTimeout(300);
  await says('volume', '1', '');
  assert.ok(await input('by').nth(0).isChecked());
  assert.deepEqual(faults, NONE);
  await close();
});

test('a page that a save broke stays as it was, under a stripe that can be read', async () => {
  const { page, faults, close } = await visit(browser);
  await page.goto(`${preview.origin}class.html`);
  const before = await page.locator('main').textContent();
  await lay(notebook.folder, { 'class.md': BROKEN });
  await page.locator('.tend-stale').waitFor();
  assert.match(await page.locator('.tend-stale').textContent(), /Stale: .*class\.md:\d+/);
  assert.equal(await page.locator('main').textContent(), before);
  assert.deepEqual(await accessible(page), NONE);
  await page.locator('.views button[value=red]').click();
  assert.equal((await light(reader, await page.screenshot())).stray, null);
  await page.locator('.tend-stale a').click();
  await page.getByRole('heading', { name: 'Stop' }).waitFor();
  assert.deepEqual(faults, NONE);
  await close();
});
