// What a maker does to last year's deck, by finger on a tablet and by keyboard alone.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { openDemo, openSheet, select } from './steps.mjs';

const near = (a, b, what, within = 1e-3) => assert.ok(Math.abs(a - b) < within, `${what}: ${a}, not ${b}`);

/** The rows of the table of what changed, by the name of the measure. */
const changes = (page) =>
  page.evaluate(() =>
    Object.fromEntries(
      [...document.querySelectorAll('#differences tr')].map((row) => [
        row.querySelector('th').textContent,
        row.querySelector('td:last-child').textContent,
      ]),
    ),
  );

for (const [name, size] of [['landscape', sizes.tablet], ['portrait', sizes.tabletUpright], ['phone', sizes.phone]]) {
  scenario(`from the demo twin to a new deck by finger (${name})`, { ...size, touch: true }, async (page) => {
    await openDemo(page, 'dunlin');
    await openSheet(page);
    await page.command('keep-version');
    const before = await page.readouts();

    // 3 mm wider, a waist 40 mm shorter.
    await page.enter('overall-width', String(Number(before['overall-width']) + 3));
    await page.enter('waist-length', (Number(before['waist-length']) - 40).toFixed(2));
    near(await page.readout('overall-width'), Number(before['overall-width']) + 3, 'width');
    near(await page.readout('waist-length'), Number(before['waist-length']) - 40, 'waist length', 0.011);

    // The tail rounder, drawn by hand; the nose stays what it was for now.
    await openSheet(page, false);
    await page.command('toggle-twin');
    const tail = page.part('.handle[aria-label="the tail tip"]');
    const count = () => page.part('.handle[data-handle^=n]:not([data-handle*="~"])').count();
    const side = 4; // pins from a tip to the end of its side
    const beside = page.handle(`n${side}`);
    const drawn = await count();
    const [from, tip] = [await beside.centre(), await tail.centre()];
    const across = { x: from.x - tip.x, y: from.y - tip.y };
    const upright = (await page.part('body').attribute('data-upright')) !== null;
    // A superellipse quarter from the tip to the node beside it: fuller than the edge is.
    const places = Array.from({ length: 50 }, (_, i) => {
      const turn = (i / 49) * (Math.PI / 2);
      const [s, c] = [Math.sin(turn) ** 0.8, 1 - Math.cos(turn) ** 0.8];
      return upright ? { x: tip.x + across.x * s, y: tip.y + across.y * c } : { x: tip.x + across.x * c, y: tip.y + across.y * s };
    });
    await page.command('redraw');
    const finger = await page.grab(places[0], { by: 'touch' });
    for (const place of places.slice(1)) {
      await finger.move(place, 1);
    }
    await finger.release();
    assert.equal(await page.undoStep(), 'redrew a stretch', await page.notice());
    await page.command('redraw');
    assert.notEqual(await page.readout('tail-tip-radius'), Number(before['tail-tip-radius']));

    // The very same curve for the nose: the stretch kept, and laid there.
    const nodes = await count();
    await select(page, 'n0');
    await page.command('mark-stretch');
    await select(page, `n${side + nodes - drawn}`);
    await page.command('keep-sweep');
    assert.equal(await page.undoStep(), 'kept a sweep', await page.notice());
    // Mark the nose from its side on, so that the two nodes stand for the two touches.
    await select(page, `n${nodes - 1}`);
    await page.command('mark-stretch');
    await select(page, `n${nodes - 1 - side}`);
    await openSheet(page);
    await page.part('[data-lay-sweep="0"]').click();
    assert.equal(await page.undoStep(), 'laid a sweep', await page.notice());
    near(await page.readout('nose-tip-radius'), await page.readout('tail-tip-radius'), 'tip radii');

    // Both tapers to one value: what is laid does not give way, and says so.
    await page.enter('nose-kick-taper', '12');
    assert.match(await page.notice(), /laid sweep does not give way, set it free first/);
    await openSheet(page, false);
    await page.command('free-sweep');
    await openSheet(page);
    for (const end of ['nose', 'tail']) {
      await page.enter(`${end}-kick-taper`, '12');
      near(await page.readout(`${end}-kick-taper`), 12, `${end} taper`);
    }
    const table = await changes(page);
    assert.match(table.Width, /^\+\s3\.0$/);
    assert.match(table['Waist length'], /^−\s40\.0$/);
    assert.ok(Object.keys(table).length > 6);
    assert.match(await page.part('#farthest').content(), /mm/);
  });
}
