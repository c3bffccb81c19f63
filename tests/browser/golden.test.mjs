// The wasm makes the same files as the native program, byte for byte, and the same measures, to the last bit.

import assert from 'node:assert/strict';
import { readFile, readdir } from 'node:fs/promises';
import { before, test } from 'node:test';
import { scenario } from './driver.mjs';
import { dist } from './server.mjs';

const kept = (path) => readFile(new URL(`../${path}`, import.meta.url), 'utf8');
const names = async (folder) =>
  (await readdir(new URL(`../${folder}/`, import.meta.url)))
    .filter((file) => file.endsWith('.link'))
    .map((file) => file.replace(/\.link$/, ''));

const decks = await names('golden');
const versions = (await readdir(new URL('../links/', import.meta.url))).filter((entry) => /^v\d+$/.test(entry));

let deck;

before(async () => {
  deck = await import(`${dist}halfbreadth.js`);
  deck.initSync({ module: await readFile(`${dist}halfbreadth_bg.wasm`) });
});

test('there are golden files and released links', () => {
  assert.ok(decks.length >= 4 && versions.length >= 1);
});

for (const name of decks) {
  test(`the files of ${name} are the golden ones`, async () => {
    const design = JSON.parse(await kept(`golden/${name}.json`));
    assert.deepEqual(deck.validate(design), []);
    for (const kind of ['svg', 'dxf']) {
      assert.equal(deck.exportFile(design, kind), await kept(`golden/${name}.${kind}`));
    }
    assert.equal(`${deck.encodeLink(design)}\n`, await kept(`golden/${name}.link`));
  });

  test(`the measures of ${name} are the golden ones, to the last bit`, async () => {
    const measures = deck.measure(JSON.parse(await kept(`golden/${name}.json`)));
    const golden = JSON.parse(await kept(`golden/${name}.measures.json`));
    assert.deepEqual(Object.keys(measures), Object.keys(golden));
    for (const [key, value] of Object.entries(golden)) {
      assert.ok(Object.is(measures[key], value), `${key}: ${measures[key]}, not ${value}`);
    }
  });

  test(`the workshop's figures of ${name} are the golden ones, to the last bit`, async () => {
    const figures = deck.workshop(JSON.parse(await kept(`golden/${name}.json`)));
    const golden = JSON.parse(await kept(`golden/${name}.workshop.json`));
    assert.deepEqual(Object.keys(figures).slice(0, Object.keys(golden).length), Object.keys(golden));
    for (const [key, value] of Object.entries(golden)) {
      assert.ok(Object.is(figures[key].value, value), `${key}: ${figures[key].value}, not ${value}`);
    }
  });
}

for (const { file, deck: name, kind, options } of JSON.parse(await kept('golden/exports.json'))) {
  test(`${file} is the golden one`, async () => {
    const made = deck.exportFile(JSON.parse(await kept(`golden/${name}.json`)), kind, options);
    const golden = await readFile(new URL(`../golden/${file}`, import.meta.url));
    assert.ok(golden.equals(Buffer.from(made)), `${file} differs`);
  });
}

for (const version of versions) {
  for (const name of await names(`links/${version}`)) {
    test(`the link ${version}/${name} opens to its deck`, async () => {
      const link = await kept(`links/${version}/${name}.link`);
      const design = JSON.parse(await kept(`links/${version}/${name}.json`));
      const opened = deck.decodeLink(link);
      assert.deepEqual(deck.validate(opened), []);
      // Both in one form: a design file may be older than keys that are written now.
      assert.equal(deck.encodeLink(opened), deck.encodeLink(design));
      assert.deepEqual(deck.measure(opened), deck.measure(design));
    });
  }
}

scenario('what the page downloads is the golden file', {}, async (page) => {
  await page.room('cut');
  for (const [command, kind] of [['save-file', 'json'], ['export-svg', 'svg'], ['export-dxf', 'dxf']]) {
    const { name, bytes } = await page.download(() => page.command(command));
    assert.equal(name, `turnstone.${kind}`);
    assert.equal(bytes.toString('utf8'), await kept(`golden/turnstone.${kind}`));
  }
});
