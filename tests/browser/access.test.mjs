// For users of assistive tools, at every size, in light and dark.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { select } from './steps.mjs';

for (const [name, size] of Object.entries(sizes)) {
  for (const scheme of ['light', 'dark']) {
    scenario(`axe finds nothing wrong on a ${name} in ${scheme}, whatever is in hand`, { ...size, scheme }, async (page) => {
      assert.deepEqual(await page.violations(), [], 'at the start');
      await select(page, 'n2');
      assert.deepEqual(await page.violations(), [], 'with a node selected');
      await page.enter('node-across', '8 5/4');
      assert.deepEqual(await page.violations(), [], 'with a refused field');
      for (const room of ['layup', 'cut']) {
        await page.room(room);
        assert.deepEqual(await page.violations(), [], `in the room ${room}`);
      }
    });
  }
}
