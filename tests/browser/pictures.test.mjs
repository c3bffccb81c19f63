// The pictures of the README are of the page as it is: `HALFBREADTH_REWRITE=1 node --test pictures.test.mjs` takes them anew.

import assert from 'node:assert/strict';
import { readFile, writeFile } from 'node:fs/promises';
import { test } from 'node:test';
import { scenario, sizes } from './driver.mjs';
import { turnstone } from './steps.mjs';

const folder = new URL('pictures/', import.meta.url);

/** Name, window, and what is done before the picture is taken. */
const pictures = [
  ['draw', { ...sizes.desktop }, async () => {}],
  ['cut', { ...sizes.tablet }, async (page) => {
    await page.room('cut');
    await page.field('part').choose('half-template');
  }],
  ['phone', { ...sizes.phone }, async (page) => {
    await (await page.grab(page.handle(turnstone.noseBend))).release();
  }],
];

for (const [name, options, prepare] of pictures) {
  scenario(`the picture “${name}” of the README can be taken`, options, async (page) => {
    await prepare(page);
    await page.saved();
    const bytes = await page.screenshot(`picture ${name}`);
    if (process.env.HALFBREADTH_REWRITE) {
      await writeFile(new URL(`${name}.png`, folder), bytes);
    }
  });
}

test('the README shows every picture, in the size of its window', async () => {
  const readme = await readFile(new URL('../../README.md', import.meta.url), 'utf8');
  for (const [name, { width, height }] of pictures) {
    assert.ok(readme.includes(`tests/browser/pictures/${name}.png`), name);
    const bytes = await readFile(new URL(`${name}.png`, folder));
    assert.deepEqual([bytes.readUInt32BE(16), bytes.readUInt32BE(20)], [width, height], name);
  }
});
