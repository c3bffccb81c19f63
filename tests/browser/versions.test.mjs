// Keeping a version, showing it behind the shape, comparing, and going back.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { openSheet } from './steps.mjs';

/** The table of what changed: key or label to its cells. */
async function differences(page) {
  return page.evaluate(() =>
    Object.fromEntries(
      [...document.querySelectorAll('#differences tr')].map((row) => [
        row.querySelector('th').textContent,
        [...row.querySelectorAll('td')].map((cell) => cell.textContent),
      ]),
    ),
  );
}

for (const [name, size] of Object.entries(sizes)) {
  scenario(`a kept version lies behind, with a table of every change (${name})`, { ...size, touch: true }, async (page) => {
    await openSheet(page);
    await page.command('keep-version');
    assert.notEqual(await page.part('body').attribute('data-behind'), null);
    assert.match(await page.notice(), /version 1/);
    await page.enter('overall-width', '212.55');
    const changes = await differences(page);
    assert.deepEqual(changes.Width.slice(0, 2), ['209.6 mm', '212.6 mm']);
    assert.match(changes.Width[2], /^\+\s3\.0$/);
    assert.equal(changes.Length, undefined, 'what did not change is not listed');
    assert.match(await page.part('#farthest').content(), /^1\.5 mm/);
    assert.ok((await page.part('#board [data-role=behind], #board .behind').count()) > 0, 'the version is drawn');
    await page.part('[data-go-back-to="0"]').click();
    assert.equal(await page.readout('overall-width'), 209.55);
    assert.equal(await page.undoStep(), 'went back to a version');
    assert.equal(await page.part('[data-go-back-to]').count(), 1, 'the version stays');
  });
}

scenario('a version keeps its name and the notes of its ride through a reload', {}, async (page) => {
  await page.command('keep-version');
  await page.enter('version-1-name', 'Saturday, first press');
  await page.field('version-1-note').fill('Good tail. Next: a little wider.');
  await page.press('Tab');
  await page.saved();
  await page.reload();
  assert.equal(await page.field('version-1-name').value(), 'Saturday, first press');
  assert.equal(await page.field('version-1-note').value(), 'Good tail. Next: a little wider.');
});
