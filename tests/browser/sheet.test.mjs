// The Sheet room: two pages as they will be printed, their file, and the browser's own print of them.

import assert from 'node:assert/strict';
import { inflateSync } from 'node:zlib';
import { scenario, sizes } from './driver.mjs';

/** Texts of a page of the sheet, each with its box on the screen, and the box of the page. */
async function texts(page, id) {
  return page.evaluate((id) => {
    const box = ({ left, top, right, bottom }) => ({ left, top, right, bottom });
    const svg = document.getElementById(id);
    const found = [...svg.querySelectorAll('text')];
    return {
      page: box(svg.getBoundingClientRect()),
      texts: found.map((text) => ({ text: text.textContent, ...box(text.getBoundingClientRect()) })),
    };
  }, id);
}

const latin1 = (bytes) => Buffer.from(bytes).toString('latin1');

/** What a PDF says of its objects, those too that are packed together in a stream. */
const objectsOf = (pdf) =>
  latin1(pdf).replaceAll(/\/ObjStm[^]*?stream\r?\n([^]*?)\r?\nendstream/g, (_, packed) =>
    latin1(inflateSync(Buffer.from(packed, 'latin1'))));

/** The size of each page of a PDF in mm. */
const pagesOf = (pdf) =>
  [...objectsOf(pdf).matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/g)].map(([, width, height]) =>
    [width, height].map((points) => (Number(points) * 25.4) / 72));

for (const [name, size] of Object.entries({ desktop: sizes.desktop, tablet: sizes.tablet, phone: sizes.phone })) {
  for (const units of ['mm', 'inch']) {
    scenario(`on a ${name} the sheet in ${units} is shown, saved and printed as two pages`, size, async (page) => {
      await page.command(`units-${units}`);
      await page.room('sheet');
      await page.field('sheet-paper').choose('letter');
      for (const id of ['page-1', 'page-2']) {
        const { page: paper, texts: words } = await texts(page, id);
        const [width, height] = [paper.right - paper.left, paper.bottom - paper.top];
        assert.ok(Math.abs(width / height - 215.9 / 279.4) < 0.01, `${width} × ${height}`);
        assert.ok(words.length > 80, `${words.length} texts`);
        for (const word of words) {
          assert.ok(word.left >= paper.left && word.right <= paper.right, word.text);
          assert.ok(word.top >= paper.top && word.bottom <= paper.bottom, word.text);
        }
      }
      const shown = (await texts(page, 'page-2')).texts.map((word) => word.text);
      assert.ok(shown.includes(units === 'mm' ? '838.2 × 241.3 mm' : '33 × 9 1/2 in'), shown.join('\n'));
      await page.screenshot(`sheet ${units} ${name}`);
      const { name: file, bytes } = await page.download(() => page.command('export-sheet'));
      assert.equal(file, 'turnstone-sheet.pdf');
      assert.deepEqual(pagesOf(bytes).map((size) => size.map(Math.round)), [[216, 279], [216, 279]]);
      const printed = await page.print('Letter');
      assert.deepEqual(pagesOf(printed).map((size) => size.map(Math.round)), [[216, 279], [216, 279]]);
    });
  }
}

scenario('the sheet follows what Lay up and Press say, and its record can be left blank', {}, async (page) => {
  await page.room('layup');
  await page.enter('decks', '4');
  await page.room('press');
  await page.command('begin-record');
  await page.room('sheet');
  const words = async (id) => (await texts(page, id)).texts.map((word) => word.text);
  assert.ok((await words('page-2')).includes('Run of 4 decks'));
  assert.ok((await words('page-2')).includes('Press-day record of one deck'));
  await page.field('sheet-record').choose('blank');
  assert.ok((await words('page-2')).some((word) => word.startsWith('Press-day record of one deck: print')));
  assert.deepEqual(await page.violations(), []);
});

scenario('any record can be put on the sheet, and the last one is there when none is marked', {}, async (page) => {
  await page.room('press');
  for (const [number, lots] of [[1, 'maple of May'], [2, 'maple of June']]) {
    await page.command('begin-record');
    await page.enter(`record-${number}-lots`, lots);
  }
  const printed = async () => {
    await page.room('sheet');
    const words = (await texts(page, 'page-2')).texts.map((word) => word.text);
    await page.room('press');
    return words.filter((word) => word.startsWith('maple of'));
  };
  assert.deepEqual(await printed(), ['maple of June']);
  const mark = (deck) => page.part(`[data-tick=printed][data-index="${deck - 1}"]`);
  await mark(1).click();
  assert.deepEqual(await printed(), ['maple of May']);
  await mark(1).click();
  assert.deepEqual(await printed(), ['maple of June']);
  await mark(1).click();
  await page.room('sheet');
  await page.field('sheet-record').choose('blank');
  assert.deepEqual(await printed(), []);
});

scenario('a script gets the same sheet on the paper and in the units it asks for', {}, async (page) => {
  const made = await page.evaluate(async () => {
    const { defaultDesign, exportFile } = await import('./halfbreadth.js');
    const deck = defaultDesign();
    const sheet = (options) => Array.from(exportFile(deck, 'pdf', { part: 'sheet', ...options }));
    const fault = (kind, options) => {
      try {
        exportFile(deck, kind, { part: 'sheet', ...options });
        return null;
      } catch (error) {
        return [error.field, error.message];
      }
    };
    return {
      sheet: sheet({ paper: 'letter', units: 'in', link: 'https://example.org/deck#d=old', date: '2026-11-26' }),
      again: sheet({ paper: 'letter', units: 'in', link: 'https://example.org/deck', date: '2026-11-26' }),
      faults: [fault('svg', {}), fault('pdf', { paper: 'a3' }), fault('pdf', { units: 'ell' })],
    };
  });
  assert.deepEqual(made.sheet, made.again);
  assert.deepEqual(pagesOf(made.sheet).map((size) => size.map(Math.round)), [[216, 279], [216, 279]]);
  assert.ok(latin1(made.sheet).includes(Buffer.from('https://example.org/deck#d=').toString('hex').toUpperCase()));
  assert.deepEqual(made.faults.map(([field]) => field), ['part', 'paper', 'units']);
});
