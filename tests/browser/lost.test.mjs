// Nothing is lost: two windows with one design, a full disk.

import assert from 'node:assert/strict';
import { scenario } from './driver.mjs';
import { turnstone } from './steps.mjs';

const copiedFrom = (page) => page.part('body').attribute('data-copy');
const shelf = (page) => page.evaluate(() => [...document.querySelectorAll('[data-shelf]')].map((e) => e.textContent));

scenario('two windows with one design do not overwrite each other', {}, async (page) => {
  await page.dragBy(page.handle(turnstone.widest), { y: 14 });
  await page.saved();
  const shared = await page.readouts();
  const other = await page.beside();
  assert.equal(await copiedFrom(other), 'window');
  assert.deepEqual(await other.readouts(), shared, 'a copy of it as it was');
  assert.equal(await other.part('.from-window').visible(), true);
  assert.equal(await other.part('.from-link').visible(), false);
  assert.deepEqual(await other.violations(), []);

  await other.dragBy(other.handle(turnstone.noseBend), { y: 12 });
  await other.enter('name', 'Beside');
  await other.saved();
  assert.equal(await copiedFrom(other), null, 'kept on its own from its first change');
  await page.dragBy(page.handle(turnstone.tailBend), { y: 10 });
  await page.saved();
  const [mine, beside] = [await page.readouts(), await other.readouts()];
  assert.notDeepEqual(mine, beside);

  await other.closeWindow();
  await page.reload();
  assert.equal(await copiedFrom(page), null);
  assert.deepEqual(await page.readouts(), mine, 'the one of the window that is left');
  assert.deepEqual((await shelf(page)).sort(), ['Beside', 'Turnstone']);
  await page.room('cut');
  await page.role('button', 'Beside').last().click();
  await page.until(async () => (await page.field('name').value()) === 'Beside', 'the other from the shelf');
  assert.deepEqual(await page.readouts(), beside);
  assert.equal(await copiedFrom(page), null, 'its window is closed, so that it is no copy');
});

scenario('a window that is loaded anew has its own design again, not a copy', {}, async (page) => {
  await page.dragBy(page.handle(turnstone.widest), { y: 14 });
  for (let i = 0; i < 5; i++) {
    await page.saved();
    await page.reload();
    assert.equal(await copiedFrom(page), null);
  }
});

scenario('a full disk is a message and a file to save, and no step is missing when there is room again', {}, async (page) => {
  await page.dragBy(page.handle(turnstone.widest), { y: 14 });
  await page.saved();
  await page.fullDisk();
  await page.enter('name', 'Too long for the disk');
  await page.dragBy(page.handle(turnstone.noseBend), { y: 12 });
  const failed = async () => (await page.part('body').attribute('data-keeping')) === 'failed';
  await page.until(failed, 'the failure to be noticed');
  assert.match(await page.notice(), /could not keep the change: save a file/);
  assert.equal(await page.part('.not-kept').visible(), true);
  assert.deepEqual(await page.violations(), []);
  const mine = await page.readouts();
  const { name, bytes } = await page.download(() => page.part('.not-kept [data-command=save-file]').click());
  assert.equal(name, 'too-long-for-the-disk.json');
  assert.match(new TextDecoder().decode(bytes), /"name": "Too long for the disk"/);

  await page.fullDisk(false);
  await page.enter('name', 'Room again');
  await page.saved();
  assert.equal(await page.part('.not-kept').visible(), false);
  await page.reload();
  assert.deepEqual(await page.readouts(), mine);
  await page.command('undo');
  await page.command('undo');
  assert.equal(await page.undoStep(), 'renamed the deck', 'the steps that were not kept then are');
});
