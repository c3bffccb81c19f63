// The theme for a bright workshop.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';

for (const [name, size] of Object.entries(sizes)) {
  scenario(`the workshop theme is black on white with thick lines and large figures on a ${name}`, { ...size, scheme: 'dark' }, async (page) => {
    const theme = page.commandPart('toggle-workshop');
    if (!(await theme.visible())) {
      await page.part('[data-sheet]').click();
    }
    await theme.click();
    await page.reload();
    assert.equal(await page.part('body').attribute('data-theme'), 'workshop', 'it stays');
    const look = await page.evaluate(() => {
      const style = (selector) => getComputedStyle(document.querySelector(selector));
      return {
        colours: [style('body').color, style('body').backgroundColor],
        edge: parseFloat(style('#board .edge').strokeWidth),
        mirror: parseFloat(style('#board .edge-mirror').strokeWidth),
        figures: [...document.querySelectorAll('.figure, #letters text')].map((e) => parseFloat(getComputedStyle(e).fontSize)),
        wide: document.documentElement.scrollWidth > innerWidth,
      };
    });
    assert.deepEqual(look.colours, ['rgb(0, 0, 0)', 'rgb(255, 255, 255)']);
    assert.ok(look.edge >= 3 && look.mirror >= 3, `${look.edge} and ${look.mirror} px`);
    assert.ok(Math.min(...look.figures) >= 20, `${Math.min(...look.figures)} px`);
    assert.equal(look.wide, false);
    await page.screenshot(`workshop ${name}`);
    for (const room of ['draw', 'layup', 'press', 'cut', 'sheet']) {
      await page.room(room);
      assert.deepEqual(await page.violations(), [], room);
    }
  });
}
