// The clock of a process over a simulated hour: from its folder, by keyboard alone, with a sleep and a reload in the middle. What
// it writes down is read by the program itself.

import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { after, before, test } from 'node:test';
import { DESK, PHONE, address, followLink, start, visit } from './support/browser.js';
import { accessible, fits } from './support/checks.js';
import { lay, pressed, run } from './support/notebook.js';

let notebook, browser;

before(async () => {
  notebook = await pressed();
  browser = await start();
});

after(async () => {
  await browser?.close();
  await notebook?.remove();
});

const NONE = [];
const EVENING = Date.parse('2031-05-20T18:00:00Z');

/** Opens the clock of the resin-coated line with a clock of our own in the browser. */
async function opened(options = {}) {
  const visited = await visit(browser, { viewport: PHONE, reducedMotion: 'reduce', ...options });
  await visited.page.clock.install({ time: EVENING - 60_000 });
  await visited.page.goto(address(notebook.site, 'clock/rc-line.html'));
  // From here on time passes only when it is told to.
  await visited.page.clock.pauseAt(EVENING);
  return { ...visited, words: (id) => visited.page.locator(`#clock-${id}`).textContent() };
}

/** The audit waits for time to pass, so time is let go. */
async function audited(page) {
  await page.clock.resume();
  return accessible(page);
}

/** Lets time pass as far as the figure says, and presses the space bar whenever a sheet is to be moved. */
async function follow({ page, words }, seconds) {
  let moved = 0;
  for (let at = 0; at < seconds;) {
    const figure = await words('figure');
    if (figure === 'now') {
      await page.keyboard.press('Space');
      moved += 1;
    }
    const left = figure.split(':').map(Number).reduce((all, part) => all * 60 + part, 0);
    const step = Math.min(Math.max(left - 1, 1) || 1, seconds - at);
    await page.clock.runFor(step * 1000);
    at += step;
  }
  return moved;
}

/** The rules that a page of the notebook breaks, by grade, after this block was pasted into it. */
async function proofed(block) {
  await lay(notebook.folder, { 'log/pasted.md': `# An evening\n\n${block}` });
  const { said } = await run(['proof', notebook.folder, '--format', 'json']);
  const found = said.split('\n').filter((row) => row.startsWith('{')).map((row) => JSON.parse(row));
  return found.filter((finding) => finding.path === 'log/pasted.md');
}

test('an hour with three sheets, a sleep and a reload, by keyboard alone', async () => {
  const visited = await opened();
  const { page, faults, words, close } = visited;
  assert.equal(await words('press-words'), 'start');
  await page.keyboard.press('3');
  await page.keyboard.press('Space');
  assert.match(await words('said'), /^Sheet 1 is on its way into the developer/);
  const first = await follow(visited, 240);
  assert.equal(first, 1, 'the second sheet');

  // A reload takes nothing away.
  await page.reload();
  await page.clock.runFor(300);
  assert.equal(await words('said'), 'Taken up where it was.');
  assert.deepEqual(await page.locator('#clock-line .number').allTextContents(), ['3', '1', '2']);
  // What is left of each stands in its tray, and is what the list says.
  const left = await page.locator('#clock-line .token .left').allTextContents();
  const listed = await page.locator('#clock-sheets .left').allTextContents();
  assert.match(left[1], /^\d:\d\d$/);
  assert.deepEqual(left.slice(1), listed.slice(0, 2));

  // Asleep past the moment at which the first sheets were due: nothing is moved that nobody moved.
  await page.clock.fastForward(120_000);
  await page.clock.runFor(1000);
  assert.match(await words('missed-head'), /^Nobody was called for 2 min/);
  assert.equal(await page.locator('#clock-missed-list li').count(), 2);
  assert.match(await page.locator('#clock-missed-list li').first().textContent(), /^19:05:05: sheet 1 was due out of the developer$/);
  assert.equal(await words('figure'), 'now');
  assert.match(await words('next'), /late/);
  await page.keyboard.press('Escape');
  assert.equal(await page.locator('#clock-missed').isVisible(), false);
  // The first was really moved when it was due; the second only now.
  await page.keyboard.press('t');
  await page.clock.runFor(1000);
  await page.keyboard.press('2');

  await follow(visited, 900);
  const whole = 3600 - 240 - 122 - 900;
  await page.clock.runFor(whole * 1000);
  assert.equal(await words('figure'), 'done');
  assert.deepEqual(await page.locator('.string .number').allTextContents(), ['1', '2', '3']);
  // The session is at hand where the last move was pressed.
  for (const what of ['copy', 'save']) await page.locator(`#clock-ready [data-do=${what}]`).waitFor({ state: 'visible' });
  assert.deepEqual(faults, NONE);
  assert.deepEqual(await audited(page), NONE);

  const [download] = await Promise.all([page.waitForEvent('download'), page.keyboard.press('d')]);
  assert.equal(download.suggestedFilename(), 'session-2031-05-20.md');
  const block = await readFile(await download.path(), 'utf8');
  assert.equal(block, await words('session'));
  assert.match(block, /^when: 2031-05-20T19:00:00\+01:00$/m);
  assert.match(block, /^ {2}spent-tea: 5 min – \d min( \d+ s)?$/m);
  assert.match(block, /the clock slept for 2 min/);
  const found = await proofed(block);
  assert.deepEqual(found.filter((finding) => ['fault', 'hazard'].includes(finding.grade)), NONE, JSON.stringify(found, null, 1));
  // It is the session that the program read, not a fence that it passed over.
  const { said } = await run(['facts', notebook.folder, '--json']);
  assert.equal(JSON.parse(said.slice(said.indexOf('{'))).blocks['session-2031-05-20-190000'].facts.starts.value, '2031-05-20T19:00:00+01:00');
  await close();
});

test('by itself it goes on while nobody presses, and says so in the notebook', async () => {
  const visited = await opened();
  const { page, words, faults, close } = visited;
  await page.keyboard.press('b');
  await page.keyboard.press('Space');
  await page.clock.runFor(310_000);
  assert.deepEqual(await page.locator('#clock-line .at').allTextContents(), [(await page.locator('#clock-line li').nth(2).textContent())]);
  await page.clock.fastForward(3_000_000);
  await page.clock.runFor(1000);
  assert.equal(await words('figure'), 'done');
  assert.match(await words('session'), /7 of 8 moves by the clock, not pressed/);
  assert.deepEqual((await proofed(await words('session'))).filter((finding) => finding.grade === 'fault'), NONE);
  assert.deepEqual(faults, NONE);
  await close();
});

test('too early is taken back, pausing holds, and clearing asks twice', async () => {
  const { page, words, close } = await opened({ viewport: DESK });
  await page.keyboard.press('Space');
  await page.clock.runFor(60_000);
  const before = await words('figure');
  await page.keyboard.press('Space');
  assert.match(await words('said'), /lifted \d:\d\d early/);
  await page.keyboard.press('u');
  await page.clock.runFor(1000);
  assert.notEqual(await words('figure'), before);
  await page.keyboard.press('p');
  const held = await words('figure');
  await page.clock.runFor(30_000);
  assert.equal(await words('figure'), held);
  await page.keyboard.press('p');
  await page.keyboard.press('x');
  assert.equal(await words('press-words') === 'start', false);
  await page.keyboard.press('x');
  assert.equal(await words('press-words'), 'start');
  await page.reload();
  await page.clock.runFor(300);
  assert.equal(await words('press-words'), 'start');
  await close();
});

test('every button is large, and a press on it does what its key does', async () => {
  for (const viewport of [PHONE, DESK]) {
    const { page, words, close } = await opened({ viewport });
    await page.locator('#clock-press').click();
    await page.clock.runFor(1000);
    assert.deepEqual(await fits(page), NONE);
    const small = await page.evaluate(() => [...document.querySelectorAll('.clock button, .clock summary, .clock .count label')]
      .filter((element) => element.getBoundingClientRect().height > 0 && element.getBoundingClientRect().height < 48)
      .map((element) => element.textContent));
    assert.deepEqual(small, NONE);
    assert.deepEqual(await audited(page), NONE);
    await page.locator('[data-switch=sound]').click();
    assert.equal(await page.locator('[data-switch=sound]').getAttribute('aria-pressed'), 'false');
    await page.clock.runFor(20_000);
    await page.locator('#clock-sheets button').first().click();
    assert.match(await words('said'), /early/);
    await page.locator('[data-do=undo]').click();
    assert.equal(await words('said'), 'Taken back.');
    await close();
  }
});

test('on a phone in the red view, the button that starts is on the first screen, below the caution', async () => {
  const { page, close } = await opened();
  await page.locator('.views [value=red]').click();
  assert.ok(await page.locator('.redcaution').isVisible());
  const box = await page.locator('#clock-press').boundingBox();
  assert.ok(box.y + box.height <= PHONE.height, JSON.stringify(box));
  await close();
});

test('on a small phone in the red view, the dial is in sight once the clock runs', async () => {
  const { page, close } = await opened({ viewport: { width: 360, height: 640 } });
  await page.locator('.views [value=red]').click();
  await page.locator('#clock-press').click();
  await page.clock.runFor(1000);
  const box = await page.locator('#clock-dial').boundingBox();
  assert.ok(box.y >= 0 && box.y + box.height <= 640, JSON.stringify(box));
  await close();
});

test('while it runs, the red view lights only the red of the screen, and no large area', async () => {
  const { page, close } = await opened({ viewport: DESK });
  await page.locator('.views [value=red]').click();
  await page.keyboard.press('m');
  await page.clock.runFor(306_000);
  assert.equal(await page.locator('#clock-figure').textContent(), 'now');
  const shot = (await page.screenshot()).toString('base64');
  const seen = await page.evaluate(async (data) => {
    const bytes = Uint8Array.from(atob(data), (letter) => letter.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const canvas = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
    canvas.drawImage(bitmap, 0, 0);
    const { data: pixels } = canvas.getImageData(0, 0, bitmap.width, bitmap.height);
    let [other, lit] = [0, 0];
    for (let at = 0; at < pixels.length; at += 4) {
      other = Math.max(other, pixels[at + 1], pixels[at + 2]);
      lit += pixels[at];
    }
    return { other, share: lit / 255 / (pixels.length / 4) };
  }, shot);
  assert.equal(seen.other, 0);
  assert.ok(seen.share < 0.15, `${seen.share}`);
  await close();
});

test('without scripts it reads as the timetable', async () => {
  const { page, close } = await visit(browser, { javaScriptEnabled: false });
  await page.goto(address(notebook.site, 'clock/rc-line.html'));
  assert.equal(await page.locator('#clock-dial').isVisible(), false);
  assert.equal(await page.locator('#clock-still').isVisible(), true);
  assert.match(await page.locator('.times').first().textContent(), /developer\s*0:05–5:05/);
  const links = await page.evaluate(() => document.querySelectorAll('.line .tray').length).catch(() => 0);
  assert.equal(links === 0 || links === 9, true);
  await page.goto(address(notebook.site, 'line.html'));
  const to = await followLink(page, page.locator('#rc-line').getByRole('link', { name: /^The clock of/ }));
  assert.ok(to.endsWith('/clock/rc-line.html'));
  await close();
});

test('the page holds what it needs and asks for nothing else', async () => {
  const html = await readFile(join(notebook.site, 'clock', 'rc-line.html'), 'utf8');
  assert.equal(/<script(?![^>]*(src=|type="application\/json"))/.test(html), false);
  assert.equal(/ style=| on\w+="/.test(html), false);
});
