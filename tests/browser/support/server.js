// The plainest web server that a folder of pages can stand behind: no headers but what the file is.

import { createServer } from 'node:http';
import { readFile, stat } from 'node:fs/promises';
import { extname, join, normalize, sep } from 'node:path';

const KINDS = {
  '.html': 'text/html; charset=utf-8', '.css': 'text/css; charset=utf-8', '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json', '.webmanifest': 'application/manifest+json', '.xml': 'application/xml',
  '.svg': 'image/svg+xml', '.png': 'image/png', '.jpg': 'image/jpeg', '.jpeg': 'image/jpeg', '.txt': 'text/plain; charset=utf-8',
  '.csv': 'text/csv; charset=utf-8', '.pdf': 'application/pdf', '.ttf': 'font/ttf', '.woff2': 'font/woff2',
};

/**
 * Serves `folder` under `below` (such as `/notes/`: a site need not stand at a host's root). Gives `origin`, `asked`
 * (the paths, in order), `fallSilent()` (questions are then taken and never answered) and `close()`. `port` 0 is any.
 */
export async function serve(folder, below = '/', port = 0) {
  const asked = [];
  let silent = false;
  const server = createServer(async (request, response) => {
    const path = decodeURIComponent(new URL(request.url, 'http://here').pathname);
    asked.push(path);
    if (silent) return;
    const found = path.startsWith(below) ? await read(folder, path.slice(below.length)) : null;
    if (found) {
      response.writeHead(200, { 'Content-Type': KINDS[extname(found.path)] ?? 'application/octet-stream' });
      response.end(found.bytes);
    } else {
      const missing = await read(folder, '404.html');
      response.writeHead(404, { 'Content-Type': missing ? KINDS['.html'] : KINDS['.txt'] });
      response.end(missing?.bytes ?? 'not here');
    }
  });
  // A test that fails before it closes its server must not keep the run from ending.
  server.unref();
  await new Promise((resolve) => { server.listen(port, '127.0.0.1', resolve); });
  return {
    origin: `http://127.0.0.1:${server.address().port}${below}`,
    asked,
    port: server.address().port,
    fallSilent: () => { silent = true; },
    close: () => new Promise((resolve) => { server.close(resolve); server.closeAllConnections(); }),
  };
}

async function read(folder, asked) {
  let path = normalize(join(folder, asked));
  if (path !== folder && !path.startsWith(folder + sep)) return null;
  try {
    if ((await stat(path)).isDirectory()) path = join(path, 'index.html');
    return { path, bytes: await readFile(path) };
  } catch {
    return null;
  }
}
