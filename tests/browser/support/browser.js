// A browser whose pages tell on themselves: what a reader should never meet is collected as a fault.

import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const FLAGS = [
  '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
  '--disable-component-update', '--disable-sync',
];

/** A phone held upright, and a desk. */
export const PHONE = { width: 390, height: 844 };
export const DESK = { width: 1280, height: 900 };

const CHROMIUM = process.env.CHROMIUM ?? '/usr/bin/chromium';

/** Starts Chromium: `CHROMIUM`, else Debian's. Scrollbars are drawn only where they are asked for. */
export function start({ scrollbars = false } = {}) {
  return chromium.launch({ executablePath: CHROMIUM, args: FLAGS, ignoreDefaultArgs: scrollbars ? ['--hide-scrollbars'] : [] });
}

/** The address of a file of a pressed site. */
export const address = (site, path) => pathToFileURL(join(site, ...path.split('/'))).href;

/**
 * A fresh profile (no storage, no workers) whose pages are watched. `options` are Playwright's for a context.
 *
 * Gives `context`, `page`, `faults` (words; empty where nothing is wrong) and `close()`.
 * Faults are: messages of grade error, exceptions, dialogs, breaches of the content security policy, files that were not
 * there, and requests to anywhere but the host that the page came from.
 */
export async function visit(browser, options = {}) {
  const context = await browser.newContext({ viewport: DESK, ...options });
  const faults = [];
  const fault = (kind, what) => faults.push(`${kind}: ${what}`);
  await context.exposeBinding('__breach', (_, what) => fault('policy', what));
  await context.addInitScript(() => {
    addEventListener('securitypolicyviolation', (event) => {
      window.__breach(`${event.effectiveDirective} refused ${event.blockedURI} in ${event.documentURI}`);
    });
  });
  const watch = (page) => {
    const from = () => new URL(page.url());
    page.on('console', (message) => { if (message.type() === 'error') fault('console', message.text()); });
    page.on('pageerror', (error) => fault('exception', error.stack ?? error.message));
    page.on('dialog', (dialog) => { fault('dialog', dialog.message()); dialog.dismiss().catch(() => {}); });
    page.on('requestfailed', (request) => {
      // A page that is left while it loads breaks its requests off.
      if (request.failure()?.errorText !== 'net::ERR_ABORTED') fault('failed', `${request.url()} ${request.failure()?.errorText}`);
    });
    page.on('response', (response) => { if (response.status() >= 400) fault('answer', `${response.status()} ${response.url()}`); });
    page.on('request', (request) => {
      const to = new URL(request.url());
      if (['data:', 'blob:', 'about:'].includes(to.protocol) || request.isNavigationRequest()) return;
      const here = from();
      if (to.protocol !== here.protocol || to.host !== here.host) fault('outside', request.url());
    });
  };
  context.on('page', watch);
  const page = await context.newPage();
  return { context, page, faults, close: () => context.close() };
}

/** Presses a link, and waits for the page or the place on it that it leads to: what is asked before that is of the page left. */
export async function followLink(page, link) {
  const to = await link.evaluate(({ href }) => href);
  await link.click();
  await page.waitForURL(to);
  return to;
}

/** As `visit`, with a profile that stands on disk: what the browser keeps there outlives `close`, until `forget`. */
export async function profile() {
  const folder = await mkdtemp(join(tmpdir(), 'trayside-profile-'));
  return {
    open: (options = {}) => chromium.launchPersistentContext(folder, {
      executablePath: CHROMIUM, args: FLAGS, viewport: DESK, ...options,
    }),
    forget: () => rm(folder, { recursive: true, force: true }),
  };
}
