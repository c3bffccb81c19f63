// Gestures that must change nothing, and those that move the window.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { emptyPlace, scaleOfTurnstone, turnstone } from './steps.mjs';

const slop = { mouse: 3, pen: 5, touch: 10 };

/** All that a gesture could have changed. */
async function state(page) {
  return {
    readouts: await page.readouts(),
    edge: await page.part('[data-item=edge]').attribute('d'),
    step: await page.undoStep(),
    revision: await page.part('body').attribute('data-revision'),
  };
}

for (const by of Object.keys(slop)) {
  scenario(`Esc while dragging by ${by} puts everything back as it was`, { touch: true }, async (page) => {
    const before = await state(page);
    const hold = await page.grab(page.handle(turnstone.widest), { by });
    await hold.moveBy({ x: 20, y: 25 });
    assert.notEqual((await state(page)).edge, before.edge);
    await page.press('Escape');
    assert.deepEqual(await state(page), before);
    await hold.moveBy({ y: 10 });
    await hold.release();
    assert.deepEqual(await state(page), before, 'and the rest of the gesture means nothing');
  });

  scenario(`a tap by ${by} that trembles within ${slop[by]} px changes nothing`, { touch: true }, async (page) => {
    const before = await state(page);
    const hold = await page.grab(page.handle(turnstone.widest), { by });
    await hold.moveBy({ x: slop[by] - 1 }, 2);
    await hold.moveBy({ x: 2 - slop[by], y: slop[by] / 2 }, 2);
    await hold.release();
    assert.deepEqual(await state(page), before);
    assert.equal(await page.part('body').attribute('data-selected'), 'node');
  });
}

scenario('a touch that the system takes away puts everything back as it was', { touch: true }, async (page) => {
  const before = await state(page);
  const hold = await page.grab(page.handle(turnstone.tailBend), { by: 'touch' });
  await hold.moveBy({ x: 30, y: 30 });
  await hold.cancel();
  assert.deepEqual(await state(page), before);
  await page.dragBy(page.handle(turnstone.tailBend), { y: 20 }, { by: 'touch' });
  assert.notEqual((await state(page)).edge, before.edge, 'and the next drag works');
});

scenario('a second finger before the slop is passed means the window, not the node', { touch: true }, async (page) => {
  const before = await state(page);
  const scale = await scaleOfTurnstone(page);
  const first = await page.grab(page.handle(turnstone.widest), { by: 'touch' });
  const second = await page.grab({ x: first.place.x + 120, y: first.place.y + 60 }, { by: 'touch' });
  await second.moveBy({ x: 100, y: 50 });
  await first.moveBy({ x: -20, y: 10 });
  await second.release();
  await first.moveBy({ x: 15, y: 15 });
  await first.release();
  assert.ok((await scaleOfTurnstone(page)) > 1.3 * scale, 'the window came nearer');
  assert.deepEqual((await state(page)).readouts, before.readouts);
  assert.equal((await state(page)).step, null);
});

scenario('two fingers come nearer by as much as they part, about what lies between them', { ...sizes.tablet, touch: true }, async (page) => {
  const scale = await scaleOfTurnstone(page);
  const { x, y } = await page.handle(turnstone.noseBend).centre();
  // Fingers begin and end on whole pixels: not every browser tells of parts of one.
  const between = { x: Math.round(x + 20), y: Math.round(y + 70) };
  await page.pinch(between, { from: 80, to: 200, angle: Math.atan2(3, 4) });
  const nearer = (await scaleOfTurnstone(page)) / scale;
  assert.ok(Math.abs(nearer - 2.5) < 0.03, `nearer by ${nearer}`);
  const now = await page.handle(turnstone.noseBend).centre();
  assert.ok(Math.hypot(now.x - between.x + 50, now.y - between.y + 175) < 4, 'the place between them stays');
  assert.equal(await page.undoStep(), null);
  await page.command('fit');
  assert.ok(Math.abs((await scaleOfTurnstone(page)) / scale - 1) < 1e-3);
});

scenario('the wheel comes nearer about the pointer, sideways it pushes', {}, async (page) => {
  const scale = await scaleOfTurnstone(page);
  const before = await page.handle(turnstone.noseBend).centre();
  // A wheel reports whole pixels: what it turns about lies on one.
  const at = { x: Math.round(before.x), y: Math.round(before.y) };
  await page.wheel(at, { y: -400 });
  assert.ok(Math.abs((await scaleOfTurnstone(page)) / scale - 2) < 0.02);
  const nearer = await page.handle(turnstone.noseBend).centre();
  assert.ok(Math.hypot(nearer.x - at.x - 2 * (before.x - at.x), nearer.y - at.y - 2 * (before.y - at.y)) < 0.3);
  await page.wheel(at, { x: 90 });
  assert.ok(Math.abs((await page.handle(turnstone.noseBend).centre()).x - nearer.x + 90) < 1);
});

scenario('dragging beside the deck pushes the window', {}, async (page) => {
  const before = await page.handle(turnstone.widest).centre();
  const from = await emptyPlace(page);
  await page.drag(from, { x: from.x - 60, y: from.y - 40 });
  const now = await page.handle(turnstone.widest).centre();
  assert.ok(Math.abs(now.x - before.x + 60) < 1 && Math.abs(now.y - before.y + 40) < 1);
  assert.equal(await page.undoStep(), null);
});

scenario('buttons come nearer, go farther and look about', sizes.phone, async (page) => {
  const scale = await scaleOfTurnstone(page);
  await page.command('zoom-in');
  assert.ok(Math.abs((await scaleOfTurnstone(page)) / scale - 1.5) < 0.01);
  await page.command('zoom-out');
  assert.ok(Math.abs((await scaleOfTurnstone(page)) / scale - 1) < 0.01);
  for (const [command, x, y] of [['left', 1, 0], ['right', -1, 0], ['up', 0, 1], ['down', 0, -1]]) {
    const before = await page.handle(turnstone.widest).centre();
    await page.command(`pan-${command}`);
    const now = await page.handle(turnstone.widest).centre();
    assert.ok(Math.abs(now.x - before.x - 120 * x) < 1 && Math.abs(now.y - before.y - 120 * y) < 1, command);
  }
});

scenario('a locked drawing lets nothing be moved', {}, async (page) => {
  const before = await page.readouts();
  await page.command('toggle-lock');
  await page.dragBy(page.handle(turnstone.widest), { y: 40 });
  assert.deepEqual(await page.readouts(), before);
  await page.command('fit');
  await page.handle(turnstone.widest).part('[role=slider]').first().focus();
  await page.press('ArrowUp');
  assert.match(await page.notice(), /locked/);
  assert.deepEqual(await page.readouts(), before);
  await page.command('toggle-lock');
  await page.dragBy(page.handle(turnstone.widest), { y: 40 });
  assert.notDeepEqual(await page.readouts(), before);
});
