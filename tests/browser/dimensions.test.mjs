// Dimensions typed on the shape, and held under what comes after.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { openDemo, turnstone } from './steps.mjs';

const near = (a, b, what) => assert.ok(Math.abs(a - b) < 1e-3, `${what}: ${a}, not ${b}`);

scenario('8 1/4 typed as the width makes the deck that wide, in one step', {}, async (page) => {
  await openDemo(page, 'dunlin');
  await page.command('units-inch');
  const before = await page.readouts();
  await page.enter('overall-width', '8 1/4');
  near(await page.readout('overall-width'), 209.55, 'width');
  assert.equal(await page.shown('overall-width'), '8 1/4');
  near(await page.readout('overall-length'), Number(before['overall-length']), 'length');
  assert.equal(await page.undoStep(), 'set width');
  await page.command('undo');
  assert.deepEqual(await page.readouts(), before);
});

for (const [key, value] of [
  ['overall-length', 730],
  ['waist-width', 180],
  ['waist-length', 120],
  ['rail-run-fore', 125],
  ['nose-kick-length', 160],
  ['nose-kick-taper', 14],
  ['nose-tip-radius', 70],
  ['wheelbase', 310],
]) {
  scenario(`the twin’s ${key} can be typed`, {}, async (page) => {
    await openDemo(page, 'dunlin');
    await page.enter(key, String(value));
    if (key !== 'wheelbase') {
      near(await page.readout(key), value, key);
    }
    assert.equal(await page.field(key).value(), String(value));
    assert.equal(await page.field(key).attribute('aria-invalid'), null);
    assert.notEqual(await page.undoStep(), 'opened');
  });
}

scenario('what cannot be met is refused with the nearest value that can, beside the field', {}, async (page) => {
  const before = await page.readouts();
  await page.enter('overall-width', '400');
  const field = page.field('overall-width');
  assert.equal(await field.attribute('aria-invalid'), 'true');
  const message = page.part(`#${await field.attribute('aria-describedby')}`);
  assert.match(await message.text(), /nearest is 320/);
  assert.deepEqual(await page.readouts(), before);
  await page.enter('overall-width', '320');
  near(await page.readout('overall-width'), 320, 'width');
});

scenario('a waist cannot be set where there is none', {}, async (page) => {
  assert.equal(await page.field('waist-width').enabled(), false);
});

for (const [name, size] of Object.entries(sizes)) {
  scenario(`a taper among the large figures can be held on a ${name}`, { ...size, touch: true }, async (page) => {
    for (const end of ['nose', 'tail']) {
      const lock = page.part(`[data-lock="${end}-kick-taper"]`);
      await lock.tap();
      assert.equal(await lock.attribute('aria-pressed'), 'true');
      assert.equal(await page.undoStep(), `locked ${end} kick taper`);
    }
  });
}

scenario('a held dimension stays while the edge is dragged, and is let go again', { ...sizes.tablet, touch: true }, async (page) => {
  await page.part('[data-lock="overall-length"]').click();
  assert.equal(await page.undoStep(), 'locked length');
  const length = await page.readout('overall-length');
  await page.dragBy(page.handle(turnstone.tailBend), { x: 6, y: 18 }, { by: 'touch' });
  assert.match(await page.undoStep(), /moved/);
  near(await page.readout('overall-length'), length, 'length');
  const tip = () => page.part('.handle[aria-label="the nose tip"]'); // nodes may have come before it
  await page.dragBy(tip(), { x: -6 }, { by: 'touch' });
  near(await page.readout('overall-length'), length, 'length');
  await page.part('[data-lock="overall-length"]').click();
  await page.dragBy(tip(), { x: 20 }, { by: 'touch' });
  assert.ok(Math.abs((await page.readout('overall-length')) - length) > 1);
});
