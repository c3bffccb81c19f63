// Dragging a node or a handle: what follows, what changes, and what does not.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { inCubics, openDemo, placeInHand, turnstone } from './steps.mjs';

for (const by of ['mouse', 'touch', 'pen']) {
  scenario(`dragging the waist of the twin by ${by} changes area, taper and glue under the hand`, { touch: by === 'touch' }, async (page) => {
    await openDemo(page, 'dunlin');
    const before = await page.readouts();
    const hold = await page.grab(page.handle('n0'), { by });
    const start = await page.handle('n0').centre();
    await hold.moveBy({ y: 16 });
    const during = await page.readouts();
    for (const key of ['area', 'glue-inside-share', 'waist-width', 'waist-depth', 'perimeter']) {
      assert.notEqual(during[key], before[key], `${key} while dragging`);
    }
    assert.equal(during['platform-length'], before['platform-length'], 'the bolts and bend lines stay');
    const now = await page.handle('n0').centre();
    assert.ok(Math.abs(now.y - start.y - 16) < 0.6 && Math.abs(now.x - start.x) < 0.6, 'the node is under the hand');
    await hold.release();
    assert.deepEqual(await page.readouts(), during, 'what was shown is what stays');
  });

  scenario(`dragging the shoulder by ${by} changes the taper of its kick only`, { touch: by === 'touch' }, async (page) => {
    const before = await page.readouts();
    await page.dragBy(page.handle(turnstone.noseBend), { y: 16 }, { by });
    const after = await page.readouts();
    assert.notEqual(after['nose-kick-taper'], before['nose-kick-taper']);
    const there = Number(after['tail-kick-taper']) - Number(before['tail-kick-taper']);
    assert.ok(Math.abs(there) < 1e-3, `what a batten gives at its other end is not seen: ${there}°`);
  });
}

scenario('dragging the nose tip of a deck without nose kick changes the platform', {}, async (page) => {
  await openDemo(page, 'whimbrel');
  const before = await page.readouts();
  await page.dragBy(page.handle('n17'), { x: -12 });
  const after = await page.readouts();
  const change = (key) => Number(after[key]) - Number(before[key]);
  assert.ok(change('overall-length') < -5);
  assert.ok(Math.abs(change('platform-length') - change('overall-length')) < 1e-6);
});

for (const [copy, along, across] of [
  ['', 1, 1],
  ['~mirror', 1, -1],
  ['~tail', -1, 1],
  ['~tail~mirror', -1, -1],
]) {
  scenario(`all copies of the twin follow when the node n5${copy} is dragged`, {}, async (page) => {
    await openDemo(page, 'dunlin');
    await page.handle('n5').click();
    const before = await placeInHand(page);
    const hold = await page.grab(page.handle(`n5${copy}`));
    await hold.moveBy({ x: 9 * along, y: 7 * across });
    const after = await placeInHand(page);
    assert.ok(after.along > before.along + 2 && after.across < before.across - 2, JSON.stringify([before, after]));
    const middle = await page.handle('n0').centre();
    const drawn = await page.handle('n5').centre();
    const tail = await page.handle('n5~tail').centre();
    const mirror = await page.handle('n5~mirror').centre();
    const far = await page.handle('n5~tail~mirror').centre();
    const near = (a, b) => assert.ok(Math.abs(a - b) < 0.3, `${a} and ${b}`);
    near(drawn.x - middle.x, middle.x - tail.x);
    near(drawn.y, tail.y);
    near(mirror.x, drawn.x);
    near(far.x, tail.x);
    near(far.y, mirror.y);
    await hold.release();
  });
}

scenario('one drag is one step, taken back and brought back by buttons', {}, async (page) => {
  const before = await page.readouts();
  assert.equal(await page.commandPart('undo').enabled(), false);
  await page.dragBy(page.handle(turnstone.widest), { x: 30, y: 14 }, { steps: 25 });
  const after = await page.readouts();
  assert.match(await page.undoStep(), /^moved node 9$/);
  await page.command('undo');
  assert.deepEqual(await page.readouts(), before);
  assert.equal(await page.commandPart('undo').enabled(), false);
  await page.command('redo');
  assert.deepEqual(await page.readouts(), after);
  assert.equal(await page.commandPart('redo').enabled(), false);
});

scenario('undo and redo go by keys, each of the two ways to redo', {}, async (page) => {
  const before = await page.readouts();
  await page.dragBy(page.handle(turnstone.widest), { y: 14 });
  const after = await page.readouts();
  for (const redo of ['Control+y', 'Control+Shift+z']) {
    await page.press('Control+z');
    assert.deepEqual(await page.readouts(), before);
    await page.press(redo);
    assert.deepEqual(await page.readouts(), after);
  }
});

scenario('a handle off the curve bends the edge and leaves its node', { fragment: inCubics }, async (page) => {
  await page.handle('n3').click();
  const node = await page.handle('n3').centre();
  const before = await page.readouts();
  await page.dragBy(page.handle('h3-start'), { x: 40 });
  assert.notEqual(await page.readout('area'), Number(before.area));
  const now = await page.handle('n3').centre();
  assert.ok(Math.hypot(now.x - node.x, now.y - node.y) < 0.3);
});

for (const [name, size] of Object.entries(sizes)) {
  scenario(`the node stays under the finger on a ${name}, whatever is selected for it`, { ...size, touch: true }, async (page) => {
    const start = await page.handle(turnstone.widest).centre();
    const hold = await page.grab({ x: start.x + 7, y: start.y - 6 }, { by: 'touch' });
    for (const by of [{ x: 14, y: 9 }, { x: -5, y: 16 }, { x: 6, y: -4 }]) {
      await hold.moveBy(by, 3);
      const now = await page.handle(turnstone.widest).centre();
      const off = Math.hypot(now.x - hold.place.x + 7, now.y - hold.place.y - 6);
      assert.ok(off < 0.6, `the node is ${off.toFixed(2)} px away from where the finger has it`);
    }
    await hold.release();
  });
}
