// Large fingers and small windows: everything is whole, within reach, and stays where it is.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { select } from './steps.mjs';

/** Every button and field that can be seen, with what would be hit in its middle; figures on the drawing are elsewhere. */
const controls = () =>
  [...document.querySelectorAll('button, input:not([type=file]), textarea')]
    .filter((element) => element.checkVisibility({ visibilityProperty: true }) && !element.closest('#figures'))
    .map((element) => {
      element.scrollIntoView({ block: 'nearest' });
      const { left, top, right, bottom } = element.getBoundingClientRect();
      const hit = document.elementFromPoint((left + right) / 2, (top + bottom) / 2);
      const { command, nudge, room, field } = element.dataset;
      return {
        name: command ?? nudge ?? room ?? field ?? element.textContent.trim(),
        width: right - left,
        height: bottom - top,
        // Parts that fill the window together end at it but for the last digits of their fractions.
        within: left >= 0 && right <= innerWidth + 1e-3 && top >= 0 && bottom <= innerHeight + 0.5,
        hit: element.contains(hit),
        // What ends in dots on purpose says the rest in its title.
        cut: element.tagName !== 'TEXTAREA' && getComputedStyle(element).textOverflow !== 'ellipsis' && element.scrollWidth > element.clientWidth + 1,
        steps: nudge !== undefined,
      };
    });

const small = { narrow: { width: 320, height: 640 }, onItsSide: { width: 844, height: 390 } };

/** Every label, figure and unit that can be seen and is cut off, by its own box or the window. */
const cutOff = () =>
  [...document.querySelectorAll('.label, .figure, .unit, .remark, .change, output, h2, td, th')]
    .filter((element) => element.textContent && element.checkVisibility({ visibilityProperty: true }))
    .filter((element) => getComputedStyle(element).clipPath === 'none')
    .filter((element) => {
      const { left, right } = element.getBoundingClientRect();
      const held = element.clientWidth > 0 && element.scrollWidth > element.clientWidth + 1;
      return held || left < -0.5 || right > innerWidth + 0.5;
    })
    .map((element) => element.textContent);

/** Every choice too narrow to read what is chosen, or its first letters where that is long. */
const squeezed = () => {
  const pen = document.createElement('canvas').getContext('2d');
  return [...document.querySelectorAll('select')]
    .filter((select) => select.checkVisibility() && select.selectedOptions.length)
    .filter((select) => {
      pen.font = getComputedStyle(select).font;
      const words = pen.measureText(select.selectedOptions[0].text).width;
      return select.clientWidth < Math.min(words + 20, 110);
    })
    .map((select) => `${select.dataset.field}: ${select.clientWidth}`);
};

/** How much longer and wider than the window the page is: its parts scroll, the page itself never does. */
const beyondWindow = () => {
  const { scrollHeight, scrollWidth } = document.documentElement;
  return [Math.max(0, scrollHeight - innerHeight), Math.max(0, scrollWidth - innerWidth)];
};

for (const [name, size] of Object.entries({ ...sizes, ...small })) {
  for (const units of ['mm', 'inch']) {
    scenario(`no label, figure or typed value on a ${name} in ${units} is cut off`, { ...size, touch: true }, async (page) => {
      await page.command(`units-${units}`);
      await page.dragBy(page.handle('n1'), { x: 3.3, y: 2.7 }, { by: 'touch' });
      await page.room('press');
      await page.command('begin-record');
      for (const room of ['draw', 'layup', 'press', 'cut', 'sheet']) {
        await page.room(room);
        assert.deepEqual(await page.evaluate(cutOff), [], room);
        const fields = (await page.evaluate(controls)).filter(({ cut }) => cut);
        assert.deepEqual(fields, [], room);
        assert.deepEqual(await page.evaluate(squeezed), [], room);
        assert.deepEqual(await page.evaluate(beyondWindow), [0, 0], room);
      }
      await page.room('draw');
      await page.enter('nose-kick-taper', '10.25');
      assert.equal(await page.field('nose-kick-taper').value(), '10.25');
      assert.deepEqual((await page.evaluate(controls)).filter(({ cut }) => cut), [], 'with a taper typed');
      await page.field('nose-kick-taper').fill('-88.25');
      assert.deepEqual((await page.evaluate(controls)).filter(({ cut }) => cut), [], 'while a taper is typed');
    });
  }

  scenario(`on a ${name} what there is to look at moves nothing when it comes`, { ...size, touch: true }, async (page) => {
    const places = () =>
      page.evaluate(() => {
        document.querySelectorAll('.panel, .rest').forEach((scroller) => scroller.scrollTo(0, 0));
        // What is wrong with a value stands under its field and moves what comes after that, and nothing else.
        const typed = document.querySelector('[data-field=blank-width]');
        const isAfter = (element) => typed.checkVisibility() && typed.compareDocumentPosition(element) & Node.DOCUMENT_POSITION_FOLLOWING;
        return [...document.querySelectorAll('#stage, .four .label, .sheet-handle, .rest h2, .rest .field, .rest button')]
          .filter((element) => element.checkVisibility() && !isAfter(element))
          .map((element) => [element.id || element.textContent, element.getBoundingClientRect().y]);
      });
    await page.room('layup');
    const before = await places();
    assert.equal(await page.part('#problems li').count(), 0);
    await page.enter('blank-width', '215');
    assert.ok(await page.part('#problems li').first().visible());
    assert.deepEqual(await places(), before);
    await page.room('draw');
    const drawing = await places();
    await page.room('layup');
    await page.enter('blank-width', '241.3');
    await page.room('draw');
    assert.equal(await page.part('#problems li').count(), 0);
    assert.deepEqual(await places(), drawing);
  });

  for (const touch of [false, true]) {
    scenario(`every button and field on a ${name} ${touch ? 'touched' : 'clicked'} is whole, within reach and large enough`, { ...size, touch }, async (page) => {
      await select(page, 'n2');
      for (const room of ['draw', 'layup', 'press', 'cut', 'sheet']) {
        await page.room(room);
        for (const control of await page.evaluate(controls)) {
          const what = `${room}: ${JSON.stringify(control)}`;
          assert.ok(control.within && !control.cut, what);
          assert.ok(room !== 'draw' || control.hit, what);
          const least = touch && control.steps && size.width >= 360 ? 60 : 44;
          assert.ok(control.width >= least - 0.5 && control.height >= least - 0.5, what);
        }
      }
    });
  }

  scenario(`nothing on a ${name} needs scrolling sideways`, size, async (page) => {
    for (const room of ['draw', 'layup', 'press', 'cut', 'sheet']) {
      await page.room(room);
      const wide = await page.evaluate(() =>
        [document.documentElement, document.querySelector('.panel'), document.querySelector('.rest')]
          .filter((element) => element.scrollWidth > element.clientWidth)
          .map((element) => `${element.tagName}: ${element.scrollWidth} in ${element.clientWidth}`),
      );
      assert.deepEqual(wide, [], room);
    }
  });

  scenario(`the deck on a ${name} stays where it is, whatever is selected`, { ...size, touch: true }, async (page) => {
    const stage = await page.part('#stage').box();
    const { x, y } = await page.handle('n3').centre();
    for (const id of ['n3', 'n4', 'n2']) {
      await (await page.grab(page.handle(id), { by: 'touch' })).release();
      assert.deepEqual(await page.part('#stage').box(), stage, `with ${id} selected`);
    }
    const [a, b] = [await page.handle('n2').centre(), await page.handle('n3').centre()];
    await (await page.grab({ x: a.x + 0.6 * (b.x - a.x), y: a.y + 0.6 * (b.y - a.y) }, { by: 'touch' })).release();
    assert.deepEqual(await page.part('#stage').box(), stage);
    const now = await page.handle('n3').centre();
    assert.ok(Math.hypot(now.x - x, now.y - y) < 0.2);
  });

  scenario(`every handle on a ${name} is 44 px or more`, size, async (page) => {
    await select(page, 'n2');
    const boxes = await page.evaluate(() =>
      [...document.querySelectorAll('[data-handle]')].map((element) => {
        const { width, height } = element.getBoundingClientRect();
        return { id: element.dataset.handle, width, height };
      }),
    );
    assert.ok(boxes.length >= 8);
    assert.deepEqual(boxes.filter(({ width, height }) => width < 43.99 || height < 43.99), []);
  });
}

for (const [by, reach] of [['mouse', 12], ['pen', 20], ['touch', 30]]) {
  scenario(`the handle nearest to the ${by} within ${reach} px wins, beyond it none`, { touch: by === 'touch' }, async (page) => {
    const handles = () =>
      page.evaluate(() =>
        [...document.querySelectorAll('[data-handle]')].map((element) => {
          const { left, top } = element.getBoundingClientRect();
          return { id: element.dataset.handle, x: left + 22, y: top + 22 };
        }),
      );
    const far = 0.94 * reach;
    for (const id of ['n1', 'n2', 'n4']) {
      for (const [dx, dy] of [[0, 0], [far, 0], [-far, 0], [0, far], [0, -far], [0.6 * far, 0.6 * far], [-0.6 * far, 0.6 * far], [0, -reach - 2]]) {
        const node = (await handles()).find((handle) => handle.id === id);
        const at = { x: node.x + dx, y: node.y + dy };
        const ranked = (await handles())
          .map((handle) => ({ ...handle, distance: Math.hypot(handle.x - at.x, handle.y - at.y) }))
          .sort((a, b) => a.distance - b.distance);
        if (ranked[1].distance - ranked[0].distance < 1 || Math.abs(ranked[0].distance - reach) < 0.5) {
          continue; // a tie is anyone's
        }
        const onLetters = await page.evaluate(({ x, y }) =>
          [...document.querySelectorAll('#letters text')].some((element) => {
            const { left, top, right, bottom } = element.getBoundingClientRect();
            return left - 12 < x && x < right + 12 && top - 2 < y && y < bottom + 2;
          }), at);
        if (onLetters && ranked[0].distance > 12) {
          continue; // a tap on the letters of a figure is the figure's
        }
        await (await page.grab(at, { by })).release();
        const wanted = ranked[0].distance <= reach ? ranked[0].id.split('~')[0] : undefined;
        const selected = await page.evaluate(() => document.querySelector('.handle.selected:not(.far)')?.dataset.handle);
        assert.equal(selected, wanted, `${dx}, ${dy} from ${id}`);
        const focused = await page.evaluate(() => document.activeElement.closest('.handle')?.dataset.handle);
        assert.equal(focused, wanted, 'the focus is on it too, for the keys');
      }
    }
  });
}
