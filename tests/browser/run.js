// Runs every `*.test.js` beside this file, or only those whose names begin with what is asked for: `node run.js views`.
// One file at a time: each starts a browser of its own, and some of them measure time.

import { spawn } from 'node:child_process';
import { readdirSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

const here = fileURLToPath(new URL('.', import.meta.url));
const wanted = process.argv.slice(2);
const files = readdirSync(here)
  .filter((name) => name.endsWith('.test.js'))
  .filter((name) => wanted.length === 0 || wanted.some((start) => name.startsWith(start)))
  .sort();
if (files.length === 0) {
  console.error(`no test file begins with ${wanted.join(' or ')}`);
  process.exit(2);
}
// A file that hangs ends after a quarter of an hour: the longest takes two minutes on an idle machine.
const options = ['--test', '--test-concurrency=1', '--test-timeout=900000', '--test-reporter=spec'];
spawn(process.execPath, [...options, ...files], { cwd: here, stdio: 'inherit' })
  .on('exit', (code) => process.exit(code ?? 1));
