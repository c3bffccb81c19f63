// The Cut room: what is chosen is what is shown and what the files hold, at true size.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { inCubics } from './steps.mjs';

const text = (bytes) => new TextDecoder('utf-8', { fatal: true }).decode(bytes);

async function choose(page, key, option) {
  await page.field(key).choose(option);
}

/** The template of the demo deck for the bushing of 16 mm and the bit of 6.35 mm. */
async function openTemplate(page, part = 'half-template') {
  await page.room('cut');
  await choose(page, 'part', part);
}

/** What the page says of the file of a kind before it is saved. */
async function facts(page, kind) {
  const part = page.part(`[data-made="${kind}"]`);
  const number = async (name) => Number(await part.attribute(name));
  return { bytes: await number('data-bytes'), entities: await number('data-entities'), words: await part.content() };
}

async function download(page, kind) {
  const { name, bytes } = await page.download(() => page.command(`export-${kind}`));
  return { name, bytes };
}

/** The pairs of code and value of a DXF file from its entities on. */
function entitiesOf(dxf) {
  const lines = dxf.split(/\r?\n/);
  const pairs = [];
  for (let i = 0; i + 1 < lines.length; i += 2) pairs.push([Number(lines[i]), lines[i + 1].trim()]);
  const start = pairs.findIndex(([code, value]) => code === 2 && value === 'ENTITIES');
  const end = pairs.findIndex(([code, value], i) => i > start && code === 0 && value === 'ENDSEC');
  return pairs.slice(start + 1, end);
}

/** Length of what lies on a layer of a DXF file, by the corners of its polylines. */
function lengthOf(entities, layer) {
  let on = false;
  const xs = [];
  for (const [code, value] of entities) {
    if (code === 0) on = false;
    if (code === 8) on = value === layer;
    if (code === 10 && on) xs.push(Number(value));
  }
  return Math.max(...xs) - Math.min(...xs);
}

scenario('the preview of the deck holds what the files hold, and their size is true', {}, async (page) => {
  await page.room('cut');
  const svg = await download(page, 'svg');
  assert.equal(svg.name, 'turnstone.svg');
  assert.equal(svg.bytes.length, (await facts(page, 'svg')).bytes);
  const words = await page.part('#cut-words').content();
  const [, length, width] = /^DEVELOPED: ([\d.]+) × ([\d.]+) mm/.exec(words);
  const [, sheet, across] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(text(svg.bytes));
  // White of 10 mm all round.
  assert.ok(Math.abs(sheet - 20 - length) < 0.06 && Math.abs(across - 20 - width) < 0.06, words);
  for (const item of ['cut-outline', 'beside-holes', 'beside-centreline', 'beside-bend-lines', 'beside-blank']) {
    assert.equal(await page.part(`#board [data-item="${item}"]`).count(), 1, item);
  }
  assert.equal(await page.part('#letters .engraved').count(), text(svg.bytes).match(/<text /g).length);
});

for (const units of ['mm', 'inch']) {
  scenario(`a half template filled in in ${units} leaves as DXF, SVG, PDF at its true size`, {}, async (page) => {
    await page.command(`units-${units}`);
    await openTemplate(page);
    assert.equal(await page.field('bushing').value(), units === 'mm' ? '16' : '16 mm');
    assert.equal(await page.field('bit').value(), units === 'mm' ? '6.35' : '1/4');
    await page.enter('bushing', units === 'mm' ? '15.875' : '5/8');
    await page.enter('bit', units === 'mm' ? '6.35' : '1/4');
    const inside = (15.875 - 6.35) / 2;
    const dxf = await download(page, 'dxf');
    assert.equal(dxf.name, 'turnstone-half-template-developed.dxf');
    const shown = await facts(page, 'dxf');
    assert.equal(dxf.bytes.length, shown.bytes);
    const entities = entitiesOf(text(dxf.bytes));
    assert.equal(entities.filter(([code]) => code === 0).length, shown.entities);
    // The tips of the half template stand 25 mm on, square to the centreline: it is as long as the whole.
    const length = lengthOf(entities, 'TEMPLATE');
    assert.ok(Math.abs(length - (812.8 - 2 * inside)) < 0.01, `${length} mm`);
    const svg = await download(page, 'svg');
    const drawn = text(svg.bytes).match(/<(path|polygon|circle|line|text) /g).length;
    assert.deepEqual([svg.bytes.length, drawn], [(await facts(page, 'svg')).bytes, (await facts(page, 'svg')).entities]);
    const pdf = await download(page, 'pdf');
    assert.equal(pdf.name, 'turnstone-half-template-developed.pdf');
    assert.equal(pdf.bytes.length, (await facts(page, 'pdf')).bytes);
    assert.equal(Buffer.from(pdf.bytes).toString('latin1').slice(0, 5), '%PDF-');
    const pages = Buffer.from(pdf.bytes).toString('latin1').match(/\/Type\/Page\//g).length;
    assert.ok((await facts(page, 'pdf')).words.startsWith(`${pages} pages`), (await facts(page, 'pdf')).words);
    assert.ok((await page.part('#board [data-item="joins"]').count()) === 1, 'the joins of the sheets are shown');
  });
}

scenario('tables leave as CSV, and only of parts that have one', {}, async (page) => {
  await page.room('cut');
  assert.equal(await page.commandPart('export-csv').enabled(), false);
  assert.match((await facts(page, 'csv')).words, /no table/);
  for (const part of ['offsets', 'mark-out']) {
    await choose(page, 'part', part);
    const { name, bytes } = await download(page, 'csv');
    assert.equal(name, `turnstone-${part}-developed.csv`);
    assert.equal(text(bytes).trim().split('\r\n').length - 1, (await facts(page, 'csv')).entities);
  }
  assert.match(await page.part('#cut-words').content(), /\d+ pieces, at most 0\.\d+ mm from the outline/);
  assert.equal(await page.part('#cut-list li').count(), (await facts(page, 'csv')).entities);
  assert.match(await page.part('#cut-list li').first().content(), /^Radius [\d.]+ mm\nabout .* of the tail outer row/);
  await page.command('units-inch');
  assert.match(await page.part('#cut-list li').first().content(), /^Radius [\d /]+ in\nabout /);
});

scenario('what is chosen and typed stays in this browser, and what was kept before still loads', {}, async (page) => {
  await page.evaluate(() => localStorage.setItem('halfbreadth.settings', 'inches comb'));
  await page.reload();
  assert.equal(await page.commandPart('units-inch').attribute('aria-pressed'), 'true');
  await page.command('units-mm');
  await openTemplate(page, 'template');
  await choose(page, 'cut', 'window-deck');
  await page.enter('bushing', '30');
  await page.reload();
  await page.room('cut');
  assert.deepEqual(
    [await page.field('part').value(), await page.field('cut').value(), await page.field('bushing').value()],
    ['template', 'window-deck', '30'],
  );
  assert.match(await page.part('#cut-words').content(), /18\.1\d mm outside of the outline/);
});

scenario('bad input is answered beside its field, and nothing else breaks', {}, async (page) => {
  await openTemplate(page);
  const before = await facts(page, 'svg');
  for (const bad of ['', 'wide', '-3', '1e9', '900', 'NaN', '<b>']) {
    await page.enter('bit', bad);
    assert.equal(await page.field('bit').attribute('aria-invalid'), 'true', bad);
    assert.ok((await page.part('#message-bit').content()).length > 8, bad);
    assert.deepEqual(await facts(page, 'svg'), before);
  }
  await page.enter('bit', '6.35');
  assert.equal(await page.field('bit').attribute('aria-invalid'), null);
  await page.enter('bushing', '6');
  assert.match(await page.part('#message-bushing').content(), /does not fit through a bushing/);
  assert.equal(await page.commandPart('export-svg').enabled(), false);
  await page.enter('bushing', '16');
  assert.ok(await page.commandPart('export-svg').enabled());
});

scenario('half a window is a template like any other', {}, async (page) => {
  await openTemplate(page);
  for (const cut of ['window-deck', 'window-opening']) {
    await choose(page, 'cut', cut);
    assert.equal(await page.part('#message-part').content(), '');
    const { bytes } = await download(page, 'svg');
    assert.equal(bytes.length, (await facts(page, 'svg')).bytes);
  }
});

scenario('a sheet and a roll of one’s own have their fields, and one page for a plotter none', {}, async (page) => {
  await openTemplate(page);
  await page.part('[data-of=cut] summary').click();
  const shown = async () => Promise.all(['paper-width', 'paper-height', 'overlap'].map((key) => page.field(key).visible()));
  assert.deepEqual(await shown(), [false, false, true]);
  const boxes = async () => Buffer.from((await download(page, 'pdf')).bytes).toString('latin1').match(/MediaBox\[[^\]]*/g);
  const points = (mm) => Math.round((mm * 72) / 25.4);
  await choose(page, 'paper', 'custom');
  assert.deepEqual(await shown(), [true, true, true]);
  await page.enter('paper-width', '500');
  await page.enter('paper-height', '20 in');
  const [custom] = await boxes();
  assert.deepEqual(custom.match(/[\d.]+/g).map((n) => Math.round(n)).slice(2), [points(500), points(508)]);
  await page.enter('paper-height', '90');
  assert.match(await page.part('#message-paper-height').content(), /too small \(at least 100/);
  await choose(page, 'paper', 'roll');
  assert.deepEqual(await shown(), [true, false, true]);
  await page.enter('paper-width', '500');
  assert.ok((await boxes())[0].match(/[\d.]+/g).some((n) => Math.round(n) === points(500)));
  await choose(page, 'paper', 'one-page');
  assert.deepEqual(await shown(), [false, false, false]);
  const plotter = await boxes();
  assert.equal(plotter.length, 1);
  assert.ok(plotter[0].match(/[\d.]+/g).some((n) => n > points(803)), plotter[0]);
});

for (const [name, drawn] of [['千鳥', true], ['Чайка', true], ['سنونو', true], ['Großer “Brachvogel”', false]]) {
  scenario(`a deck called ${name} is so called on paper`, {}, async (page) => {
    await page.field('name').fill(name);
    await page.press('Enter');
    await openTemplate(page);
    const shown = await facts(page, 'pdf');
    const { bytes } = await download(page, 'pdf');
    assert.equal(bytes.length, shown.bytes);
    const file = Buffer.from(bytes).toString('latin1');
    const size = /\/Subtype\/Image\/Width (\d+)\/Height (\d+)\/ImageMask true/.exec(file);
    assert.equal(size !== null, drawn);
    assert.ok(!drawn || Number(size[1]) >= 40, 'as wide as the name is');
    // A script has no fonts: there the short code stands on the pages.
    const scripted = await page.evaluate(async (called) => {
      const { defaultDesign, exportFile } = await import('./halfbreadth.js');
      const file = exportFile({ ...defaultDesign(), name: called }, 'pdf', { part: 'half-template' });
      return [...file].map((byte) => String.fromCharCode(byte)).join('');
    }, name);
    assert.ok(!scripted.includes('/Subtype/Image') && scripted.includes('/Title <FEFF'));
    const title = [...name].flatMap((c) => [...Array(c.length).keys()].map((i) => c.charCodeAt(i)));
    assert.ok(file.includes(`/Title <FEFF${title.map((u) => u.toString(16).toUpperCase().padStart(4, '0')).join('')}>`));
  });
}

scenario('places that the tool cannot reach are listed and marked on the drawing', { fragment: inCubics }, async (page) => {
  await openTemplate(page, 'template');
  await page.enter('template-thickness', '12');
  assert.match(await page.part('#cut-warnings li').first().content(), /will not follow a kick/);
  await page.enter('template-thickness', '3');
  assert.equal(await page.part('#cut-warnings li').count(), 0);
  await page.room('draw');
  await (await page.grab(page.handle('n2'))).release();
  await page.command('toggle-corner');
  await page.dragBy(page.handle('h2-start'), { y: 20 });
  await page.room('cut');
  assert.ok((await page.part('#cut-warnings li').count()) >= 1, 'a hollow corner is told');
  assert.equal(await page.part('#board [data-item="warning-0"]').count(), 1);
});

scenario('the room is worked by keys alone', {}, async (page) => {
  await page.part('[data-room="cut"]').focus();
  await page.press('Enter');
  await page.field('part').focus();
  await page.press('ArrowDown');
  assert.equal(await page.field('part').value(), 'template');
  await page.press('Tab');
  assert.equal(await page.focused().attribute('data-field'), 'projection');
  await page.commandPart('export-dxf').focus();
  const { name } = await page.download(() => page.press('Enter'));
  assert.equal(name, 'turnstone-template-developed.dxf');
});

scenario('a bar held against a card sets the scale of this screen, and full size is that scale', {}, async (page) => {
  await page.room('cut');
  const width = async () => (await page.part('#card').box()).width;
  const nominal = await width();
  assert.ok(Math.abs(nominal - (53.98 * 96) / 25.4) < 0.1, `${nominal} px`);
  await page.command('card-longer');
  assert.ok(Math.abs((await width()) - nominal - 1) < 0.05);
  const { x, y, width: wide, height } = await page.part('#card').box();
  await page.drag({ x: x + wide - 3, y: y + height / 2 }, { x: x + 216, y: y + height / 2 });
  assert.ok(Math.abs((await width()) - 216) < 1, `${await width()} px`);
  await page.enter('card-reads', '50');
  const px = (await width()) / 53.98;
  assert.ok(Math.abs(px - 216 / 50) < 0.05, `${px} px to the mm`);
  await page.command('true-size');
  await page.reload();
  await page.room('cut');
  assert.ok(Math.abs((await width()) - 53.98 * px) < 0.05, 'it is kept');
  await page.command('true-size');
  const scale = await page.evaluate(() => document.querySelector('#board').getScreenCTM().a);
  assert.ok(Math.abs(Math.abs(scale) * 1000 - px) < 0.01, `${scale}`);
});

for (const [name, size] of Object.entries({ desktop: sizes.desktop, tablet: sizes.tablet, phone: sizes.phone })) {
  scenario(`on a ${name} every part can be chosen by touch and read by assistive tools`, { ...size, touch: true }, async (page) => {
    await page.room('cut');
    for (const part of ['deck', 'template', 'half-template', 'saw-line', 'offsets', 'mark-out']) {
      await choose(page, 'part', part);
      await page.screenshot(`cut ${part} ${name}`);
    }
    await choose(page, 'part', 'half-template');
    await page.part('[data-of=cut] summary').tap();
    await page.screenshot(`cut open ${name}`);
    assert.deepEqual(await page.violations(), []);
    await page.commandPart('true-size').tap();
    await page.screenshot(`cut true size ${name}`);
  });
}
