// The page in one file, opened from a disk.

import assert from 'node:assert/strict';
import { stat } from 'node:fs/promises';
import { test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { scenario } from './driver.mjs';
import { photograph } from './photograph.mjs';
import { choose, clickHoles, measureHeight, shown, take, trace } from './photograph-steps.mjs';
import { oneFile } from './server.mjs';

const url = pathToFileURL(oneFile).href;

/** Where `tests/run` says that a copy of the page is published. */
const address = 'https://deck.example/';

test('the one file takes less than a megabyte', async () => {
  const { size } = await stat(oneFile);
  assert.ok(size < 1e6, `${size} bytes`);
});

scenario('the one file does the whole job from a disk, and what it keeps is there the next time', { url }, async (page) => {
  await page.offline();
  const before = await page.readout('area');
  await page.dragBy(page.handle('n2'), { y: 14 });
  await page.enter('overall-width', '212');
  assert.notEqual(await page.readout('area'), before);
  assert.ok(Math.abs((await page.readout('overall-width')) - 212) < 1e-3);
  await page.saved();
  const mine = await page.readouts();
  await page.screenshot('one file');
  await page.room('cut');
  for (const kind of ['svg', 'dxf', 'pdf']) {
    const { name, bytes } = await page.download(() => page.command(`export-${kind}`));
    assert.equal(name, `turnstone.${kind}`);
    assert.ok(bytes.length > 1000, name);
  }
  const file = await page.download(() => page.command('save-file'));
  await page.command('open-dunlin');
  await page.upload(() => page.command('open-file'), { ...file, type: 'application/json' });
  await page.until(async () => (await page.field('name').value()) === 'Turnstone', 'the saved file');
  assert.deepEqual(await page.readouts(), mine);
  await page.saved();
  await page.reload();
  assert.deepEqual(await page.readouts(), mine);
});

scenario('links of the one file begin where the page is published, and a pasted link opens as a copy', { url }, async (page) => {
  await page.dragBy(page.handle('n2'), { y: 14 });
  await page.saved();
  const mine = await page.readouts();
  await page.command('copy-link');
  const link = await page.part('#link').value();
  assert.ok(link.startsWith(`${address}#d=`), link);
  await page.room('cut');
  await page.command('open-dunlin');
  await page.saved();
  await page.part('#pasted').fill(`  ${link}\n`);
  await page.commandPart('open-link').click();
  assert.deepEqual(await page.readouts(), mine);
  assert.equal(await page.part('.came-with-link').visible(), true);
  assert.equal(await page.part('#pasted').value(), '');
  await page.command('go-back');
  await page.until(async () => (await page.field('name').value()) === 'Dunlin', 'mine again');
});

scenario('a photograph is brought in from a disk, by a worker that is in the file too', { url }, async (page) => {
  await page.offline();
  const photo = photograph({ tilt: 10 });
  await choose(page, photo.bytes);
  await shown(page);
  await clickHoles(page, photo.holes, 'mouse');
  await measureHeight(page);
  await trace(page);
  await page.screenshot('one file photograph');
  await take(page);
  assert.deepEqual(await page.violations(), []);
});

scenario('a pasted text that is no link says what is wrong, at its field', { url }, async (page) => {
  await page.room('cut');
  const name = await page.field('name').value();
  for (const [text, words] of [
    ['', /carries no deck/],
    ['https://deck.example/', /carries no deck/],
    ['https://deck.example/#d=AQAB', /damaged/],
    ['x'.repeat(50_000), /has 50000 characters/],
  ]) {
    await page.part('#pasted').fill(text);
    await page.press('Enter');
    assert.match(await page.part('#pasted-why').content(), words);
    assert.equal(await page.part('#pasted').attribute('aria-invalid'), 'true');
  }
  assert.deepEqual(await page.violations(), []);
  assert.equal(await page.field('name').value(), name);
});

scenario('nothing in the one file can run a script that is not in it', { url }, async (page) => {
  const outcome = await page.evaluate(async () => {
    await new Promise((done) => setTimeout(done)); // what is run by the test itself may evaluate texts
    const attempts = {
      html: () => (document.body.innerHTML = '<p>'),
      policy: () => trustedTypes.createPolicy('other', {}),
      worker: () => new Worker('worker.js'),
      eval: () => new Function('return 1')(),
    };
    return Object.entries(attempts).filter(([, attempt]) => {
      try {
        attempt();
        return true;
      } catch {
        return false;
      }
    }).map(([name]) => name);
  });
  assert.deepEqual(outcome, []);
  // Each refusal is reported, and is no fault here.
  await page.until(async () => (await page.report(), page.errors.length >= 4), 'the reports');
  assert.deepEqual(page.errors.splice(0).filter((error) => !/has been blocked|violates/.test(error)), []);
});

scenario('the one file has its languages inside', { url, locale: 'de-DE' }, async (page) => {
  await page.offline();
  await page.reload();
  assert.equal(await page.part('html').attribute('lang'), 'de');
  assert.equal(await page.part('[data-room=layup]').text(), '2 Lagen');
  await page.enter('overall-width', '212,5');
  assert.equal(await page.shown('overall-width'), '212,5');
});
