// What a maker comes for: templates leave the page as DXF, SVG and sheets, whatever hand works it. The files are kept in
// `downloads/`, where `tests/reference/downloads.rs` opens them with readers of others: see `tests/run`.

import assert from 'node:assert/strict';
import { mkdir, rm, writeFile } from 'node:fs/promises';
import { before } from 'node:test';
import { scenario, sizes } from './driver.mjs';

const folder = new URL('downloads/', import.meta.url);

before(async () => {
  await rm(folder, { recursive: true, force: true });
});

/** Keeps the three files of a template beside what they are to hold. `save` gets a file of a kind. */
async function keep(name, expected, save) {
  const own = new URL(`${name}/`, folder);
  await mkdir(own, { recursive: true });
  await writeFile(new URL('expected.json', own), JSON.stringify(expected));
  for (const kind of ['dxf', 'svg', 'pdf']) {
    const { name: file, bytes } = await save(kind);
    assert.ok(file.endsWith(`.${kind}`) && bytes.length > 1000, file);
    await writeFile(new URL(`template.${kind}`, own), bytes);
  }
}

scenario('as it comes, by mouse: half a template for a bushing of 16 mm and a bit of 6.35 mm', {}, async (page) => {
  await page.room('cut');
  await page.field('part').choose('half-template');
  await keep('mouse', { bushing: 16, bit: 6.35, cut: 'outside', projection: 'developed' }, (kind) =>
    page.download(() => page.command(`export-${kind}`)),
  );
});

scenario('the build sheet of ten decks, from what is typed at the bench', {}, async (page) => {
  await page.room('layup');
  await page.command('lay-up-nine');
  for (const [key, text] of [['ply-1-thickness', '1.2'], ['decks', '10'], ['spread-rate', '180'], ['open-time', '6']]) {
    await page.enter(key, text);
  }
  await page.room('press');
  await page.enter('mould-pressure', '0.8');
  await page.enter('mould-name', 'Saturday');
  await page.room('sheet');
  const own = new URL('sheet/', folder);
  await mkdir(own, { recursive: true });
  await writeFile(new URL('sheet.pdf', own), (await page.download(() => page.command('export-sheet'))).bytes);
  await page.room('cut');
  await writeFile(new URL('design.json', own), (await page.download(() => page.command('save-file'))).bytes);
});

scenario('a window for the plan, by fingers on a phone', { ...sizes.phone, touch: true }, async (page) => {
  await page.part('[data-room="cut"]').tap();
  await page.field('part').choose('half-template');
  await page.field('projection').choose('plan');
  await page.field('cut').choose('window-deck');
  for (const [key, text] of [['bushing', '30'], ['bit', '12,7']]) {
    await page.field(key).tap();
    await page.field(key).fill(text);
    await page.part('#cut-words').tap(); // a finger leaves a field by touching elsewhere
  }
  assert.match(await page.part('#cut-words').content(), /21\.35 mm outside/);
  await keep('fingers', { bushing: 30, bit: 12.7, cut: 'window-deck', projection: 'plan' }, (kind) =>
    page.download(() => page.commandPart(`export-${kind}`).tap()),
  );
});

scenario('in inches, by keys alone', { ...sizes.tablet }, async (page) => {
  await page.commandPart('units-inch').focus();
  await page.press('Enter');
  await page.part('[data-room="cut"]').focus();
  await page.press('Enter');
  const pick = async (key, option) => {
    await page.field(key).focus();
    for (let i = 0; i < 12 && (await page.field(key).value()) !== option; i++) await page.press('ArrowDown');
    assert.equal(await page.field(key).value(), option);
  };
  await pick('part', 'half-template');
  for (const [key, text] of [['bushing', '1 3/16'], ['bit', '1/2']]) {
    await page.field(key).focus();
    await page.press('Control+a');
    await page.type(text);
    await page.press('Enter');
    assert.equal(await page.field(key).attribute('aria-invalid'), null);
  }
  await keep('keys', { bushing: 30.1625, bit: 12.7, cut: 'outside', projection: 'developed' }, (kind) =>
    page.download(async () => {
      await page.commandPart(`export-${kind}`).focus();
      await page.press('Enter');
    }),
  );
});
