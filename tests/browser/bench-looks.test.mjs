// The bench timer's looks: read from three metres and by assistive tools, at every size.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';

const button = (page, name) => page.part(`#bench [data-bench="${name}"]`);

async function pass(page, seconds, expected) {
  await page.pass(seconds);
  const phase = () => page.part('#bench').attribute('data-phase');
  await page.until(async () => (await phase()) === expected, `${expected} after ${seconds} s`);
}

/** Whether all of the timer shows at once. */
const isWhole = (page) =>
  page.evaluate(() => {
    const [bench, run] = ['#bench', '.bench-run'].map((name) => document.querySelector(name));
    return run.scrollHeight <= run.clientHeight + 1 && bench.scrollWidth <= innerWidth && bench.scrollHeight <= innerHeight + 1;
  });

/** What people read from afar: on a screen of usual density 96 px to the inch are 15 mm for each 57 px. */
const height = (page, id) => page.part(id).evaluate((element) => parseFloat(getComputedStyle(element).fontSize));

for (const [name, size] of Object.entries(sizes)) {
  for (const scheme of name === 'phone' || name === 'desktop' ? ['light', 'dark'] : ['light']) {
    scenario(`the timer is read from afar on a ${name} in ${scheme}`, { ...size, scheme, touch: true }, async (page) => {
      await page.holdClock('2026-01-03T10:00:00Z');
      await page.room('layup');
      await page.part('.room [data-bench="open"]').tap();
      await page.screenshot(`bench setup ${name} ${scheme}`);
      assert.deepEqual(await page.violations(), [], 'before the start');
      await button(page, 'start').tap();
      await pass(page, 75, 'lay');
      assert.ok((await height(page, '#bench-figure')) >= 100 && (await height(page, '#bench-headline')) >= 40);
      assert.ok(await isWhole(page), 'nothing is cut off');
      await page.screenshot(`bench lay ${name} ${scheme}`);
      await button(page, 'hold').tap();
      await pass(page, 600, 'lay');
      await page.until(() => page.part('#bench-late').visible(), 'it is late');
      await page.screenshot(`bench late ${name} ${scheme}`);
      assert.ok(await isWhole(page), 'nothing is cut off when it is late');
      assert.deepEqual(await page.violations(), [], 'late');
      await button(page, 'stop').tap();
      await page.screenshot(`bench asked ${name} ${scheme}`);
    });
  }
}
