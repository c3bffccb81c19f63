// For users of assistive tools, at every size, in light and dark.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { select, turnstone } from './steps.mjs';

/** Contrast of a part's letters with the ground behind them, as WCAG 2.2 reckons it (relative luminance of sRGB). */
function contrast(element) {
  const channels = (colour) => colour.match(/[\d.]+/g).map(Number);
  const luminance = (colour) => {
    const [r, g, b] = channels(colour).map((c) => (c / 255 <= 0.04045 ? c / 255 / 12.92 : ((c / 255 + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  let ground = element;
  while (channels(getComputedStyle(ground).backgroundColor)[3] === 0) {
    ground = ground.parentElement;
  }
  const [dark, light] = [getComputedStyle(element).color, getComputedStyle(ground).backgroundColor].map(luminance).sort((a, b) => a - b);
  return (light + 0.05) / (dark + 0.05);
}

for (const scheme of ['light', 'dark']) {
  scenario(`a pressed button can be read while the pointer is on it in ${scheme}`, { scheme }, async (page) => {
    await page.command('redraw');
    for (const command of ['redraw', 'units-mm', 'units-inch']) {
      const button = page.commandPart(command);
      await button.hover();
      if (command === 'units-inch') {
        await button.click();
      }
      assert.equal(await button.attribute('aria-pressed'), 'true', command);
      const found = await button.evaluate(contrast);
      assert.ok(found >= 4.5, `${command}: ${found}`);
    }
  });
}

for (const [name, size] of Object.entries(sizes)) {
  for (const scheme of ['light', 'dark']) {
    scenario(`axe finds nothing wrong on a ${name} in ${scheme}, whatever is in hand`, { ...size, scheme }, async (page) => {
      assert.deepEqual(await page.violations(), [], 'at the start');
      await select(page, turnstone.widest);
      assert.deepEqual(await page.violations(), [], 'with a node selected');
      await page.enter('node-across', '8 5/4');
      assert.deepEqual(await page.violations(), [], 'with a refused field');
      for (const room of ['layup', 'press', 'cut', 'sheet']) {
        await page.room(room);
        assert.deepEqual(await page.violations(), [], `in the room ${room}`);
      }
    });
  }
}
