// A static server for the built site, below a sub-path: a page with one absolute address fails here.

import { createServer } from 'node:http';
import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { extname, join, normalize, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';

/** The built site: the folder named in `HALFBREADTH_DIST`, else `dist/`. Ends with a separator. */
export const dist = resolve(process.env.HALFBREADTH_DIST ?? fileURLToPath(new URL('../../dist', import.meta.url))) + sep;

/** The one-file page: the file named in `HALFBREADTH_ONE`, else the one in `dist-one/`. */
export const oneFile = resolve(
  process.env.HALFBREADTH_ONE ?? fileURLToPath(new URL('../../dist-one/halfbreadth.html', import.meta.url)),
);

const prefix = '/a/b/';

export const types = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.wasm': 'application/wasm',
  '.json': 'application/json',
  '.webmanifest': 'application/manifest+json',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
};

/** Whether nothing is answered: what a browser without a flight mode of its own can have in its place. */
let silent = false;

/** Lets all servers of this process be silent, or answer again. */
export function flightMode(on) {
  silent = on;
}

/** Serves a built site on a free port of this machine; resolves to the address of the page and a `close`. */
export async function serveSite(root = dist) {
  if (!existsSync(join(root, 'index.html'))) {
    throw new Error(`there is no site in ${root}; run “cargo run -- build” first`);
  }
  const server = createServer((request, response) => {
    if (silent) {
      request.socket.destroy();
      return;
    }
    answer(root, request.url).then(({ status, type, body }) => {
      response.writeHead(status, { 'Content-Type': type, 'Cache-Control': 'no-cache' }).end(body);
    });
  });
  await new Promise((resolve, reject) => server.once('error', reject).listen(0, '127.0.0.1', resolve));
  const close = () =>
    new Promise((resolve) => {
      server.close(resolve);
      server.closeAllConnections();
    });
  return { url: `http://127.0.0.1:${server.address().port}${prefix}`, close };
}

async function answer(root, url) {
  // The parser of URL has resolved every `..` already; below the prefix there is nothing but the site.
  const { pathname } = new URL(url, 'http://host');
  if (pathname.startsWith(prefix)) {
    const path = normalize(decodeURIComponent(pathname.slice(prefix.length))) || '.';
    const file = join(root, path.endsWith('/') || path === '.' ? join(path, 'index.html') : path);
    const body = file.startsWith(root) ? await readFile(file).catch(() => undefined) : undefined;
    if (body) {
      return { status: 200, type: types[extname(file)] ?? 'application/octet-stream', body };
    }
  }
  return { status: 404, type: 'text/plain', body: `no such file: ${pathname}` };
}
