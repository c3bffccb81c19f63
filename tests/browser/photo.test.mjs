// A photograph of a deck the page has never seen: chosen, clicked, traced, taken, kept.

import assert from 'node:assert/strict';
import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { cannot, scenario, sizes } from './driver.mjs';
import { photograph } from './photograph.mjs';
import { choose, clickHoles, measureHeight, shown, take, trace } from './photograph-steps.mjs';

/** Chooses a photograph and clicks its holes, and waits until both are kept. */
async function keepClicked(page, photo, by) {
  await choose(page, photo.bytes);
  await shown(page);
  await clickHoles(page, photo.holes, by);
  await page.until(async () => (await page.part('body').attribute('data-photo-saved')) === 'yes', 'the picture kept');
  await page.saved();
}

scenario('a photograph becomes the outline of the deck on it, in one step', {}, async (page) => {
  const before = await page.readouts();
  const photo = photograph({ tilt: 12 });
  await choose(page, photo.bytes);
  await shown(page);
  await clickHoles(page, photo.holes, 'mouse');
  await measureHeight(page);
  assert.match(await page.part('[data-photo-mark=h0]').text(), /^0\.\d mm$/);
  await page.screenshot('photograph clicked');
  await trace(page);
  assert.match(await page.part('#photo-traced').content(), /halves differ by 0\.\d mm.*Rails to about ± 0\.\d mm/s);
  assert.equal(await page.undoStep(), null, 'nothing is taken yet');
  await page.screenshot('photograph traced');
  await take(page);
  await page.command('undo');
  assert.deepEqual(await page.readouts(), before);
});

scenario('fingers do the same on a tablet, and the picture is there after a reload', { ...sizes.tablet, touch: true }, async (page) => {
  const photo = photograph({ tilt: 5 });
  await keepClicked(page, photo, 'touch');
  await page.reload();
  await page.until(async () => /8 holes/.test(await page.part('#photo-words').content()), 'the clicks again', 20_000);
  await measureHeight(page);
  await trace(page);
  await take(page);
});

scenario('a picture that an earlier release kept as a file is there too', {}, async (page) => {
  const photo = photograph({ tilt: 5 });
  await keepClicked(page, photo, 'mouse');
  const asFile = await page.evaluate(async () => {
    const done = (request) => new Promise((resolve, reject) => {
      request.onsuccess = () => resolve(request.result);
      request.onerror = () => reject(request.error);
    });
    const store = (await done(indexedDB.open('halfbreadth-photographs'))).transaction('photographs', 'readwrite').objectStore('photographs');
    const [id] = await done(store.getAllKeys());
    const [bytes, numbers] = await done(store.get(id));
    return done(store.put([new Blob([bytes], { type: 'image/png' }), numbers], id)).then(() => bytes.byteLength, () => 0);
  });
  if (asFile === 0) {
    cannot('in a private window this browser keeps no file');
  }
  assert.equal(asFile, photo.bytes.length);
  await page.reload();
  await page.until(async () => /8 holes/.test(await page.part('#photo-words').content()), 'the clicks again', 20_000);
  await measureHeight(page);
  await trace(page);
});

scenario('a phone has room for it too', { ...sizes.phone, touch: true }, async (page) => {
  const photo = photograph({ width: 1500, height: 1125 });
  await choose(page, photo.bytes);
  await shown(page);
  await page.screenshot('photograph phone');
  await clickHoles(page, photo.holes, 'touch');
  await measureHeight(page);
  await trace(page);
  await page.screenshot('photograph phone traced');
  await take(page);
});

scenario('keys alone click a hole and take it out again', {}, async (page) => {
  await choose(page, photograph({ width: 800, height: 600 }).bytes);
  await shown(page);
  assert.equal(await page.part('#photo-table').focused(), true);
  await page.press('ArrowRight');
  await page.press('Enter');
  assert.equal(await page.part('[data-photo-mark]').count(), 1);
  await page.press('Tab');
  await page.press('Enter');
  assert.equal(await page.part('[data-photo-mark]').count(), 0);
  await page.press('Escape');
  assert.equal(await page.part('#photo-desk').visible(), false);
});

scenario('what is no picture, or too large a file, is refused with words', {}, async (page) => {
  const refused = async (message) => {
    await page.until(async () => (await page.part('#notice').attribute('data-tone')) === 'refused', 'a refusal');
    assert.match(await page.notice(), message);
    assert.equal(await page.part('#photo-work').visible(), false);
  };
  await choose(page, 'this is no picture', { name: 'notes.png' });
  await refused(/no picture that this browser can open/);
  await page.evaluate(() => {
    const data = new DataTransfer();
    data.items.add(new File([new Blob([new Uint8Array(1e8), new Uint8Array(1e8)])], 'huge.jpg', { type: 'image/jpeg' }));
    const field = document.getElementById('photo-file');
    field.files = data.files;
    field.dispatchEvent(new Event('change', { bubbles: true }));
  });
  await page.until(async () => /200 MB/.test(await page.notice()), 'its size');
  await refused(/uge\.jpg has 200 MB and cannot be opened: choose a picture of 60 MB at most/);
});

scenario('a picture without a deck is refused, and the deck in hand stays', {}, async (page) => {
  const before = await page.readouts();
  const photo = photograph({ width: 900, height: 700, lens: 400 });
  await choose(page, photo.bytes);
  await shown(page);
  // The holes of a deck far too near: its edge is not in the picture.
  await clickHoles(page, photo.holes, 'mouse');
  await page.part('.photo-hand [data-photo=trace]').click();
  await page.until(async () => (await page.part('#notice').attribute('data-tone')) === 'refused', 'a refusal', 30_000);
  assert.match(await page.notice(), /No clear edge|cannot be told from the ground/);
  assert.deepEqual(await page.readouts(), before);
});

scenario('twelve million pixels never hold the page up', {}, async (page) => {
  const photo = photograph({ width: 4000, height: 3000, tilt: 8 });
  const folder = await mkdtemp(join(tmpdir(), 'photograph-'));
  const path = join(folder, 'deck.png');
  await writeFile(path, photo.bytes);
  await page.evaluate(() => {
    window.longest = 0;
    new PerformanceObserver((list) => {
      window.longest = Math.max(window.longest, ...list.getEntries().map((entry) => entry.duration));
    }).observe({ entryTypes: ['longtask'] });
  });
  await choose(page, undefined, { path });
  await shown(page);
  await clickHoles(page, photo.holes, 'mouse');
  await measureHeight(page);
  await trace(page);
  // A quarter of a second is felt; what the worker does takes many of them.
  const longest = await page.evaluate(() => window.longest);
  assert.ok(longest < 250, `the page stood still for ${longest} ms`);
  await take(page);
  await rm(folder, { recursive: true });
});

scenario('what is under way is shown, can be stopped, and can be begun again', {}, async (page) => {
  const photo = photograph({ width: 4000, height: 3000, tilt: 8 });
  const folder = await mkdtemp(join(tmpdir(), 'photograph-'));
  const path = join(folder, 'deck.png');
  await writeFile(path, photo.bytes);
  await choose(page, undefined, { path });
  await shown(page);
  await clickHoles(page, photo.holes, 'mouse');
  // Pressed as soon as there is something to stop.
  await page.evaluate(() => {
    const busy = document.querySelector('.photo-hand [data-photo-progress]');
    new MutationObserver((_, observer) => {
      if (!busy.hidden) {
        observer.disconnect();
        busy.querySelector('[data-photo=stop]').click();
      }
    }).observe(busy, { subtree: true, attributes: true });
  });
  await page.part('.photo-hand [data-photo=trace]').click();
  await page.until(async () => /^Stopped/.test(await page.notice()), 'the word that it is stopped', 30_000);
  assert.equal(await page.part('.photo-found-hand').visible(), false);
  assert.equal(await page.part('.photo-hand [data-photo-progress]').visible(), false);
  assert.equal(await page.part('[data-photo-mark]').count(), 8);
  assert.equal(await page.undoStep(), null);
  await measureHeight(page);
  await trace(page);
  await take(page);
  await rm(folder, { recursive: true });
});

scenario('a telephone’s JPEG is opened too', {}, async (page) => {
  const photo = photograph({ width: 1600, height: 1200 });
  const jpeg = await page.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (c) => c.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
    canvas.getContext('2d').drawImage(bitmap, 0, 0);
    const blob = await canvas.convertToBlob({ type: 'image/jpeg', quality: 0.9 });
    return btoa(Array.from(new Uint8Array(await blob.arrayBuffer()), (b) => String.fromCharCode(b)).join(''));
  }, photo.bytes.toString('base64'));
  await choose(page, Buffer.from(jpeg, 'base64'), { name: 'deck.jpg', type: 'image/jpeg' });
  await shown(page);
  await clickHoles(page, photo.holes, 'mouse');
  await measureHeight(page);
  await trace(page);
  await take(page);
});
