// Each figure on the drawing is the field: tap it, type, and the shape follows.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { openDemo, turnstone } from './steps.mjs';

const figure = (page, key) => page.part(`[data-figure-field="${key}"]`);
const field = (page, key) => page.part(`[data-field-on-drawing="${key}"]`);

/** Taps a figure by a pointer, as a person does, on its letters. */
async function tap(page, key, by) {
  await (await page.grab(figure(page, key), { by })).release();
}

for (const by of ['mouse', 'pen', 'touch']) {
  for (const [name, size] of Object.entries({ desktop: sizes.desktop, tablet: sizes.tablet, phone: sizes.phone })) {
    scenario(`a width tapped by ${by} on the drawing of a ${name} is typed in place, and the shape follows`, { ...size, touch: by === 'touch' }, async (page) => {
      await page.command('units-inch');
      await openDemo(page, 'dunlin');
      await tap(page, 'overall-width', by);
      assert.ok(await field(page, 'overall-width').focused(), 'the field has the focus');
      assert.equal(await field(page, 'overall-width').value(), '7 1/2');
      const [letters, box] = [await figure(page, 'overall-width').centre(), await field(page, 'overall-width').box()];
      assert.ok(letters.x > box.x && letters.x < box.x + box.width && letters.y > box.y && letters.y < box.y + box.height, 'it lies over the figure');
      await page.type('8 1/4');
      await page.press('Enter');
      assert.equal(await field(page, 'overall-width').count(), 0, 'and closes');
      assert.ok(Math.abs((await page.readout('overall-width')) - 209.55) < 1e-3);
      assert.equal(await page.undoStep(), 'set width');
    });
  }
}

scenario('a figure is reached, opened, typed into and left by the keyboard alone', {}, async (page) => {
  for (let i = 0; i < 60 && (await page.part('#figures :focus').count()) === 0; i++) {
    await page.press('Tab');
  }
  while ((await page.focused().attribute('data-figure-field')) !== 'overall-width') {
    await page.press('Tab');
    assert.ok((await page.part('#figures :focus').count()) > 0, 'the width is among the figures');
  }
  assert.equal(await page.focused().attribute('aria-label'), 'Set Width: 209.6 mm');
  await page.press('Enter');
  await page.type('8 1/4 in');
  await page.press('Enter');
  assert.equal(await page.undoStep(), null, 'it has that width already');
  assert.equal(await page.focused().attribute('data-figure-field'), 'overall-width', 'the focus comes back');
  await page.press('Enter');
  await page.type('205');
  await page.press('Enter');
  assert.ok(Math.abs((await page.readout('overall-width')) - 205) < 1e-3);
  await page.press('Space');
  await page.type('199');
  await page.press('Escape');
  assert.equal(await page.focused().attribute('data-figure-field'), 'overall-width');
  assert.ok(Math.abs((await page.readout('overall-width')) - 205) < 1e-3, 'Esc leaves it as it was');
});

scenario('what a figure cannot be is refused in the status line with the nearest value, and the field stays', {}, async (page) => {
  await openDemo(page, 'dunlin');
  const before = await page.readouts();
  await tap(page, 'waist-width', 'mouse');
  await page.type('200');
  await page.press('Enter');
  assert.match(await page.notice(), /cannot be met.*the nearest is 1\d\d(\.\d+)? mm/);
  assert.ok(await field(page, 'waist-width').focused());
  assert.equal(await field(page, 'waist-width').attribute('aria-invalid'), 'true');
  assert.deepEqual(await page.readouts(), before);
  assert.deepEqual(await page.violations(), []);
  await page.press('Escape');
  assert.equal(await field(page, 'waist-width').count(), 0);
  assert.equal(await page.field('waist-width').attribute('aria-invalid'), null);
  assert.deepEqual(await page.readouts(), before);
});

scenario('a figure that is opened and left changes nothing, and a drag from it pushes the window', {}, async (page) => {
  await page.dragBy(page.handle(turnstone.widest), { y: 3.7 });
  const before = await page.readouts();
  const revision = await page.part('body').attribute('data-revision');
  await tap(page, 'overall-length', 'mouse');
  await page.press('Enter');
  await tap(page, 'overall-width', 'mouse');
  await tap(page, 'overall-length', 'mouse');
  assert.equal(await field(page, 'overall-width').count(), 0, 'one field at a time');
  await page.handle(turnstone.tailBend).part('[role=slider]').first().focus();
  assert.equal(await page.part('#figure-field').visible(), false);
  assert.deepEqual(await page.readouts(), before);
  assert.equal(await page.part('body').attribute('data-revision'), revision);
  const place = await page.handle(turnstone.tailBend).centre();
  await page.dragBy(figure(page, 'overall-length'), { x: 30, y: 20 });
  const now = await page.handle(turnstone.tailBend).centre();
  assert.ok(Math.abs(now.x - place.x - 30) < 1 && Math.abs(now.y - place.y - 20) < 1);
  assert.equal(await page.part('#figure-field').visible(), false);
});

scenario('what is typed into a figure is taken when it is left', {}, async (page) => {
  await tap(page, 'wheelbase', 'mouse');
  await page.type('14 in');
  await page.field('name').click();
  assert.equal(await page.readout('platform-length'), 508 - 361.95 + 355.6);
});

for (const [name, size] of Object.entries(sizes)) {
  scenario(`the figures of a ${name} are whole, large enough and named`, { ...size, touch: true }, async (page) => {
    for (const deck of ['turnstone', 'whimbrel', 'dunlin']) {
      await openDemo(page, deck);
      const figures = await page.evaluate(() => {
        const stage = document.querySelector('#stage').getBoundingClientRect();
        return [...document.querySelectorAll('#figures button')].map((button) => {
          const { left, top, right, bottom } = button.getBoundingClientRect();
          const [x, y] = [(left + right) / 2, (top + bottom) / 2];
          return {
            key: button.dataset.figureField,
            label: button.getAttribute('aria-label'),
            large: right - left >= 43.9 && bottom - top >= 43.9,
            within: x > stage.left && x < stage.right && y > stage.top && y < stage.bottom,
          };
        });
      });
      assert.ok(figures.length >= 6, JSON.stringify(figures));
      assert.deepEqual(figures.filter(({ label, large, within }) => !large || !within || !/^Set .+: .*\d.*( mm|°)$/.test(label)), []);
      assert.equal(new Set(figures.map(({ key }) => key)).size, figures.length);
    }
  });

  scenario(`no letters on the drawing of a ${name} lie on others`, size, async (page) => {
    for (const units of ['mm', 'inch']) {
      await page.command(`units-${units}`);
      for (const deck of ['turnstone', 'whimbrel', 'dunlin']) {
        await openDemo(page, deck);
        const overlaps = await page.evaluate(() => {
          const stage = document.querySelector('#stage').getBoundingClientRect();
          // Some browsers count the bare ground around the letters to what bounds them in the window.
          const bounds = (element) => {
            const { x, y, width, height } = element.getBBox();
            const corners = [[x, y], [x + width, y], [x, y + height], [x + width, y + height]].map(([x, y]) =>
              new DOMPoint(x, y).matrixTransform(element.getScreenCTM()),
            );
            const [across, down] = ['x', 'y'].map((axis) => corners.map((corner) => corner[axis]));
            return { left: Math.min(...across), right: Math.max(...across), top: Math.min(...down), bottom: Math.max(...down) };
          };
          const texts = [...document.querySelectorAll('#letters text')].map((element) => ({
            text: element.textContent,
            box: bounds(element),
          }));
          const found = texts
            .filter(({ box }) => box.left < stage.left || box.right > stage.right || box.top < stage.top || box.bottom > stage.bottom)
            .map(({ text }) => `${text} is cut off`);
          texts.forEach((a, i) =>
            texts.slice(0, i).forEach((b) => {
              // The boxes hold the room above and below the letters too, which may touch.
              const x = Math.min(a.box.right, b.box.right) - Math.max(a.box.left, b.box.left);
              const y = Math.min(a.box.bottom, b.box.bottom) - Math.max(a.box.top, b.box.top);
              if (x > 2 && y > 2) found.push(`${a.text} on ${b.text}`);
            }),
          );
          return found;
        });
        assert.deepEqual(overlaps, [], `${deck} in ${units}`);
      }
    }
  });
}
