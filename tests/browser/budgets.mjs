// What the page costs beside its budgets: bytes on the wire, and the time until it can be used.
//
//     node tests/browser/budgets.mjs [VISITS]
//
// Judges nothing and is not part of `run`. Bytes are exact. Times are of this machine, so each is also given as a ratio to
// an empty page loaded in the same run under the same conditions: on a busy machine only the ratio means something.
// What a frame of a drag costs, and what ten thousand drags leave in memory, is told by `frames.mjs`.

import { createServer } from 'node:http';
import { readFile, readdir, stat } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { launch } from './launch.mjs';
import { dist, oneFile, types } from './server.mjs';

/** What the browser does not load before the page can be used: for later visits, for installing, and other languages. */
const later = /\.png$|^manifest\.webmanifest$|^package\.json$|^sw\.js$|^worker\.js$/;

/** "Slow 4G" as browsers' own tools have it: 1.6 Mbit/s, 150 ms there and back. */
const slow = { offline: false, latency: 150, downloadThroughput: 1.6e6 / 8, uploadThroughput: 750e3 / 8 };
const runs = Number(process.argv[2] ?? 5);

const empty = '<!doctype html><title>empty</title><body><script>document.body.dataset.ready = ""</script>';

function say(what, found, budget, unit, rest = '') {
  const share = `${((100 * found) / budget).toFixed(0)} %`;
  console.log(`${what.padEnd(44)} ${found.toFixed(0).padStart(8)} ${unit.padEnd(2)} ${share.padStart(6)} of ${budget} ${unit}${rest}`);
}

const median = (values) => values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)];

/** A host as they are: text and wasm packed, ten minutes of freshness. */
function serve() {
  const server = createServer(async ({ url }, response) => {
    const name = url.split(/[?#]/)[0].slice(1) || 'index.html';
    const body = name === 'empty' ? empty : await readFile(join(dist, name)).catch(() => undefined);
    if (body === undefined) {
      response.writeHead(404).end();
      return;
    }
    const packed = gzipSync(body);
    const type = name === 'empty' ? 'text/html' : (types[extname(name)] ?? 'application/octet-stream');
    response.writeHead(200, { 'Content-Type': type, 'Content-Encoding': 'gzip', 'Content-Length': packed.length, 'Cache-Control': 'max-age=600' }).end(packed);
  });
  return new Promise((resolve) => server.listen(0, '127.0.0.1', () => resolve({ url: `http://127.0.0.1:${server.address().port}/`, server })));
}

/** Milliseconds from the start of a visit until the page can be used. */
async function usable(page, url) {
  await page.goto(url);
  await page.waitForSelector('body[data-ready]', { timeout: 120_000, state: 'attached' });
  return page.evaluate(() => performance.now()); // counted from the start of the visit
}

const entries = await readdir(dist, { withFileTypes: true });
const files = entries.filter((entry) => entry.isFile() && !later.test(entry.name)).map(({ name }) => name);
const sizes = await Promise.all(files.map(async (name) => [name, gzipSync(await readFile(join(dist, name)), { level: 9 }).length]));
say('bytes to first use, gzip', sizes.reduce((sum, [, size]) => sum + size, 0), 300_000, 'B');
say('wasm of them, gzip', Object.fromEntries(sizes)['halfbreadth_bg.wasm'], 180_000, 'B');
const one = await stat(oneFile).catch(() => undefined);
if (one) {
  say('one-file page', one.size, 1_000_000, 'B');
}

const { url, server } = await serve();
const browser = await launch();
const times = { empty: [], first: [], warm: [] };
for (let run = 0; run < runs; run++) {
  const context = await browser.newContext({ viewport: { width: 1024, height: 768 } });
  const page = await context.newPage();
  const cdp = await context.newCDPSession(page);
  await cdp.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  await cdp.send('Network.enable');
  await cdp.send('Network.emulateNetworkConditions', slow);
  times.empty.push(await usable(page, `${url}empty`));
  times.first.push(await usable(page, url));
  await page.waitForSelector('body[data-offline]', { timeout: 120_000, state: 'attached' });
  times.warm.push(await usable(page, url));
  await context.close();
}
await browser.close();
server.close();

const base = median(times.empty);
const beside = (times) => `; ${(median(times) / base).toFixed(1)} × an empty page`;
say('usable, first visit, CPU ÷ 4, slow 4G', median(times.first), 2500, 'ms', beside(times.first));
say('usable, from what is kept, CPU ÷ 4', median(times.warm), 1000, 'ms', beside(times.warm));
console.log(`medians of ${runs} visits; an empty page takes ${base.toFixed(0)} ms`);
