// Without a network: the page after one visit, and a new release of it.

import assert from 'node:assert/strict';
import { createHash } from 'node:crypto';
import { cp, mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join, sep } from 'node:path';
import { after, test } from 'node:test';
import { scenario } from './driver.mjs';
import { dist, serveSite } from './server.mjs';

const body = (page) => page.part('body');

/** Waits until the browser has the whole page. */
async function keptOffline(page) {
  await page.until(async () => (await body(page).attribute('data-offline')) !== null, 'body[data-offline]', 20_000);
}

/** A copy of the site in a folder of its own, of which new releases can be made. */
async function releases() {
  const root = (await mkdtemp(join(tmpdir(), 'halfbreadth-'))) + sep;
  await cp(dist, root, { recursive: true });
  const site = await serveSite(root);
  const worker = join(root, 'sw.js');
  return {
    url: site.url,
    /** Deploys the list of a release in which the page has another content. */
    async list(content) {
      const hash = createHash('sha256').update(content).digest('base64');
      const text = await readFile(worker, 'utf8');
      const next = text.replace(/^const release = .*$/m, `const release = '${hash}';`).replace(/"\.\/":"[^"]*"/, `"./":"sha256-${hash}"`);
      assert.notEqual(next, text);
      await writeFile(worker, next);
    },
    /** The page as it is, with another title. */
    async titled(title) {
      return (await readFile(join(root, 'index.html'), 'utf8')).replace(/<title>.*<\/title>/, `<title>${title}</title>`);
    },
    write: (content) => writeFile(join(root, 'index.html'), content),
    close: () => site.close(),
    async end() {
      await site.close();
      await rm(root, { recursive: true });
    },
  };
}

const [gone, halfway, site] = [await releases(), await releases(), await releases()];
after(() => Promise.all([gone, halfway, site].map(({ end }) => end())));

scenario('after one visit the whole page opens, edits, exports and keeps in flight mode', { url: gone.url }, async (page) => {
  await keptOffline(page);
  await page.offline();
  await gone.close(); // and should the browser's flight mode have a hole: there is nobody to ask
  const other = await page.beside();
  const before = await other.readout('area');
  await other.dragBy(other.handle('n2'), { y: 14 });
  assert.notEqual(await other.readout('area'), before);
  await other.enter('nose-kick-taper', '9');
  await other.saved();
  const mine = await other.readouts();
  await other.command('copy-link');
  const link = await other.part('#link').value();
  await other.room('cut');
  for (const kind of ['svg', 'dxf', 'pdf']) {
    const { name, bytes } = await other.download(() => other.command(`export-${kind}`));
    assert.equal(name, `turnstone.${kind}`);
    assert.ok(bytes.length > 1000, name);
  }
  await other.download(() => other.command('save-file'));
  await other.reload();
  assert.deepEqual(await other.readouts(), mine);
  // A link from a message, and the page by its file's name.
  await other.goto(new URL(link).hash);
  assert.equal(await other.part('.came-with-link').visible(), true);
  await other.goto('index.html');
  assert.deepEqual(await other.readouts(), mine);
  await assert.rejects(fetch(gone.url), 'there was nobody to ask');
});

scenario('what is kept is the whole page and nothing else', {}, async (page) => {
  await keptOffline(page);
  const asked = await page.evaluate(() => performance.getEntriesByType('resource').map(({ name }) => name));
  const kept = await page.evaluate(async () => {
    const [name, ...others] = await caches.keys();
    const requests = await (await caches.open(name)).keys();
    return { name, others, urls: requests.map(({ url }) => url) };
  });
  const scope = await page.evaluate(() => new URL('./', location).href);
  assert.ok(kept.name.startsWith(`halfbreadth ${scope} `), 'a name of this page and its folder alone');
  assert.deepEqual(kept.others, []);
  // The service worker itself is kept by the browser with what it registers; some tell that it was asked for.
  for (const url of asked.filter((url) => !/^(data|blob):|\/sw\.js$/.test(url))) {
    assert.ok(kept.urls.includes(url), url);
  }
  assert.ok(kept.urls.every((url) => url.startsWith(scope)));
});

test('the manifest names icons that are there, of the size it says', async () => {
  const { icons, ...manifest } = JSON.parse(await readFile(join(dist, 'manifest.webmanifest'), 'utf8'));
  for (const key of ['id', 'start_url', 'scope']) {
    assert.equal(manifest[key], './', 'of whatever folder it is served from');
  }
  assert.equal(manifest.display, 'standalone');
  for (const { src, sizes, type } of icons) {
    const bytes = await readFile(join(dist, src));
    if (type === 'image/png') {
      assert.equal(bytes.toString('latin1', 1, 4), 'PNG');
      assert.equal(`${bytes.readUInt32BE(16)}x${bytes.readUInt32BE(20)}`, sizes, src);
    }
  }
});

/** Looks for a new release as the browser does when the page is opened. */
const look = (page) =>
  page.evaluate(async () => {
    await (await navigator.serviceWorker.ready).update();
  });

scenario('half of a release is not kept: files that do not fit together leave the old one', { url: halfway.url }, async (page) => {
  await keptOffline(page);
  await page.reload();
  await halfway.list(await halfway.titled('Halfbreadth, half there'));
  await look(page);
  const settled = () => page.evaluate(async () => (await navigator.serviceWorker.ready).installing === null);
  await page.until(settled, 'the end of the attempt', 20_000);
  assert.equal(await page.evaluate(async () => (await navigator.serviceWorker.ready).waiting), null);
  assert.equal(await page.part('.new-release').visible(), false);
  assert.equal(await page.evaluate(async () => (await caches.keys()).length), 1, 'nothing is left of it');
  await page.offline();
  await page.reload();
  assert.equal(await page.title(), 'Halfbreadth');
});

scenario('a new release is offered, never taken by itself, and taken when asked for', { url: site.url }, async (page) => {
  const next = await site.titled('Halfbreadth, newer');
  await keptOffline(page);
  await page.reload();
  await site.write(next);
  await site.list(next);
  await look(page);
  await page.until(() => page.part('.new-release').visible(), 'the offer', 20_000);

  // In mid-edit nothing happens, and a reload is still the old release, whole.
  const hold = await page.grab(page.handle('n2'));
  await hold.moveBy({ y: 14 });
  assert.equal(await page.title(), 'Halfbreadth');
  await hold.release();
  await page.saved();
  await page.reload();
  assert.equal(await page.title(), 'Halfbreadth');
  await page.until(() => page.part('.new-release').visible(), 'the offer again', 20_000);
  assert.deepEqual(await page.violations(), []);

  const mine = await page.readouts();
  await page.navigation(() => page.commandPart('take-release').evaluate((button) => button.click()));
  assert.equal(await page.title(), 'Halfbreadth, newer');
  assert.deepEqual(await page.readouts(), mine);
  assert.equal(await page.part('.new-release').visible(), false);
  const kept = () => page.evaluate(async () => (await caches.keys()).length);
  await page.until(async () => (await kept()) === 1, 'the old release is forgotten');
});
