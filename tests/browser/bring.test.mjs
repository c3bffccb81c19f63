// The last deck brought in: measurements typed, pasted and from a file, and drawings, through the real file input.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { openSheet } from './steps.mjs';

const bytes = (text) => new TextEncoder().encode(text);
const table = (rows, mark) => rows.map((row) => row.join(mark)).join('\r\n');
const rows = [
  [-400, 0], [-390, 24], [-370, 42], [-320, 66], [-240, 85], [-160, 95], [-80, 99.2], [0, 100.2], [80, 99.2], [160, 95],
  [240, 85], [320, 66], [370, 42], [390, 24], [400, 0],
];

async function bring(page, name, text) {
  await page.upload(() => page.command('choose-shape'), { name, bytes: bytes(text), type: 'text/plain' });
  await page.until(async () => (await page.notice()) !== '', 'a notice');
}

const words = (page) => page.part('#bring-words').content();

for (const [name, size] of [['desktop', sizes.desktop], ['tablet', { ...sizes.tablet, touch: true }], ['phone', { ...sizes.phone, touch: true }]]) {
  scenario(`a table with decimal commas becomes the outline in one step (${name})`, size, async (page) => {
    if (name === 'phone') {
      await openSheet(page);
    }
    const before = await page.readouts();
    const comma = rows.map((row) => row.map((figure) => String(figure).replace('.', ',')));
    await bring(page, 'plover.csv', table([['Station', 'halbe Breite'], ...comma], ';'));
    assert.match(await words(page), /At the most 0\.\d+ mm from what was found/);
    assert.equal(await page.part('#board .taken').count(), 2);
    assert.deepEqual(await page.readouts(), before, 'nothing has changed yet');
    await page.screenshot(`bring ${name}`);
    await page.command('take-shape');
    assert.ok(Math.abs((await page.readout('overall-length')) - 800) < 0.01);
    assert.ok(Math.abs((await page.readout('overall-width')) - 200.4) < 1);
    assert.equal(await page.part('#board .taken').count(), 0);
    if (name === 'phone') {
      await openSheet(page, false);
    }
    await page.command('undo');
    assert.deepEqual(await page.readouts(), before);
  });
}

scenario('rows are typed by keyboard, a bad line is named, and the shape is left', {}, async (page) => {
  const before = await page.readouts();
  await page.field('bring-rows').fill('0 95\n100 wide');
  await page.press('Tab');
  assert.match(await page.part('#message-bring-rows').content(), /^Line 2: “100 wide” is not a length/);
  await page.field('bring-rows').fill(table(rows, '\t'));
  await page.press('Tab');
  assert.equal(await page.part('#message-bring-rows').content(), '');
  await page.commandPart('leave-shape').focus();
  await page.press('Enter');
  assert.equal(await page.part('#board .taken').count(), 0);
  assert.equal(await page.field('bring-rows').value(), '');
  assert.deepEqual(await page.readouts(), before);
});

scenario('a slip of the rule is ringed on the drawing and named', {}, async (page) => {
  const slip = rows.map(([x, y]) => [x, x === 80 ? y + 8 : y]);
  await bring(page, 'knot.tsv', table(slip, '\t'));
  assert.match(await words(page), /Line 9 lies \+ ?[78]\.\d mm off a fair edge/);
  assert.equal(await page.part('[data-item="found-off"]').count(), 1);
});

scenario('the page’s own SVG and DXF come back as they were', {}, async (page) => {
  const before = await page.readouts();
  for (const kind of ['svg', 'dxf']) {
    await page.room('cut');
    const { bytes: file } = await page.download(() => page.command(`export-${kind}`));
    await page.room('draw');
    await page.upload(() => page.command('choose-shape'), { name: `deck.${kind}`, bytes: file });
    await page.until(async () => (await page.part('#board .taken').count()) === 2, 'the shape');
    await page.command('take-shape');
    const after = await page.readouts();
    for (const key of ['overall-length', 'overall-width', 'platform-length']) {
      assert.ok(Math.abs(after[key] - before[key]) < 0.02, `${kind} ${key}: ${after[key]}, not ${before[key]}`);
    }
  }
});

scenario('a drawing without a unit asks for it', {}, async (page) => {
  await bring(page, 'deck.svg', '<svg viewBox="0 0 40 12"><ellipse cx="20" cy="6" rx="16" ry="4"/></svg>');
  assert.match(await page.part('#message-bring-unit').content(), /does not say its unit; the outline is 32 by 8/);
  await page.field('bring-unit').choose('in');
  await page.command('take-shape');
  assert.ok(Math.abs((await page.readout('overall-length')) - 812.8) < 0.02);
});

scenario('what is no deck is refused in words, and a huge file unread', {}, async (page) => {
  const before = await page.readouts();
  await bring(page, 'open.dxf', '0\nSECTION\n2\nENTITIES\n0\nLINE\n10\n0\n20\n0\n11\n800\n21\n0\n0\nENDSEC\n0\nEOF\n');
  await page.field('bring-unit').choose('mm');
  assert.match(await words(page), /none of the 1 lines and curves close|None of the 1 lines and curves close/);
  await bring(page, 'huge.dxf', ' '.repeat(9_000_000));
  await page.until(async () => /9 MB: at most 8 MB are read/.test(await words(page)), 'the message');
  assert.deepEqual(await page.readouts(), before);
});
