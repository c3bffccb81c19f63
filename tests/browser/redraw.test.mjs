// Drawing a stretch anew by hand, and fairing one.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { openDemo, select, turnstone } from './steps.mjs';

/**
 * A stroke over the nose of the upper half of Turnstone: from the node before it, as the edge runs there, round to the
 * tip, fuller than it is, with a hand's wobble on it, px; `beside` is how far off the edge it begins, px.
 */
async function overTheNose(page, wobble = 0, beside = 0) {
  const [from, tip] = [await page.handle(turnstone.noseBend).centre(), await page.handle(turnstone.noseTip).centre()];
  const scale = (tip.x - from.x) / 158.75;
  const [p, q, r, s] = [[254, 100.8], [372, 92.77], [412.75, 64], [412.75, 0]];
  return Array.from({ length: 60 }, (_, i) => {
    const t = i / 59;
    const at = (k) => (1 - t) ** 3 * p[k] + 3 * (1 - t) ** 2 * t * q[k] + 3 * (1 - t) * t ** 2 * r[k] + t ** 3 * s[k];
    const off = wobble * Math.sin(i * 2.1);
    return { x: tip.x + (at(0) - 412.75) * scale + off, y: tip.y - at(1) * scale + off - beside * (1 - t) };
  });
}

/** Draws through places with the pen, a finger or the mouse. */
async function stroke(page, places, by) {
  const hold = await page.grab(places[0], { by });
  for (const place of places.slice(1)) {
    await hold.move(place, 1);
  }
  await hold.release();
}

for (const by of ['pen', 'touch', 'mouse']) {
  scenario(`a stroke of the ${by} over the nose is the new nose, mirrored, in one step`, { touch: by === 'touch' }, async (page) => {
    const before = await page.readouts();
    const places = await overTheNose(page, 1);
    await page.command('redraw');
    assert.notEqual(await page.part('body').attribute('data-redrawing'), null);
    await stroke(page, places, by);
    assert.equal(await page.undoStep(), 'redrew a stretch');
    const after = await page.readouts();
    assert.notEqual(after.area, before.area);
    assert.ok(Math.abs(after['overall-length'] - before['overall-length']) < 1, 'the tip stays where the stroke ends');
    const there = Number(after['tail-kick-taper']) - Number(before['tail-kick-taper']);
    assert.ok(Math.abs(there) < 1e-3, `the tail stays but for what a batten gives: ${there}°`);
    // The hand wobbled by a pixel, sixty times; the curve has no hollow from it.
    assert.equal(after['smallest-concave-radius'], '');
    assert.ok(Number(after['smallest-convex-radius']) > 20, after['smallest-convex-radius']);
    // Few pins: those between the node it began at and the tip.
    assert.ok((await page.part('[data-handle^=n]:not([data-handle*="~"])').count()) <= 16);
    await page.command('undo');
    assert.deepEqual(await page.readouts(), before);
    await page.command('redo');
    assert.deepEqual(await page.readouts(), after);
  });
}

for (const beside of [-8, -3, 3, 8, 15]) {
  scenario(`a stroke by finger that begins ${beside} px off the edge makes no notch`, { ...sizes.tablet, touch: true }, async (page) => {
    const places = await overTheNose(page, 0.5, beside);
    await page.command('redraw');
    await stroke(page, places, 'touch');
    assert.equal(await page.undoStep(), 'redrew a stretch');
    for (const bend of ['convex', 'concave']) {
      const radius = await page.readout(`smallest-${bend}-radius`);
      assert.ok(radius === null || radius > 30, `${bend}: ${radius}`);
    }
  });
}

scenario('Esc puts the pen down', {}, async (page) => {
  await page.command('redraw');
  await page.press('Escape');
  assert.equal(await page.part('body').attribute('data-redrawing'), null);
});

scenario('a stroke that touches the edge nowhere is refused with words, and nothing changes', {}, async (page) => {
  const before = await page.readouts();
  await page.command('redraw');
  const { x, y, width, height } = await page.part('#stage').box();
  await page.drag({ x: x + width / 2, y: y + height * 0.42 }, { x: x + width / 2 + 60, y: y + height * 0.42 }, { by: 'pen' });
  assert.equal(await page.part('#notice').attribute('data-tone'), 'refused');
  assert.ok((await page.notice()).length > 20);
  assert.deepEqual(await page.readouts(), before);
  assert.equal(await page.undoStep(), null);
});

scenario('a stroke that the system takes away leaves everything as it was', { ...sizes.tablet, touch: true }, async (page) => {
  const before = await page.readouts();
  const places = await overTheNose(page);
  await page.command('redraw');
  const hold = await page.grab(places[0], { by: 'touch' });
  for (const place of places.slice(1, 40)) {
    await hold.move(place, 1);
  }
  await hold.cancel();
  assert.deepEqual(await page.readouts(), before);
  assert.equal(await page.undoStep(), null);
});

scenario('while redrawing, two fingers still come nearer', { ...sizes.tablet, touch: true }, async (page) => {
  const before = await page.readouts();
  const [a, b] = [await page.handle(turnstone.tailBend).centre(), await page.handle(turnstone.noseBend).centre()];
  await page.command('redraw');
  await page.pinch({ x: (a.x + b.x) / 2, y: a.y + 60 }, { from: 100, to: 160 });
  const [c, d] = [await page.handle(turnstone.tailBend).centre(), await page.handle(turnstone.noseBend).centre()];
  assert.ok(d.x - c.x > 1.3 * (b.x - a.x), `${b.x - a.x} to ${d.x - c.x}`);
  assert.deepEqual(await page.readouts(), before);
  assert.equal(await page.undoStep(), null);
});

scenario('a stretch between two nodes is faired, and the words say how far the edge moved', {}, async (page) => {
  await openDemo(page, 'turnstone');
  await stroke(page, await overTheNose(page), 'mouse'); // a drag of the node: not redrawing, so it moves n3
  await page.command('undo');
  await select(page, turnstone.tailBend);
  await page.press('Shift+ArrowDown'); // a dent of 5 mm in the side
  const dented = await page.readouts();
  await select(page, turnstone.tailTip);
  await page.command('mark-stretch');
  await select(page, turnstone.widest);
  await page.enter('fairing-bound', '2');
  await page.command('fair');
  assert.equal(await page.undoStep(), 'faired a stretch');
  assert.match(await page.notice(), /the edge moved [\d.]+ mm at most/);
  assert.notEqual((await page.readouts()).area, dented.area);
  await page.command('undo');
  assert.deepEqual(await page.readouts(), dented);
});
