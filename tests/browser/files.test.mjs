// Files out and in.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { turnstone } from './steps.mjs';

const text = (bytes) => new TextDecoder('utf-8', { fatal: true }).decode(bytes);

async function save(page, command) {
  await page.room('cut');
  const { name, bytes } = await page.download(() => page.command(command));
  return { name, content: text(bytes) };
}

async function open(page, name, content) {
  await page.room('cut');
  await page.upload(() => page.command('open-file'), { name, bytes: new TextEncoder().encode(content), type: 'application/json' });
}

scenario('the SVG is the deck at true scale, in mm, in named groups', {}, async (page) => {
  const { name, content } = await save(page, 'export-svg');
  assert.equal(name, 'turnstone.svg');
  const [, width, height, viewWidth, viewHeight] = /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(content);
  assert.deepEqual([viewWidth, viewHeight], [width, height]);
  for (const group of ['outline', 'holes', 'centreline', 'bend-lines', 'blank']) {
    assert.ok(content.includes(`<g id="${group}"`), group);
  }
  assert.equal(content.match(/<circle /g).length, 8);
});

scenario('the outline in the SVG has the size the page shows', {}, async (page) => {
  const { content } = await save(page, 'export-svg');
  const [, path] = /<g id="outline"[^>]*>\s*<path d="([^"]+)"/.exec(content);
  const { width, height } = extent(path);
  assert.ok(Math.abs(width - (await page.readout('overall-length'))) < 0.01, `${width} mm long`);
  assert.ok(Math.abs(height - (await page.readout('overall-width'))) < 0.01, `${height} mm wide`);
});

/** Size of a path of absolute M, L, C and Z, from points close along it. */
function extent(path) {
  const points = [];
  for (const [, letter, numbers] of path.matchAll(/([MLCZ])([^MLCZ]*)/g)) {
    const corners = (numbers.match(/-?[\d.]+,-?[\d.]+/g) ?? []).map((pair) => pair.split(',').map(Number));
    const [p, q, r, s] = [points.at(-1), ...corners];
    for (let i = 1; letter === 'C' && i <= 1000; i++) {
      const [t, u] = [i / 1000, 1 - i / 1000];
      points.push([0, 1].map((k) => u * u * u * p[k] + 3 * u * u * t * q[k] + 3 * u * t * t * r[k] + t * t * t * s[k]));
    }
    points.push(...corners.slice(-1));
  }
  const span = (k) => Math.max(...points.map((p) => p[k])) - Math.min(...points.map((p) => p[k]));
  return { width: span(0), height: span(1) };
}

scenario('the DXF declares mm and has a closed outline, holes as circles and named layers', sizes.phone, async (page) => {
  const { name, content } = await save(page, 'export-dxf');
  assert.equal(name, 'turnstone.dxf');
  const lines = content.split(/\r?\n/);
  assert.equal(lines.length % 2, 1, 'pairs of code and value, and the end of the last line');
  const pairs = [];
  for (let i = 0; i + 1 < lines.length; i += 2) {
    pairs.push([Number(lines[i]), lines[i + 1].trim()]);
  }
  const after = (name) => pairs[pairs.findIndex(([, value]) => value === name) + 1];
  assert.deepEqual(after('$INSUNITS'), [70, '4']);
  assert.deepEqual(after('$MEASUREMENT'), [70, '1']);
  const entities = pairs.slice(pairs.findIndex(([code, value]) => code === 2 && value === 'ENTITIES'));
  assert.equal(entities.filter(([code, value]) => code === 0 && value === 'CIRCLE').length, 8);
  const layers = new Set(entities.filter(([code]) => code === 8).map(([, layer]) => layer));
  assert.deepEqual([...layers].sort(), ['BEND_LINES', 'BLANK', 'CENTRELINE', 'HOLES', 'OUTLINE', 'TEXT']);
  assert.deepEqual(pairs.at(-1), [0, 'EOF']);
});

scenario('a saved file, changed elsewhere and opened again, keeps the keys this page does not know', {}, async (page) => {
  await page.dragBy(page.handle(turnstone.widest), { y: 14 });
  const mine = await page.readouts();
  const { name, content } = await save(page, 'save-file');
  assert.equal(name, 'turnstone.json');
  const file = JSON.parse(content);
  assert.equal(file.format, 'halfbreadth');
  file.tooling = { bench: 3, tools: ['spokeshave'] };
  file.shape.colour = 'green';
  file.name = 'Ruff';
  await page.dragBy(page.handle(turnstone.noseBend), { y: 20 });
  await open(page, 'ruff.json', JSON.stringify(file));
  await page.until(async () => (await page.field('name').value()) === 'Ruff', 'the opened file');
  assert.deepEqual(await page.readouts(), mine);
  await page.enter('name', 'Reeve');
  await page.saved();
  await page.reload();
  const again = JSON.parse((await save(page, 'save-file')).content);
  assert.deepEqual(again, { ...file, name: 'Reeve' });
});

for (const [what, content, message] of [
  ['that is no JSON', 'deck', /no design/],
  ['of something else', '{"format":"poem"}', /no deck/],
  ['of a newer version', '{"format":"halfbreadth","version":99}', /newer version/],
  ['without an outline', '{"format":"halfbreadth","version":1,"name":"x","shape":{}}', /outline/],
]) {
  scenario(`a file ${what} is refused in words, and the design in hand stays`, {}, async (page) => {
    await page.dragBy(page.handle(turnstone.widest), { y: 14 });
    const mine = await page.readouts();
    await open(page, 'deck.json', content);
    await page.until(async () => (await page.part('#notice').attribute('data-tone')) === 'refused', 'a refusal');
    assert.match(await page.notice(), message);
    assert.deepEqual(await page.readouts(), mine);
    assert.equal(await page.undoStep(), 'moved node 9');
  });
}

scenario('a file is named by safe letters only, whatever the deck is called', {}, async (page) => {
  await page.enter('name', '../Ü "b" <c>|?*');
  for (const command of ['save-file', 'export-svg', 'export-dxf']) {
    assert.match((await save(page, command)).name, /^[\w-][\w.-]*\.(json|svg|dxf)$/);
  }
});
