// Typing values, and the two systems of units.

import assert from 'node:assert/strict';
import { scenario } from './driver.mjs';
import { inCubics, openDemo, select, turnstone } from './steps.mjs';

scenario('a typed width in inches and a fraction is exact, and one step', { fragment: inCubics }, async (page) => {
  await page.command('units-inch');
  await select(page, 'n2');
  await page.enter('node-across', '4 1/4');
  assert.equal(await page.readout('overall-width'), 215.9);
  assert.equal(await page.shown('overall-width'), '8 1/2');
  assert.equal(await page.field('node-across').value(), '4 1/4');
  assert.equal(await page.undoStep(), 'placed node 3');
  await page.command('undo');
  assert.equal(await page.readout('overall-width'), 209.55);
});

for (const [text, mm] of [['8 1/4', 209.55], ['8-1/4"', 209.55], ['8¼', 209.55], ['8.25in', 209.55], ['8,25', 209.55], ['210mm', 210], ['21 cm', 210]]) {
  scenario(`with inches on, “${text}” typed as a blank width is ${mm} mm`, {}, async (page) => {
    await page.room('layup');
    await page.command('units-inch');
    await page.enter('blank-width', text);
    assert.equal(await page.field('blank-width').attribute('aria-invalid'), null);
    await page.command('units-mm');
    assert.equal(await page.field('blank-width').value(), String(mm));
  });
}

for (const text of ['8 5/4', '1/0', '1,234.5', '1e9', 'NaN', '', 'wide', '4', '99999']) {
  scenario(`“${text}” is refused: it stays, with the reason beside it, and nothing changes`, {}, async (page) => {
    await page.room('layup');
    await page.command('units-inch');
    const before = await page.readouts();
    await page.enter('blank-width', text);
    const field = page.field('blank-width');
    assert.equal(await field.value(), text);
    assert.equal(await field.attribute('aria-invalid'), 'true');
    const message = page.part(`#${await field.attribute('aria-describedby')}`);
    assert.ok((await message.visible()) && (await message.text()).length > 10);
    assert.deepEqual(await page.readouts(), before);
    assert.equal(await page.undoStep(), null);
    await page.enter('blank-width', '9 1/2');
    assert.equal(await field.attribute('aria-invalid'), null);
    assert.equal(await message.visible(), false);
  });
}

scenario('Esc in a field gives up what was typed', {}, async (page) => {
  await page.room('layup');
  await page.enter('spread', 'much');
  await page.press('Escape');
  assert.equal(await page.field('spread').value(), '200');
  assert.equal(await page.field('spread').attribute('aria-invalid'), null);
});

scenario('a value is taken when the field is left, without Enter', {}, async (page) => {
  await page.room('layup');
  await page.field('blank-length').fill('850');
  await page.press('Tab');
  assert.equal(await page.undoStep(), 'set blank length');
});

scenario('a rounded figure that is typed is meant, and one that is only confirmed is not', {}, async (page) => {
  await page.enter('overall-width', '210');
  await page.command('units-inch');
  const field = page.field('overall-width');
  const width = await page.readout('overall-width');
  assert.equal(await field.value(), '8 9/32');
  await field.focus();
  await page.press('Enter');
  assert.equal(await page.readout('overall-width'), width, 'confirmed untouched');
  await page.enter('overall-width', '8 9/32');
  assert.ok(Math.abs((await page.readout('overall-width')) - 8.28125 * 25.4) < 1e-3, 'typed');
  await page.enter('overall-width', '8 17/64');
  assert.equal(await field.value(), '8 17/64');
});

scenario('a refused name moves nothing, and an empty one leaves something to press', {}, async (page) => {
  const places = async () => [await page.part('header').box(), await page.part('#stage').box()];
  const before = await places();
  await page.enter('name', 'x'.repeat(200));
  assert.ok(await page.part('#message-name').visible());
  assert.deepEqual(await places(), before);
  await page.enter('name', '');
  assert.equal(await page.field('name').value(), '');
  assert.equal(await page.field('name').attribute('placeholder'), 'Name');
});

scenario('a bend line moved by its field moves the platform', {}, async (page) => {
  assert.equal(await page.readout('platform-length'), 508);
  await page.enter('nose-bend-line', '25.4');
  assert.ok(Math.abs((await page.readout('platform-length')) - 514.35) < 1e-9);
  assert.equal(await page.shown('platform-length'), '514.4');
});

scenario('± buttons step the selected node, a press at a time', {}, async (page) => {
  await select(page, turnstone.tailBend);
  for (const [nudge, key, value] of [
    ['noseward', 'node-along', '-253.5'],
    ['tailward', 'node-along', '-254'],
    ['outward', 'node-across', '100.7'],
    ['inward', 'node-across', '100.2'],
  ]) {
    await page.part(`[data-nudge=${nudge}]`).click();
    assert.equal(await page.field(key).value(), value, nudge);
  }
});

scenario('the units switch everywhere at once: figures, fields, drawing and words', {}, async (page) => {
  await openDemo(page, 'dunlin');
  await select(page, 'n3');
  const values = await page.readouts();
  const texts = async (selector) => page.evaluate((s) => [...document.querySelectorAll(s)].map((e) => e.textContent), selector);
  assert.ok((await texts('.unit')).includes('mm'));
  await page.command('units-inch');
  assert.deepEqual(await page.readouts(), values, 'the values behind them stay');
  const units = await texts('.unit');
  assert.ok(units.includes('in') && !units.some((unit) => /mm|cm|^g/.test(unit)), units.join(' '));
  assert.equal(await page.shown('overall-length'), '28 1/2');
  assert.equal(await page.shown('overall-width'), '7 1/2');
  assert.equal(await page.field('wheelbase').value(), '12');
  assert.equal(await page.field('node-across').value(), '3 3/4');
  assert.ok((await texts('#letters text')).some((text) => text.includes('28 1/2')));
  assert.match(await page.handle('n3').part('[data-axis=across]').attribute('aria-valuetext'), /3 3\/4 inches/);
  assert.match(await page.part('#drawing').attribute('aria-label'), /28 1\/2 in/);
  await page.reload();
  assert.equal(await page.shown('overall-length'), '28 1/2', 'and stay switched after a reload');
  await page.command('units-mm');
  assert.equal(await page.shown('overall-length'), '723.9');
});

scenario('a name is text and nothing else, whatever is typed', {}, async (page) => {
  const name = '<img src=x onerror=alert(1)> & "co"';
  await page.enter('name', name);
  assert.equal(await page.field('name').value(), name);
  assert.ok((await page.part('#drawing').attribute('aria-label')).includes(name));
  assert.equal(await page.part('body img:not([data-photo-image])').count(), 0);
});
