// Sweeps: a curve kept, and the very same one laid again.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { openSheet, select, turnstone } from './steps.mjs';

/** Keeps the stretch between two nodes. */
async function keep(page, from, to) {
  await select(page, from);
  await page.command('mark-stretch');
  await select(page, to);
  await page.command('keep-sweep');
  assert.equal(await page.undoStep(), 'kept a sweep');
}

/** Begins to lay a sweep. */
async function lay(page, index = 0) {
  await openSheet(page);
  await page.part(`[data-lay-sweep="${index}"]`).click();
  assert.notEqual(await page.part('body').attribute('data-laying'), null);
}

const laidOnTail = async (page) => {
  assert.equal(await page.undoStep(), 'laid a sweep');
  assert.equal(await page.part('body').attribute('data-laying'), null);
  assert.equal(await page.part('body').attribute('data-selected'), 'laid');
  // The same curve at both ends: what is measured of it is the same.
  for (const measure of ['tip-radius', 'compass-radius']) {
    const [nose, tail] = [await page.readout(`nose-${measure}`), await page.readout(`tail-${measure}`)];
    assert.ok(Math.abs(nose - tail) < 1e-3, `${measure}: ${nose} and ${tail}`);
  }
};

for (const [name, size] of Object.entries(sizes)) {
  scenario(`the nose is kept and laid on the tail by two touches (${name})`, { ...size, touch: true }, async (page) => {
    const before = await page.readouts();
    assert.notEqual(before['nose-tip-radius'], before['tail-tip-radius']);
    await keep(page, turnstone.noseBend, turnstone.noseTip);
    const places = [await page.handle(turnstone.tailBend).centre(), await page.handle(turnstone.tailTip).centre()];
    await lay(page);
    for (const place of places) {
      await (await page.grab(place, { by: 'touch' })).release();
    }
    await laidOnTail(page);
    await page.command('undo');
    assert.deepEqual(await page.readouts(), before);
    await page.command('redo');
    await laidOnTail(page).catch(() => {}); // the selection need not come back; the measures must
    assert.equal(await page.readout('nose-tip-radius') - await page.readout('tail-tip-radius') < 1e-3, true);
  });
}

scenario('with two fingers the deck comes nearer while a sweep is being laid, and nothing is laid', { ...sizes.tablet, touch: true }, async (page) => {
  await keep(page, turnstone.noseBend, turnstone.noseTip);
  const before = await page.readouts();
  await lay(page);
  const [a, b] = [await page.handle(turnstone.tailBend).centre(), await page.handle(turnstone.noseBend).centre()];
  await page.pinch({ x: (a.x + b.x) / 2, y: a.y }, { from: 100, to: 160 });
  assert.notEqual(await page.part('body').attribute('data-laying'), null);
  assert.deepEqual(await page.readouts(), before);
  await page.press('Escape');
  assert.equal(await page.part('body').attribute('data-laying'), null);
});

scenario('a sweep is laid, slid, turned and set free with the keyboard alone', {}, async (page) => {
  const press = async (selector) => {
    await page.part(selector).focus();
    await page.press('Enter');
  };
  await page.handle(turnstone.noseBend).part('[role=slider]').first().focus();
  await press('.more');
  await press('#more [data-command=mark-stretch]');
  await page.press('Escape');
  await page.handle(turnstone.noseTip).part('[role=slider]').first().focus();
  await press('.more');
  await press('#more [data-command=keep-sweep]');
  await page.press('Escape');
  await page.handle(turnstone.tailBend).part('[role=slider]').first().focus();
  await press('.more');
  await press('#more [data-command=mark-stretch]');
  await page.press('Escape');
  await page.handle(turnstone.tailTip).part('[role=slider]').first().focus();
  await press('[data-lay-sweep="0"]');
  await laidOnTail(page);
  const laid = await page.readouts();
  await page.enter('mark-to', '190');
  assert.equal(await page.undoStep(), 'set a mark');
  await press('[data-slide=tailward]'); // the mark at the shoulder is at the sweep’s start already
  assert.equal(await page.undoStep(), 'slid a sweep');
  await press('[data-turn=anticlockwise]');
  assert.equal(await page.undoStep(), 'turned a sweep');
  assert.notDeepEqual(await page.readouts(), laid);
  await press('[data-command=free-sweep]');
  assert.equal(await page.undoStep(), 'set a sweep free');
  assert.match(await page.part('.sweep p').text(), /own curve, 207.0 mm long$/);
});

scenario('a family is added, sized, laid, and comes through a link and a file', {}, async (page) => {
  await page.command('add-superellipse');
  await page.enter('sweep-1-along', '150');
  await page.enter('sweep-1-across', '99');
  await page.enter('sweep-1-exponent', '2.3');
  await page.enter('sweep-1-name', 'Saturday nose');
  assert.equal(await page.field('sweep-1-along').value(), '150');
  const places = [await page.handle(turnstone.noseTip).centre(), await page.handle(turnstone.noseBend).centre()];
  await lay(page);
  for (const place of places) {
    await (await page.grab(place)).release();
  }
  assert.equal(await page.undoStep(), 'laid a sweep');
  assert.equal(await page.field('sweep-1-along').count(), 0, 'what is laid is not resized');
  assert.ok((await page.part('#letters text').count()) > 0);
  const measures = await page.readouts();
  await page.command('copy-link');
  const link = await page.clipboard();
  const other = await page.elsewhere({ fragment: new URL(link).hash });
  assert.deepEqual(await other.readouts(), measures);
  assert.equal(await other.field('sweep-1-name').value(), 'Saturday nose');
  await page.saved();
  await page.reload();
  assert.deepEqual(await page.readouts(), measures);
});

scenario('a touch off the edge lays nothing, and says what to do', {}, async (page) => {
  await keep(page, turnstone.noseBend, turnstone.noseTip);
  const before = await page.readouts();
  await lay(page);
  const stage = await page.part('#stage').box();
  await (await page.grab({ x: stage.x + stage.width / 2 + 40, y: stage.y + stage.height * 0.42 })).release();
  assert.match(await page.notice(), /edge itself/);
  assert.deepEqual(await page.readouts(), before);
});

scenario('the page with sweeps has no violation for assistive tools', { scheme: 'dark' }, async (page) => {
  await page.command('add-arc');
  await keep(page, turnstone.noseBend, turnstone.noseTip);
  assert.deepEqual(await page.violations(), []);
});
