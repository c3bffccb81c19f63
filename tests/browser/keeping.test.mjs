// Nothing is lost: what the browser keeps, and the shelf.

import assert from 'node:assert/strict';
import { scenario } from './driver.mjs';
import { openDemo, turnstone } from './steps.mjs';

const shelf = async (page) => page.evaluate(() => [...document.querySelectorAll('[data-shelf]')].map((e) => e.textContent));

scenario('a reload brings back the design with its whole history', {}, async (page) => {
  const first = await page.readouts();
  await page.dragBy(page.handle(turnstone.widest), { y: 14 });
  const second = await page.readouts();
  await page.dragBy(page.handle(turnstone.noseBend), { y: 12 });
  const third = await page.readouts();
  await page.enter('name', 'Godwit');
  await page.command('undo');
  await page.command('undo');
  await page.saved();
  await page.reload();
  assert.deepEqual(await page.readouts(), second, 'where it was left, halfway back');
  await page.command('redo');
  assert.deepEqual(await page.readouts(), third);
  await page.command('redo');
  assert.equal(await page.field('name').value(), 'Godwit');
  for (let i = 0; i < 3; i++) {
    await page.command('undo');
  }
  assert.deepEqual(await page.readouts(), first);
  assert.equal(await page.commandPart('undo').enabled(), false);
});

scenario('a change after an undo, kept, does not bring the undone step back', {}, async (page) => {
  await page.dragBy(page.handle(turnstone.widest), { y: 14 });
  await page.command('undo');
  await page.dragBy(page.handle(turnstone.noseBend), { y: 12 });
  const after = await page.readouts();
  await page.saved();
  await page.reload();
  assert.deepEqual(await page.readouts(), after);
  assert.equal(await page.commandPart('redo').enabled(), false);
  assert.equal(await page.undoStep(), 'moved node 12');
});

scenario('a change is kept within a tenth of a second or so', {}, async (page) => {
  await page.dragBy(page.handle(turnstone.widest), { y: 14 });
  const start = Date.now();
  await page.saved();
  assert.ok(Date.now() - start < 1000, 'a busy machine is allowed ten times as long');
  assert.equal(await page.part('body').attribute('data-keeping'), 'kept');
});

scenario('every deck that was changed is on the shelf, and comes down as it was left', {}, async (page) => {
  await page.dragBy(page.handle(turnstone.widest), { y: 14 });
  const mine = await page.readouts();
  await openDemo(page, 'dunlin');
  await page.dragBy(page.handle('n0'), { y: 8 });
  await page.saved();
  assert.deepEqual(await shelf(page), ['Dunlin', 'Turnstone']);
  await page.room('cut');
  await page.role('button', 'Turnstone').last().click();
  await page.until(async () => (await page.field('name').value()) === 'Turnstone', 'the deck from the shelf');
  assert.deepEqual(await page.readouts(), mine);
  assert.equal(await page.undoStep(), 'moved node 9');
  await page.saved();
  await page.reload();
  assert.deepEqual(await page.readouts(), mine, 'and is the one that opens next time');
  assert.deepEqual(await shelf(page), ['Turnstone', 'Dunlin']);
});

scenario('a second deck of the same name is another deck', {}, async (page) => {
  await page.dragBy(page.handle(turnstone.widest), { y: 14 });
  const mine = await page.readouts();
  await openDemo(page, 'turnstone');
  assert.notDeepEqual(await page.readouts(), mine);
  assert.deepEqual(await shelf(page), ['Turnstone', 'Turnstone']);
});

scenario('how things are shown stays after a reload', {}, async (page) => {
  await page.command('units-inch');
  await page.command('toggle-comb');
  await page.reload();
  assert.equal(await page.commandPart('units-inch').attribute('aria-pressed'), 'true');
  assert.equal(await page.part('[data-item=comb]').count(), 1);
});
