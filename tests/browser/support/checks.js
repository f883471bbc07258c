// What is asked of every page, whatever it shows. Each check gives lines of words; none where all is well.

import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { HtmlValidate } from 'html-validate';

const AXE = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Accessibility, by axe with all of its rules but those marked experimental. */
export async function accessible(page) {
  // Evaluated through the debugger: the page's own policy would refuse a script element, and is not to be loosened for a test.
  await page.evaluate(AXE);
  // Asking for the style sheets again is refused to a page from a folder; only a rule about turned screens would read them.
  const { violations } = await page.evaluate(() => window.axe.run(document, { resultTypes: ['violations'], preload: false }));
  return violations.flatMap((violation) => violation.nodes.map((node) => (
    `${violation.id} (${violation.impact}): ${violation.help}: ${node.target.join(' ')} ${node.html.slice(0, 160)}`
  )));
}

/** Nothing but what is meant to be scrolled by itself reaches past the window's right edge. */
export async function fits(page) {
  return page.evaluate(() => {
    const width = document.documentElement.clientWidth;
    if (document.documentElement.scrollWidth <= width) return [];
    const wide = [...document.querySelectorAll('body *')].filter((element) => element.getBoundingClientRect().right > width + 0.5);
    return [`the page is ${document.documentElement.scrollWidth} px wide in a window of ${width}`]
      .concat(wide.slice(-3).map((element) => element.outerHTML.slice(0, 160)));
  });
}

const markup = new HtmlValidate({
  extends: ['html-validate:standard', 'html-validate:document'],
  // Every file comes from the page's own host.
  rules: { 'require-sri': ['error', { target: 'crossorigin' }] },
});

/** The HTML as it stands in the file, by the rules of the standard. */
export async function valid(text, name) {
  const report = await markup.validateString(text, name);
  return report.results.flatMap((result) => result.messages.map((message) => (
    `${name}:${message.line}:${message.column}: ${message.ruleId}: ${message.message}`
  )));
}
