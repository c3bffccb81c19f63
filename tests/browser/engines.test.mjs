// The whole job in short, in every engine: `HALFBREADTH_ENGINE=firefox node --test engines.test.mjs`, or `webkit`.

import assert from 'node:assert/strict';
import { pathToFileURL } from 'node:url';
import { engine } from './browser.mjs';
import { scenario, sizes } from './driver.mjs';
import { oneFile } from './server.mjs';
import { turnstone } from './steps.mjs';

const text = (bytes) => new TextDecoder('utf-8', { fatal: true }).decode(bytes);

for (const [where, options] of [
  ['from a server', {}],
  ['from a disk, in one file', { url: pathToFileURL(oneFile).href }],
]) {
  scenario(`${engine}, ${where}: open, drag, type, undo, save, link, reload`, options, async (page) => {
    const first = await page.readouts();
    await page.dragBy(page.handle(turnstone.widest), { y: 14 });
    assert.equal(await page.undoStep(), 'moved node 9');
    const dragged = await page.readouts();
    assert.notEqual(dragged.area, first.area);

    await page.enter('overall-width', '8 1/4"');
    assert.ok(Math.abs((await page.readout('overall-width')) - 209.55) < 1e-3);
    await page.enter('name', 'Godwit');
    const mine = await page.readouts();
    await page.press('Tab'); // out of the field, which has an undo of its own
    await page.press('Control+z');
    await page.press('Control+z');
    assert.deepEqual(await page.readouts(), dragged);
    await page.command('redo');
    await page.command('redo');
    assert.deepEqual(await page.readouts(), mine);

    await page.command('copy-link');
    const link = await page.part('#link').value();
    assert.match(link, /#d=[\w-]{100,}$/);
    await page.room('cut');
    const svg = await page.download(() => page.command('export-svg'));
    assert.equal(svg.name, 'godwit.svg');
    assert.match(text(svg.bytes), /^<\?xml|^<svg/);
    const pdf = await page.download(() => page.command('export-pdf'));
    assert.match(new TextDecoder('latin1').decode(pdf.bytes), /^%PDF-/);
    const file = await page.download(() => page.command('save-file'));
    assert.equal(JSON.parse(text(file.bytes)).name, 'Godwit');

    await page.saved();
    await page.reload();
    assert.deepEqual(await page.readouts(), mine, 'what was kept');
    assert.equal(await page.part('body').attribute('data-copy'), null);
    await page.room('cut');
    await page.command('open-dunlin');
    assert.notDeepEqual(await page.readouts(), mine);
    await page.part('#pasted').fill(link);
    await page.commandPart('open-link').click();
    assert.deepEqual(await page.readouts(), mine, 'what the link carries');
    await page.screenshot(`${engine} ${where}`);
  });
}

scenario(`${engine}: axe finds nothing wrong`, sizes.desktop, async (page) => {
  for (const room of ['draw', 'layup', 'press', 'cut', 'sheet']) {
    await page.room(room);
    assert.deepEqual(await page.violations(), [], room);
  }
});

scenario(`${engine}: the page is kept for times without a network`, {}, async (page) => {
  await page.until(async () => (await page.part('body').attribute('data-offline')) !== null, 'body[data-offline]', 30_000);
  assert.ok(await page.evaluate(async () => (await caches.keys()).length === 1));
  assert.equal(await page.part('.kept-offline').count(), 1);
});

scenario(`${engine}: the page asks for nothing from anyone else`, {}, async (page) => {
  const found = await page.evaluate(() => ({
    asked: performance.getEntriesByType('resource').map(({ name }) => new URL(name).origin),
    own: location.origin,
  }));
  assert.deepEqual(found.asked.filter((origin) => origin !== found.own), []);
});
