// The script interface, as a program in Node uses it.

import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { before, test } from 'node:test';
import { dist } from './server.mjs';

let deck;

before(async () => {
  deck = await import(`${dist}halfbreadth.js`);
  deck.initSync({ module: await readFile(`${dist}halfbreadth_bg.wasm`) });
});

/** Fails on anything that JSON would not carry: a Map, an undefined, a number that is none. */
function assertPlain(value, path = 'value') {
  if (value !== null && typeof value === 'object') {
    const kind = Object.getPrototypeOf(value);
    assert.ok(kind === Object.prototype || kind === Array.prototype, `${path} is a ${kind?.constructor?.name}`);
    Object.entries(value).forEach(([key, inner]) => assertPlain(inner, `${path}.${key}`));
  } else {
    assert.ok(value === null || ['string', 'boolean', 'number'].includes(typeof value), `${path} is ${typeof value}`);
    assert.ok(typeof value !== 'number' || Number.isFinite(value), `${path} is ${value}`);
  }
  assert.deepEqual(JSON.parse(JSON.stringify(value)), value);
}

/** The error a call throws. */
function refusal(call) {
  try {
    call();
  } catch (error) {
    assert.ok(error instanceof Error, 'what is thrown is an Error');
    return error;
  }
  return assert.fail('nothing was thrown');
}

/** The first demo deck with something about it changed. */
function changed(change) {
  const design = deck.defaultDesign();
  change(design);
  return design;
}

test('the package is a module by its own word, and has one wasm', async () => {
  assert.equal(JSON.parse(await readFile(`${dist}package.json`, 'utf8')).type, 'module');
  assert.equal(globalThis.window, undefined);
});

test('a design is plain data, the same as in a file', () => {
  const design = deck.defaultDesign();
  assertPlain(design);
  assert.equal(design.format, 'halfbreadth');
  assert.equal(design.name, 'Turnstone');
  assert.equal(design.shape.datum.wheelbase, 361_950_000, 'lengths are whole nanometres');
  assert.deepEqual(deck.defaultDesign(), design);
});

test('measures are plain numbers in mm, mm², degrees and g, and null where a deck has none', () => {
  const measures = deck.measure(deck.defaultDesign());
  assertPlain(measures);
  const near = (key, value, within) => assert.ok(Math.abs(measures[key] - value) <= within, `${key}: ${measures[key]}`);
  // From the table of demo decks, to the digits it has.
  near('area', 153_580, 5);
  near('perimeter', 1822.0, 0.05);
  near('overall-length', 812.8, 1e-6);
  near('overall-width', 209.55, 1e-6);
  near('platform-length', 508.0, 1e-6);
  near('nose-kick-taper', 10.1, 0.05);
  near('tail-kick-taper', 11.0, 0.05);
  near('nose-tip-radius', 73.3, 0.05);
  near('glue-mass', 267, 0.5);
  assert.equal(measures['waist-width'], null);
  assert.equal(measures['smallest-concave-radius'], null);
});

test('measuring does not change the design', () => {
  const design = deck.defaultDesign();
  deck.measure(design);
  assert.deepEqual(design, deck.defaultDesign());
});

test('a change of a nanometre is measured', () => {
  const length = (design) => deck.measure(design)['overall-length'];
  const longer = changed(({ shape }) => (shape.outline.nodes.at(-1).x += 1000));
  assert.ok(Math.abs(length(longer) - length(deck.defaultDesign()) - 0.001) < 1e-9);
});

test('files come as text', () => {
  assert.match(deck.exportFile(deck.defaultDesign(), 'svg'), /^<\?xml .*<svg /s);
  assert.match(deck.exportFile(deck.defaultDesign(), 'dxf', {}), /\$INSUNITS\r?\n\s*70\r?\n\s*4\r?\n/);
  const error = refusal(() => deck.exportFile(deck.defaultDesign(), 'gcode'));
  assert.equal(error.field, 'kind');
  assert.match(error.message, /svg/);
});

test('a link gives back the design it was made from, with or without the address before it', () => {
  const design = changed((d) => (d.name = 'Größe 8¼'));
  const link = deck.encodeLink(design);
  assert.ok(link.startsWith('#d=') && link.length < 400, link);
  assert.deepEqual(deck.decodeLink(link), design);
  assert.deepEqual(deck.decodeLink(`https://example.org/deck/${link}`), design);
  assert.deepEqual(deck.decodeLink(link.slice(3)), design);
});

test('a damaged link is refused, wherever the damage is', () => {
  const link = deck.encodeLink(deck.defaultDesign());
  for (let i = 3; i < link.length; i++) {
    const letter = link[i] === 'A' ? 'B' : 'A';
    const error = refusal(() => deck.decodeLink(link.slice(0, i) + letter + link.slice(i + 1)));
    assert.equal(error.field, 'link');
    assert.ok(error.message.length > 10);
  }
});

test('a design survives JSON, and what validates is measured', () => {
  const design = JSON.parse(JSON.stringify(deck.defaultDesign()));
  assert.deepEqual(deck.validate(design), []);
  assert.equal(deck.measure(design).area, deck.measure(deck.defaultDesign()).area);
});

for (const [what, field, change] of [
  ['a wheelbase beyond the limit', 'shape.datum.wheelbase', (d) => (d.shape.datum.wheelbase = 1e12)],
  ['half a nanometre', 'shape.outline.nodes[2].x', (d) => (d.shape.outline.nodes[2].x = 0.5)],
  ['a word for a number', 'shape.outline.nodes[1].y', (d) => (d.shape.outline.nodes[1].y = 'wide')],
  ['a node without its place', 'shape.outline.nodes[1].x', (d) => delete d.shape.outline.nodes[1].x],
  ['no outline', 'shape.outline', (d) => delete d.shape.outline],
  ['an open tip', 'shape.outline.nodes[16].y', (d) => (d.shape.outline.nodes[16].y = 5_000_000)],
  ['another format', 'format', (d) => (d.format = 'poem')],
  ['a newer version', 'version', (d) => (d.version = 99)],
]) {
  test(`a design with ${what} is refused: the error names the field`, () => {
    const design = changed(change);
    const [fault, ...rest] = deck.validate(design);
    assertPlain(fault);
    assert.deepEqual(rest, []);
    assert.equal(fault.field, field);
    for (const call of [deck.measure, deck.encodeLink, (d) => deck.exportFile(d, 'svg')]) {
      const error = refusal(() => call(design));
      assert.deepEqual({ field: error.field, message: error.message }, fault);
    }
  });
}

for (const nothing of [undefined, null, 7, 'deck', [], {}]) {
  test(`${JSON.stringify(nothing)} is no design, and is refused as one`, () => {
    assert.ok(refusal(() => deck.measure(nothing)).message.length > 10);
    assert.equal(deck.validate(nothing).length, 1);
  });
}

test('a dimension is set to a thousandth of a mm, and the design given stays as it was', () => {
  const design = deck.defaultDesign();
  const present = deck.measure(design);
  for (const [key, value] of [
    ['overall-width', 212],
    ['overall-length', 800],
    ['nose-kick-taper', 12.5],
    ['tail-tip-radius', 90],
    ['rail-run-fore', 240],
  ]) {
    const changed = deck.setDimension(design, key, value);
    assertPlain(changed);
    assert.deepEqual(deck.validate(changed), []);
    assert.ok(Math.abs(deck.measure(changed)[key] - value) < 1e-3, `${key}: ${deck.measure(changed)[key]}`);
    assert.notEqual(present[key], value);
  }
  assert.equal(deck.setDimension(design, 'wheelbase', 368.3).shape.datum.wheelbase, 368_300_000);
  assert.deepEqual(design, deck.defaultDesign());
});

test('what a file says besides survives a change of a dimension', () => {
  const design = changed((plain) => (plain.colour = 'oak'));
  assert.equal(deck.setDimension(design, 'overall-width', 212).colour, 'oak');
});

test('a dimension that cannot be met throws the nearest that can', () => {
  const tooWide = refusal(() => deck.setDimension(deck.defaultDesign(), 'overall-width', 400));
  assert.equal(tooWide.field, 'overall-width');
  assert.match(tooWide.message, /nearest is 320/);
  assert.ok(Math.abs(tooWide.nearest - 320) < 1e-3, `${tooWide.nearest}`);
  const met = deck.setDimension(deck.defaultDesign(), 'overall-width', tooWide.nearest);
  assert.ok(Math.abs(deck.measure(met)['overall-width'] - tooWide.nearest) < 1e-3);

  const noWaist = refusal(() => deck.setDimension(deck.defaultDesign(), 'waist-width', 180));
  assert.deepEqual([noWaist.field, noWaist.nearest], ['waist-width', null]);
  assert.equal(refusal(() => deck.setDimension(deck.defaultDesign(), 'beauty', 1)).field, 'key');
  assert.ok(refusal(() => deck.setDimension(deck.defaultDesign(), 'overall-width', Number.NaN)).message.length > 0);
});

/** The end points of the curves of path data. */
const joints = (path) =>
  path.match(/[MC][^MC]*/g).map((part) => part.slice(1).trim().split(' ').at(-1).split(',').map(Number));

/** Places on path data of lines and arcs: their ends, and the middles of the arcs. */
function places(path) {
  const found = [];
  for (const [, letter, numbers] of path.matchAll(/([MLA])([^MLAZ]*)/g)) {
    const values = numbers.trim().split(/[ ,]+/).map(Number);
    const [from, to] = [found.at(-1), values.slice(-2)];
    if (letter === 'A') {
      // The middle of an arc of less than half a turn lies beside that of its chord, right of its way with flag 1 in
      // numbers with y up.
      const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
      const half = Math.hypot(dx, dy) / 2;
      const rise = values[0] - Math.sqrt(Math.max(0, values[0] ** 2 - half ** 2));
      const side = (values[4] === 1 ? rise : -rise) / (2 * half);
      found.push([(from[0] + to[0]) / 2 + dy * side, (from[1] + to[1]) / 2 - dx * side]);
    }
    found.push(to);
  }
  return found;
}

const span = (path, k) => {
  const along = places(path).map((place) => place[k]);
  return Math.max(...along) - Math.min(...along);
};

test('a parallel is lines and arcs at its distance, and tells what it cannot follow', () => {
  const design = deck.defaultDesign();
  const { 'overall-length': length, 'overall-width': width } = deck.measure(design);
  for (const distance of [-4.825, 0, 3, 11.175]) {
    const { path, unfollowed } = deck.offset(design, distance);
    assert.match(path, /^M[-\d.]+,[-\d.]+( [LA][-\d., ]+)+ Z$/);
    assert.ok(Math.abs(span(path, 0) - length - 2 * distance) < 0.01, `${distance}: ${span(path, 0)} long`);
    assert.ok(Math.abs(span(path, 1) - width - 2 * distance) < 0.01, `${distance}: ${span(path, 1)} wide`);
    assert.deepEqual(unfollowed, []);
  }
  const inward = deck.offset(design, -90);
  assertPlain(inward);
  assert.ok(inward.unfollowed.length > 0);
  for (const { x, y, radius } of inward.unfollowed) {
    assert.ok(Math.abs(x) < 420 && y >= 0 && (radius === null || radius < 90), `${x}, ${y}, ${radius}`);
  }
  assert.equal(refusal(() => deck.offset(design, -200)).field, 'distance');
  assert.match(refusal(() => deck.offset(design, -200)).message, /leaves nothing/);
  assert.equal(refusal(() => deck.offset(design, NaN)).field, 'distance');
});

/** The path data of the first thing on a layer of an SVG file. */
const layer = (svg, key) => new RegExp(`<g id="${key}"[^>]*>\\s*<path d="([^"]+)"`).exec(svg)[1];

test('a template is as far from the outline as its cut, bushing and bit say', () => {
  const design = deck.defaultDesign();
  const length = deck.measure(design)['overall-length'];
  for (const [options, distance] of [
    [{ bushing: 16, bit: 6.35 }, -4.825],
    [{}, -4.825],
    [{ bushing: 15, bit: 9 }, -3],
    [{ bushing: 16, bit: 6.35, cut: 'window-deck' }, 11.175],
    [{ bushing: 16, bit: 6.35, cut: 'window-opening' }, 4.825],
    [{ bearing: 12.7, bit: 12.7 }, 0],
  ]) {
    const svg = deck.exportFile(design, 'svg', { part: 'template', ...options });
    const path = layer(svg, 'template');
    assert.ok(Math.abs(span(path, 0) - length - 2 * distance) < 0.01, JSON.stringify(options));
    // The waste of an opening lies inside: no line is sawn round it.
    const isSawn = options.cut !== 'window-opening';
    assert.ok(!isSawn || Math.abs(span(layer(svg, 'saw-line'), 0) - length - 4) < 0.01);
  }
});

test('every part leaves in every kind it has, and says whether it is developed or the plan', () => {
  const design = deck.defaultDesign();
  for (const part of ['deck', 'template', 'half-template', 'saw-line', 'offsets', 'mark-out']) {
    for (const projection of ['developed', 'plan']) {
      for (const kind of ['svg', 'dxf']) {
        const file = deck.exportFile(design, kind, { part, projection });
        assert.ok(file.includes(projection.toUpperCase()), `${part} ${projection} ${kind}`);
      }
      const pdf = deck.exportFile(design, 'pdf', { part, projection, paper: 'letter' });
      assert.ok(pdf instanceof Uint8Array && Buffer.from(pdf).subarray(0, 5).toString() === '%PDF-');
    }
  }
  const table = deck.exportFile(design, 'csv');
  assert.equal(table, deck.exportFile(design, 'csv', { part: 'offsets' }));
  assert.match(table, /Half-breadth mm/);
  assert.match(deck.exportFile(design, 'csv', { part: 'mark-out', tolerance: 0.5 }), /^Piece,Kind,/);
  assert.equal(deck.exportFile(design, 'svg', { part: undefined }), deck.exportFile(design, 'svg', { part: 'deck' }));
  assert.match(deck.exportFile(design, 'dxf', { dxfVersion: 'r12' }), /AC1009/);
  assert.match(deck.exportFile(design, 'dxf', { curves: 'splines' }), /SPLINE/);
  const drilled = deck.exportFile(design, 'svg', { part: 'template', drill: 8, date: '2026-05-02', version: 'second' });
  assert.match(drilled, /<circle [^>]*r="4"/);
  assert.match(drilled, /second, 2026-05-02/);
});

for (const [field, kind, options] of [
  ['options', 'svg', 7],
  ['options', 'svg', ['part']],
  ['colour', 'svg', { colour: 'red' }],
  ['part', 'svg', { part: 'wheel' }],
  ['part', 'svg', { part: 3 }],
  ['part', 'csv', { part: 'deck' }],
  ['paperWidth', 'pdf', { paper: 'custom', paperWidth: 90 }],
  ['bit', 'svg', { bit: 'wide' }],
  ['bit', 'svg', { bit: -1 }],
  ['bit', 'svg', { bit: NaN }],
  ['bushing', 'svg', { part: 'template', bushing: 6, bit: 6.35 }],
  ['cut', 'svg', { part: 'template', cut: 'inside' }],
  ['bearing', 'svg', { part: 'template', bushing: 16, bearing: 16 }],
  ['sawLine', 'svg', { sawLine: 99 }],
  ['projection', 'svg', { projection: 'above' }],
  ['dxfVersion', 'dxf', { dxfVersion: 'r99' }],
  ['curves', 'dxf', { curves: 'dots' }],
  ['curves', 'dxf', { dxfVersion: 'r12', curves: 'splines' }],
  ['tolerance', 'dxf', { tolerance: 9 }],
  ['tolerance', 'csv', { part: 'mark-out', tolerance: 9 }],
  ['paper', 'pdf', { paper: 'papyrus' }],
  ['margin', 'pdf', { paper: 'a4', margin: 50 }],
]) {
  test(`an export of ${kind} with ${JSON.stringify(options)} is refused by its field`, () => {
    const error = refusal(() => deck.exportFile(deck.defaultDesign(), kind, options));
    assert.equal(error.field, field, error.message);
    assert.ok(error.message.length > 10);
  });
}

test('a batten with free ends through pins on a circle is the circle', () => {
  const on = (degrees) => [0, 1].map((k) => 80 * [Math.cos, Math.sin][k]((degrees * Math.PI) / 180));
  const pins = [10, 40, 80, 100, 150].map(on);
  for (const options of [undefined, {}, { start: 100, end: 240 }]) {
    const places = joints(deck.batten(pins, options));
    assert.ok(places.length > pins.length);
    for (const [x, y] of places) assert.ok(Math.abs(Math.hypot(x, y) - 80) < 1e-4, `${x}, ${y}`);
  }
});

test('what is no batten is refused by its field', () => {
  assert.equal(refusal(() => deck.batten([[0, 0]])).field, 'points');
  assert.equal(refusal(() => deck.batten([[0, 0], [0, 0]])).field, 'points');
  assert.equal(refusal(() => deck.batten([[0, 0], ['a', 1]])).field, 'points');
  assert.equal(refusal(() => deck.batten(7)).field, 'points');
  assert.equal(refusal(() => deck.batten([[0, 0], [1, 1]], { start: 'up' })).field, 'start');
  assert.equal(refusal(() => deck.batten([[0, 0], [1, 1]], { end: Infinity })).field, 'points');
});

test('two designs compare by every measure and by where their edges lie farthest apart', () => {
  const before = deck.defaultDesign();
  const after = changed(({ shape }) => (shape.outline.nodes.at(-1).x += 6_000_000));
  const { a, b, farthest } = deck.compare(before, after);
  assert.deepEqual(a, deck.measure(before));
  assert.deepEqual(b, deck.measure(after));
  assert.ok(Math.abs(farthest.distance - 6) < 1e-3 && farthest.x > 412 && Math.abs(farthest.y) < 0.1);
  assert.ok(deck.compare(before, before).farthest.distance < 1e-3);
  assertPlain(deck.compare(before, after));
});

test('a projection comes from holes in any order, with the misfit of each', () => {
  const design = deck.defaultDesign();
  const places = [-234.95, -180.975, 180.975, 234.95].flatMap((x) => [[x, 20.6375], [x, -20.6375]]);
  // A tilted camera, written down as a matrix; y runs down in a picture.
  const see = ([x, y]) => {
    const w = 1 + 2e-4 * x - 3e-4 * y;
    return [(900 + 1.4 * x + 0.1 * y) / w, (700 + 0.05 * x - 1.5 * y) / w];
  };
  const order = [3, 6, 0, 7, 5, 1, 4, 2];
  const { matrix, misfits, holes } = deck.projection(order.map((i) => see(places[i])), design);
  assertPlain({ matrix, misfits, holes });
  assert.deepEqual(holes, order);
  assert.ok(misfits.every((misfit) => misfit < 1e-6), `${misfits}`);
  const apply = ([x, y]) => {
    const [u, v, w] = matrix.map(([a, b, c]) => a * x + b * y + c);
    return [u / w, v / w];
  };
  const rail = apply(see([100, 104]));
  assert.ok(Math.hypot(rail[0] - 100, rail[1] - 104) < 1e-6, `${rail}`);

  // One click five pixels off: its hole shows it most.
  const clicks = places.map(see);
  clicks[2] = [clicks[2][0] + 5, clicks[2][1]];
  const off = deck.projection(clicks, design).misfits;
  assert.equal(off.indexOf(Math.max(...off)), 2);
  assert.ok(off[2] > 1 && off[2] < 4, `${off}`);

  const inLine = refusal(() => deck.projection([0, 2, 4, 6].map((i) => see(places[i])), design));
  assert.equal(inLine.field, 'imagePoints');
  assert.match(inLine.message, /in a line/);
  for (const bad of [undefined, 'no', [1, 2], [[1]], [[NaN, 1], [2, 3], [4, 5], [6, 7]], places.concat([[1, 2]])]) {
    assert.equal(refusal(() => deck.projection(bad, design)).field, 'imagePoints');
  }
});

test('every figure of the workshop has a value or a reason, a unit and a source', () => {
  const figures = deck.workshop(deck.defaultDesign());
  assert.ok(Object.keys(figures).length > 50);
  for (const [key, { value, unit, source, estimate, reason }] of Object.entries(figures)) {
    assert.ok(Number.isFinite(value) || (value === null && reason), key);
    assert.equal(typeof unit, 'string', key);
    assert.equal(typeof estimate, 'boolean', key);
    assert.ok(source.length > 3, key);
  }
  // Seven plies of 1.5 mm and six lines of 0.1 mm.
  assert.ok(Math.abs(figures['finished-thickness'].value - 11.1) < 1e-9);
  assert.equal(figures['stiffness-ratio'].value, null);
  assert.equal(figures['glue-mass'].value, deck.measure(deck.defaultDesign())['glue-mass']);
});

test('what the workshop is told in a design changes its figures', () => {
  const told = changed((design) => {
    design.workshop.run.decks = 20;
    design.shape.layup.plies.forEach((ply) => { ply.wood = 'yellow-birch'; });
  });
  const [before, after] = [deck.workshop(deck.defaultDesign()), deck.workshop(told)];
  assert.equal(after['veneers-along'].value, 2 * before['veneers-along'].value);
  assert.ok(after.deflection.value < before.deflection.value, 'birch is stiffer');
  assert.deepEqual(deck.decodeLink(deck.encodeLink(told)).workshop, told.workshop);
});

test('alternate equal plies without stiffness across have 244/343 of the modulus of their wood', () => {
  const plies = [0, 90, 0, 90, 0, 90, 0].map((angle) => ({ thickness: 1.5, along: 12_600, across: 0, angle }));
  const { along, across, thickness } = deck.laminate(plies);
  assert.ok(Math.abs(along.E / 12_600 - 244 / 343) < 1e-12);
  assert.ok(Math.abs(across.E / 12_600 - 99 / 343) < 1e-12);
  assert.ok(Math.abs(along.D - (along.E * thickness ** 3) / 12) < 1e-6);
  assert.ok(Math.abs(deck.laminate(plies, { width: 200 }).along.D - 200 * along.D) < 1e-3);
});

for (const [plies, options, field] of [
  [[], {}, 'plies'],
  [undefined, {}, 'plies'],
  [[{ thickness: 0, along: 1, across: 1, angle: 0 }], {}, 'ply-thickness'],
  [[{ thickness: -1, along: 1, across: 1, angle: 0 }], {}, 'plies[0].thickness'],
  [[{ thickness: 1, along: 1, across: 1, angle: 45 }], {}, 'plies[0].angle'],
  [[{ thickness: 1, along: 1, angle: 0 }], {}, 'plies[0].across'],
  [[{ thickness: 1, along: 1, across: 1, angle: 0 }], { width: 0 }, 'width'],
]) {
  test(`a stack of ${JSON.stringify(plies)} with ${JSON.stringify(options)} is refused by its field`, () => {
    const error = refusal(() => deck.laminate(plies, options));
    assert.equal(error.field, field);
    assert.ok(error.message.length > 10);
  });
}
