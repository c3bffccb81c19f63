import assert from 'node:assert/strict';
import { readFile } from 'node:fs/promises';
import { test } from 'node:test';
import { scenario, sizes } from './driver.mjs';
import { dist } from './server.mjs';

for (const [name, size] of Object.entries(sizes)) {
  scenario(`the page opens without error on a ${name}`, size, async (page) => {
    assert.notEqual(await page.title(), '');
    await page.screenshot(name);
  });
}

test('the package loads in Node, where there is no window', async () => {
  assert.equal(globalThis.window, undefined);
  const { default: init } = await import(`${dist}halfbreadth.js`);
  await init({ module_or_path: await readFile(`${dist}halfbreadth_bg.wasm`) });
});
