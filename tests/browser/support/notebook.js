// A notebook pressed into a folder that is thrown away afterwards.

import { spawn } from 'node:child_process';
import { cp, mkdir, mkdtemp, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { basename, dirname, join, relative, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

const PROJECT = fileURLToPath(new URL('../../../', import.meta.url));

/** The program under test: `TRAYSIDE_BIN`, else what `cargo build` last made. */
export const TRAYSIDE = process.env.TRAYSIDE_BIN ?? join(PROJECT, 'target/debug/trayside');

/** The demo notebook's folder. */
export const DEMO = join(PROJECT, 'recipes');

/**
 * Presses a copy of the demo notebook, or, where `pages` is given, a notebook of just those files (path to text or bytes).
 * `also` lays further files over the copy.
 *
 * Gives `folder` (the notebook's), `site` (its pressed site's folder), `said` (what the program printed), `exit` (its exit
 * code), `pages()` (the paths of all HTML files of the site, sorted, but for those that lead on by themselves) and `remove()`.
 */
export async function pressed({ pages = null, also = {} } = {}) {
  const folder = await mkdtemp(join(tmpdir(), 'trayside-browser-'));
  if (pages === null) {
    await cp(DEMO, folder, { recursive: true, filter: (from) => !from.split(sep).includes('pressed') });
  }
  await lay(folder, { ...pages, ...also });
  const { exit, said } = await run(['press', folder]);
  // 1 means that the notebook has faults; it is pressed all the same.
  if (exit !== 0 && exit !== 1) throw new Error(`trayside press ended with ${exit}:\n${said}`);
  const site = join(folder, 'pressed', 'site');
  return {
    folder, site, said, exit,
    pages: async () => (await files(site)).filter((path) => path.endsWith('.html') && !path.startsWith('at/')),
    files: () => files(site),
    remove: () => rm(folder, { recursive: true, force: true }),
  };
}

/** Writes `texts`, path to text or bytes, below `folder`, each as a whole: a program that watches never sees half of one. */
export async function lay(folder, texts) {
  for (const [path, text] of Object.entries(texts)) {
    const to = join(folder, path);
    await mkdir(dirname(to), { recursive: true });
    const beside = join(dirname(to), `.${basename(to)}.new`);
    await writeFile(beside, text);
    await rename(beside, to);
  }
}

/** Runs the program to its end. */
export function run(args) {
  return new Promise((resolve, reject) => {
    const child = spawn(TRAYSIDE, args, { stdio: ['ignore', 'pipe', 'pipe'] });
    let said = '';
    child.stdout.on('data', (data) => { said += data; });
    child.stderr.on('data', (data) => { said += data; });
    child.on('error', (error) => reject(new Error(`${TRAYSIDE} does not start (${error.message}): cargo build first`)));
    child.on('close', (exit) => resolve({ exit, said }));
  });
}

/** Tends `folder` at `port` (0 is any). Gives `origin` once the preview is up, and `stop()`. */
export async function tend(folder, port = 0) {
  const child = spawn(TRAYSIDE, ['tend', folder, ...(port ? ['--port', String(port)] : [])], { stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  const origin = await new Promise((resolve, reject) => {
    const hear = (data) => {
      said += data;
      const address = /http:\/\/[\w.]+:\d+\//.exec(said);
      if (address) resolve(address[0]);
    };
    child.stdout.on('data', hear);
    child.stderr.on('data', hear);
    child.on('exit', () => reject(new Error(`trayside tend ended:\n${said}`)));
  });
  child.removeAllListeners('exit');
  const ended = new Promise((resolve) => { child.on('exit', resolve); });
  return { origin, stop: () => { child.kill('SIGINT'); return ended; } };
}

async function files(folder) {
  const entries = await readdir(folder, { recursive: true, withFileTypes: true });
  return entries
    .filter((entry) => entry.isFile())
    .map((entry) => relative(folder, join(entry.parentPath ?? entry.path, entry.name)).split(sep).join('/'))
    .sort();
}
