// What a person does to bring in a photograph: choose it, click its holes, measure, trace, take.

import assert from 'node:assert/strict';
import { deck } from './photograph.mjs';

const lens = '850 mm';

/** Chooses a picture; on a small screen the panel is a sheet that must be opened first. */
export async function choose(page, bytes, { name = 'deck.png', type = 'image/png', path } = {}) {
  if (!(await page.part('[data-photo=choose]').visible())) {
    await page.part('[data-sheet]').click();
  }
  await page.upload(() => page.part('[data-photo=choose]').click(), { name, type, bytes, path });
}

export const shown = (page) => page.until(() => page.part('#photo-table').visible(), 'the picture', 20_000);

/** Clicks the holes in no order at all, each a little off. */
export async function clickHoles(page, holes, by) {
  const { x, y, width, height } = await page.part('#photo-table').box();
  for (const [k, i] of [5, 0, 3, 6, 1, 7, 2, 4].entries()) {
    const hole = { x: x + holes[i].x * width + (k % 3) - 1, y: y + holes[i].y * height + ((k + 1) % 3) - 1 };
    const hold = await page.grab(hole, { by });
    await hold.release();
  }
  await page.until(async () => /8 holes/.test(await page.part('#photo-words').content()), 'what the holes say', 20_000);
}

export async function openSheet(page) {
  if (!(await page.part('#photo [data-photo=trace]').visible())) {
    await page.part('[data-sheet]').click();
  }
}

export async function measureHeight(page) {
  await openSheet(page);
  await page.part('#photo-height').fill(lens);
  await page.press('Enter');
  await page.part('#photo-height').evaluate((field) => field.blur());
}

export async function trace(page) {
  await openSheet(page);
  await page.part('#photo [data-photo=trace]').click();
  await page.until(() => page.part('.photo-found-hand').visible(), 'the outline found', 60_000);
}

export async function take(page) {
  await page.part('.photo-found-hand [data-photo=take]').click();
  const near = async (key, expected, within) => {
    const found = await page.readout(key);
    assert.ok(Math.abs(found - expected) < within, `${key}: ${found} instead of ${expected}`);
  };
  await near('overall-width', deck.width, 1);
  await near('overall-length', deck.length, 2);
  assert.equal(await page.undoStep(), 'took the shape of a photograph');
}
