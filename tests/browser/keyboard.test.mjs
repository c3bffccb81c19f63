// The keyboard alone.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { inCubics, openDemo, placeInHand, turnstone } from './steps.mjs';

/** Presses Tab until what has the focus lies in `part`. */
async function tabInto(page, part) {
  for (let i = 0; i < 60; i++) {
    await page.press('Tab');
    if ((await page.part(`${part} :focus`).count()) > 0) {
      return;
    }
  }
  assert.fail(`the Tab key does not come to ${part}`);
}

scenario('Tab comes to the nodes, arrows move one by a step, Page Up and Down go to its neighbours', {}, async (page) => {
  await tabInto(page, '#handles');
  assert.equal(await page.focused().attribute('role'), 'slider');
  for (const next of ['n1', 'n2', 'n3', 'n4', 'n5']) {
    await page.press('PageUp');
    assert.equal(await page.part('.handle:focus-within').attribute('data-handle'), next);
  }
  assert.match(await page.focused().attribute('aria-valuetext'), /millimetres/);
  const start = await placeInHand(page);
  for (const [key, along, across] of [
    ['ArrowRight', 0.5, 0],
    ['ArrowUp', 0, 0.5],
    ['Shift+ArrowLeft', -5, 0],
    ['Shift+ArrowDown', 0, -5],
    ['ArrowLeft', -0.5, 0],
    ['ArrowDown', 0, -0.5],
    ['Shift+ArrowRight', 5, 0],
    ['Shift+ArrowUp', 0, 5],
  ]) {
    const before = await placeInHand(page);
    await page.press(key);
    const now = await placeInHand(page);
    assert.ok(Math.abs(now.along - before.along - along) < 1e-6, `${key}: ${before.along} to ${now.along}`);
    assert.ok(Math.abs(now.across - before.across - across) < 1e-6, `${key}: ${before.across} to ${now.across}`);
    assert.equal(await page.part('.handle:focus-within').attribute('data-handle'), 'n5', 'the focus stays');
  }
  assert.deepEqual(await placeInHand(page), start);
  await page.press('PageDown');
  assert.equal(await page.part('.handle:focus-within').attribute('data-handle'), 'n4');
});

scenario('on an upright deck an arrow moves the node as it points', sizes.phone, async (page) => {
  assert.notEqual(await page.part('body').attribute('data-upright'), null);
  await page.handle(turnstone.noseBend).part('[role=slider]').first().focus();
  for (const [key, x, y] of [['ArrowUp', 0, -1], ['ArrowLeft', -1, 0], ['ArrowDown', 0, 1], ['ArrowRight', 1, 0]]) {
    const before = await page.handle(turnstone.noseBend).centre();
    await page.press(`Shift+${key}`);
    const now = await page.handle(turnstone.noseBend).centre();
    assert.ok((now.x - before.x) * x + (now.y - before.y) * y > 1, key);
  }
});

scenario('fine steps are a tenth of a millimetre, a sixty-fourth of an inch', {}, async (page) => {
  await page.command('toggle-fine');
  await page.handle(turnstone.widest).part('[role=slider]').first().focus();
  await page.press('ArrowUp');
  const across = page.handle(turnstone.widest).part('[data-axis=across]');
  assert.equal(await across.attribute('aria-valuenow'), '104.875');
  await page.press('Control+z');
  await page.command('units-inch');
  await page.handle(turnstone.widest).part('[role=slider]').first().focus();
  await page.press('ArrowUp');
  assert.equal(await page.field('node-across').value(), '4 9/64');
});

scenario('steps of an arrow held down are one step of undo', {}, async (page) => {
  const before = await page.readouts();
  await page.handle(turnstone.widest).part('[role=slider]').first().focus();
  for (let i = 0; i < 8; i++) {
    await page.press('ArrowDown');
  }
  assert.equal(await page.undoStep(), 'nudged node 9');
  await page.press('Control+z');
  assert.deepEqual(await page.readouts(), before);
});

scenario('the two values of a node are two sliders in the tab ring, those of other nodes are not', {}, async (page) => {
  await page.handle(turnstone.widest).part('[role=slider]').first().focus();
  const stops = page.part('#handles [tabindex="0"]');
  assert.equal(await stops.count(), 2);
  assert.equal(await page.focused().attribute('aria-label'), 'node 9 along');
  await page.press('Tab');
  assert.equal(await page.focused().attribute('aria-label'), 'node 9 across');
  await page.press('Tab');
  assert.equal(await page.part('#handles :focus').count(), 0);
});

scenario('Delete takes the node in focus away, and undo brings it back', {}, async (page) => {
  await page.handle(turnstone.widest).part('[role=slider]').first().focus();
  const before = await page.part('.handle:not(.far).node').count();
  await page.press('Delete');
  assert.equal(await page.part('.handle:not(.far).node').count(), before - 1);
  await page.press('Control+z');
  assert.equal(await page.part('.handle:not(.far).node').count(), before);
});

scenario('a deck is drawn, measured and sent by the keyboard alone', { fragment: inCubics }, async (page) => {
  await page.press('Tab');
  assert.equal(await page.focused().text(), 'To the drawing');
  await tabInto(page, 'header [aria-label=Units]');
  await page.press('Tab');
  await page.press('Enter');
  assert.equal(await page.commandPart('units-inch').attribute('aria-pressed'), 'true');
  await tabInto(page, '#handles');
  await page.press('PageUp');
  await page.press('PageUp');
  await page.press('Shift+ArrowUp');
  assert.equal(await page.field('node-across').value(), '4 3/8');
  assert.equal(await page.shown('overall-width'), '8 3/4');
  await page.commandPart('copy-link').focus();
  await page.press('Enter');
  await page.until(async () => /^Link copied/.test(await page.notice()), 'the link is copied');
});

scenario('undo inside a text field is the field’s own', {}, async (page) => {
  await openDemo(page, 'dunlin');
  await page.dragBy(page.handle('n0'), { y: 8 });
  const after = await page.readouts();
  await page.field('name').focus();
  await page.type('x');
  await page.press('Control+z');
  assert.deepEqual(await page.readouts(), after);
});
