// What the page does not do: take memory, call others, work when nothing happens.

import assert from 'node:assert/strict';
import { scenario } from './driver.mjs';

scenario('a thousand drags that are broken off take no memory', {}, async (page) => {
  const centre = await page.handle('n2').centre();
  const drags = (count) =>
    page.evaluate(
      async ({ count, x, y }) => {
        const stage = document.querySelector('#stage');
        const send = (type, dx, dy) =>
          stage.dispatchEvent(
            new PointerEvent(type, { pointerId: 7, pointerType: 'pen', button: 0, bubbles: true, clientX: x + dx, clientY: y + dy }),
          );
        for (let i = 0; i < count; i++) {
          send('pointerdown', 0, 0);
          send('pointermove', 3, 12 + (i % 9));
          if (i % 5 === 0) {
            await new Promise(requestAnimationFrame);
          }
          send('pointermove', -4, 20 + (i % 7));
          send('pointercancel', 0, 0);
        }
        await new Promise(requestAnimationFrame);
      },
      { count, ...centre },
    );
  const before = await page.readouts();
  await drags(200); // to have every cache filled
  const start = await page.memory();
  await drags(1000);
  const end = await page.memory();
  assert.deepEqual(await page.readouts(), before);
  assert.ok(end.scripts - start.scripts < 1e6, `scripts: ${end.scripts - start.scripts} bytes more`);
  assert.equal(end.wasm, start.wasm, 'the memory of the wasm');
});

scenario('the page asks for nothing from anyone else, online or off', {}, async (page) => {
  const asked = await page.evaluate(() => performance.getEntriesByType('resource').map(({ name }) => new URL(name).origin));
  const own = await page.evaluate(() => location.origin);
  assert.deepEqual(asked.filter((origin) => origin !== own), []);
  await page.offline();
  await page.dragBy(page.handle('n2'), { y: 14 });
  await page.saved();
  await page.command('copy-link');
  await page.room('cut');
  const { bytes } = await page.download(() => page.command('export-dxf'));
  assert.ok(bytes.length > 1000);
  await page.offline(false);
});

scenario('a page left alone draws nothing', {}, async (page) => {
  const frames = () => page.part('body').attribute('data-frames');
  await page.saved();
  await page.frame();
  const before = await frames();
  await page.evaluate(() => new Promise((done) => setTimeout(done, 300)));
  assert.equal(await frames(), before);
});

scenario('many moves between two frames are one recompute', {}, async (page) => {
  const centre = await page.handle('n2').centre();
  const frames = async () => Number(await page.part('body').attribute('data-frames'));
  const hold = await page.grab(page.handle('n2'));
  await hold.moveBy({ y: 6 }, 1);
  const before = await frames();
  await page.evaluate(async ({ x, y }) => {
    const stage = document.querySelector('#stage');
    await new Promise(requestAnimationFrame);
    for (let i = 0; i < 50; i++) {
      stage.dispatchEvent(new PointerEvent('pointermove', { pointerId: 1, clientX: x, clientY: y + i / 5, bubbles: true }));
    }
  }, centre);
  await page.frame();
  assert.ok((await frames()) - before <= 1, `${(await frames()) - before} frames`);
  await hold.release();
});
