// Adding and deleting nodes, corners, straight spans, twins, and the limits of a valid outline.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { inCubics, placeInHand, select } from './steps.mjs';

const nodes = (page) => page.part('.handle:not(.far):not(.off-curve)').count();

/** Touches the edge of the first demo deck in cubics halfway between the middle and the nose shoulder. */
async function touchEdge(page) {
  const [a, b] = [await page.handle('n2').centre(), await page.handle('n3').centre()];
  await (await page.grab({ x: (a.x + b.x) / 2, y: a.y + 1 })).release();
  assert.equal(await page.part('body').attribute('data-selected'), 'span');
}

scenario('a node added on the edge leaves the curve as it is; deleted it leaves five again', { fragment: inCubics }, async (page) => {
  const before = await page.readouts();
  await touchEdge(page);
  await page.command('add-node');
  assert.equal(await nodes(page), 6);
  const after = await page.readouts();
  for (const key of ['area', 'perimeter', 'nose-kick-taper', 'overall-width']) {
    assert.ok(Math.abs(after[key] - before[key]) < 1e-4 * Math.abs(before[key]), key);
  }
  assert.equal(await page.handle('n3').attribute('class').then((name) => name.includes('selected')), true);
  await page.command('delete-node');
  assert.equal(await nodes(page), 5);
  await page.command('undo');
  await page.command('undo');
  assert.deepEqual(await page.readouts(), before);
});

scenario('a tip cannot be deleted', { fragment: inCubics }, async (page) => {
  await select(page, 'n4');
  assert.equal(await page.commandPart('delete-node').enabled(), false);
});

scenario('a smooth node becomes a corner and smooth again', { fragment: inCubics }, async (page) => {
  await select(page, 'n3');
  assert.equal(await page.commandPart('toggle-corner').attribute('aria-pressed'), 'false');
  await page.command('toggle-corner');
  assert.equal(await page.commandPart('toggle-corner').attribute('aria-pressed'), 'true');
  assert.match(await page.handle('n3').attribute('class'), /corner/);
  const before = await page.handle('h2-end').centre();
  await page.dragBy(page.handle('h3-start'), { y: 20 });
  await select(page, 'n3');
  const now = await page.handle('h2-end').centre();
  assert.ok(Math.hypot(now.x - before.x, now.y - before.y) < 0.5, 'the other handle of a corner stays');
  await page.command('toggle-corner');
  assert.equal(await page.commandPart('toggle-corner').attribute('aria-pressed'), 'false');
});

scenario('a span is straightened, bent again as a batten, and given handles', { fragment: inCubics }, async (page) => {
  const pressed = (command) => page.commandPart(command).attribute('aria-pressed');
  await touchEdge(page);
  await page.command('toggle-straight');
  assert.equal(await pressed('toggle-straight'), 'true');
  assert.equal(await page.handle('h2-start').count(), 0, 'a straight span has no handles');
  await page.command('toggle-straight');
  assert.equal(await pressed('toggle-straight'), 'false');
  assert.equal(await pressed('toggle-batten'), 'true');
  await page.command('toggle-batten');
  assert.equal(await pressed('toggle-batten'), 'false');
  assert.equal(await page.handle('h2-start').count(), 1);
});

scenario('a deck becomes a twin, its tail the nose reversed, and may differ again', { fragment: inCubics }, async (page) => {
  assert.equal(await page.commandPart('toggle-twin').attribute('aria-pressed'), 'false');
  await page.command('toggle-twin');
  const twin = await page.readouts();
  for (const key of ['kick-taper', 'tip-radius', 'fullness']) {
    assert.equal(twin[`nose-${key}`], twin[`tail-${key}`], key);
  }
  await page.command('toggle-twin');
  assert.equal(await page.commandPart('toggle-twin').attribute('aria-pressed'), 'false');
  await page.dragBy(page.handle((await nodes(page)) === 5 ? 'n3' : 'n4'), { y: 12 });
  assert.notEqual(await page.readout('nose-kick-taper'), await page.readout('tail-kick-taper'));
});

scenario('the bolt holes stop the edge, with a mark and a message, and the way back is free', { fragment: inCubics }, async (page) => {
  const hold = await page.grab(page.handle('n3'));
  const middle = await page.handle('n4').centre();
  await hold.move({ x: hold.place.x, y: middle.y - 10 }, 12);
  assert.equal(await page.part('[data-item=limit]').count(), 1);
  assert.match(await page.notice(), /bolt hole/);
  assert.equal(await page.part('#notice').attribute('data-tone'), 'refused');
  const stopped = await placeInHand(page);
  assert.ok(stopped.across > 12, JSON.stringify(stopped));
  await hold.moveBy({ x: 3, y: 40 }, 6);
  await hold.moveBy({ x: -3, y: -40 }, 6);
  assert.deepEqual(await placeInHand(page), stopped, 'the limit lies where it lay, however one got there');
  await hold.moveBy({ y: -60 }, 6);
  assert.equal(await page.part('[data-item=limit]').count(), 0);
  assert.equal(await page.notice(), '');
  await hold.moveBy({ y: 60 }, 6);
  await hold.release();
  assert.equal(await page.part('[data-item=limit]').count(), 0, 'the mark goes with the hand');
  assert.deepEqual(await placeInHand(page), stopped);
  assert.equal(await page.undoStep(), 'moved node 4');
});

scenario('no drag takes the edge across the centreline or itself', { ...sizes.tablet, touch: true, fragment: inCubics }, async (page) => {
  for (const [id, by] of [['n2', { y: 300 }], ['n0', { x: 500 }], ['n4', { x: -400, y: 90 }], ['n1', { x: 350 }], ['n3', { x: -300, y: -60 }]]) {
    const hold = await page.grab(page.handle(id), { by: 'touch' });
    await hold.moveBy(by, 8);
    await hold.release();
    const values = Object.values(await page.readouts());
    assert.ok(values.every((value) => value === '' || Number.isFinite(Number(value))), `${id}: ${values}`);
    assert.ok((await page.readout('area')) > 20_000, id);
  }
});

scenario('a typed place beyond the limit is refused in words, and the node stays', { fragment: inCubics }, async (page) => {
  await select(page, 'n1');
  await page.enter('node-across', '-20');
  assert.equal(await page.field('node-across').attribute('aria-invalid'), 'true');
  assert.match(await page.notice(), /centreline|hole/);
  assert.equal(await page.undoStep(), null);
});

scenario('the buttons go from node to node and round again', { fragment: inCubics }, async (page) => {
  const selected = () => page.part('.handle.selected:not(.far):not(.off-curve)').attribute('data-handle');
  const seen = [];
  for (let i = 0; i < 6; i++) {
    await page.command('next-node');
    seen.push(await selected());
  }
  assert.deepEqual(seen, ['n0', 'n1', 'n2', 'n3', 'n4', 'n0']);
  await page.command('previous-node');
  assert.equal(await selected(), 'n4');
});

scenario('redrawing is reached with a node in hand, says how to leave it, and gives the node back', { ...sizes.phone, touch: true, fragment: inCubics }, async (page) => {
  await select(page, 'n2');
  assert.equal(await page.commandPart('redraw').visible(), false);
  await page.command('redraw');
  assert.equal(await page.part('.when-redrawing').visible(), true);
  assert.equal(await page.part('.when-not-redrawing').visible(), false);
  assert.equal(await page.field('node-along').visible(), false);
  await page.commandPart('redraw').click();
  assert.equal(await page.part('body').attribute('data-redrawing'), null);
  assert.equal(await page.field('node-along').visible(), true);
});
