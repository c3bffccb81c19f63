// The pressed deck: turned by finger, mouse and key, cut where it is asked, at every size.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';

const solid = (page) => page.part('#solid');
const words = (page) => page.part('#solid-words').content();

/** Opens the room, and the deck into view. */
async function open(page) {
  await page.room(ROOM);
  await solid(page).evaluate((element) => element.scrollIntoView({ block: 'center' }));
  await page.until(async () => (await page.part('#solid path').count()) > 20, 'the deck is drawn');
}
const ROOM = 'press';

const data = (page) =>
  page.evaluate(() => [...document.querySelectorAll('#solid path')].map((path) => path.getAttribute('d')).join(''));

async function rests(page) {
  for (let last = ''; ; ) {
    const now = await data(page);
    if (now === last) return now;
    last = now;
    await page.frame();
  }
}

for (const by of ['mouse', 'touch']) {
  scenario(`the deck turns under a ${by} and stands again as at first`, { touch: by === 'touch' }, async (page) => {
    await open(page);
    const first = await rests(page);
    assert.equal(await words(page), 'Seen from the right rail and the nose, 24° from above');
    const hold = await page.grab(solid(page), { by });
    const { x, y, width, height } = await solid(page).box();
    await hold.move({ x: x + width / 2 + 80, y: y + height / 2 + 40 }, 6);
    const turning = await page.part('#solid path').count();
    await hold.release();
    const turned = await rests(page);
    assert.equal(await words(page), 'Seen from the right rail, 44° from above');
    assert.notEqual(turned, first);
    assert.ok(turning < (await page.part('#solid path').count()), 'it is drawn lightly while it turns');
    // A finger that goes far up stops at straight below, where the underside shows.
    await page.dragBy(solid(page), { y: -420 }, { by });
    assert.equal(await words(page), 'Seen from straight below');
    await page.part('[data-solid="stand-again"]').click();
    assert.equal(await rests(page), first);
  });
}

scenario('the deck is turned and cut by keys alone', {}, async (page) => {
  await open(page);
  const [turn, tilt, cut] = ['turn', 'tilt', 'cut'].map((name) => page.part(`#solid-${name}`));
  await turn.focus();
  await page.press('End');
  assert.match(await words(page), /^Seen from the left rail, /);
  await tilt.focus();
  await page.press('End');
  assert.equal(await words(page), 'Seen from straight above');
  await page.press('ArrowLeft');
  assert.match(await words(page), /89° from above/);
  assert.equal(await tilt.attribute('aria-valuetext'), await words(page));
  const section = () => page.part('#section-words').content();
  assert.match(await section(), /^20\d\.\d mm wide, concave \d+\.\d mm, 11\.\d+ mm thick: 5 plies along, 2 across$/);
  await cut.focus();
  await page.press('End');
  await page.press('PageDown');
  assert.match(await section(), /concave 0\.0 mm.* on the kick at 2\d\.\d°$/);
  assert.equal(await page.field('section-station').value(), await cut.value());
  await page.enter('section-station', '-100');
  assert.equal(await cut.value(), '-100');
  await page.command('units-inch');
  await page.enter('section-station', '4');
  assert.equal(await cut.value(), '102');
  assert.match(await section(), /^≈ 8 3\/16 in wide, concave ≈ 3\/8 in/);
});

scenario('a station that the deck does not have is answered beside its field', {}, async (page) => {
  await open(page);
  const before = await page.part('#section-words').content();
  for (const bad of ['', 'middle', '1000', '-9e9', '<b>']) {
    await page.enter('section-station', bad);
    assert.equal(await page.field('section-station').attribute('aria-invalid'), 'true', bad);
    assert.ok((await page.part('#message-section-station').content()).length > 8, bad);
    assert.equal(await page.part('#section-words').content(), before);
  }
});

scenario('the picture follows the shape, and its section has the plies of the layup', {}, async (page) => {
  await open(page);
  const first = await rests(page);
  assert.equal(await page.part('#section .ply-across').count(), 2);
  assert.equal(await page.part('#section .ply-along').count(), 5);
  assert.equal(await page.part('#section text').count(), 3);
  await page.room('draw');
  await page.enter('nose-kick-angle', '30');
  await page.enter('concave-depth', '0');
  await open(page);
  assert.notEqual(await rests(page), first);
  assert.equal(await page.part('#section text').count(), 2, 'a flat deck has no concave to dimension');
});

scenario('the deck is looked at over the whole page, and goes back to its place', { ...sizes.phone, touch: true }, async (page) => {
  await open(page);
  const small = await solid(page).box();
  await page.part('[data-solid="larger"]').tap();
  await page.until(async () => (await solid(page).box()).height > 1.5 * small.height, 'it is larger');
  await page.dragBy(solid(page), { x: 60 }, { by: 'touch' });
  assert.equal(await words(page), 'Seen from the right rail, 24° from above');
  assert.deepEqual(await page.violations(), []);
  await page.screenshot('pressed large phone');
  await page.press('Escape');
  await page.until(async () => Math.abs((await solid(page).box()).height - small.height) < 1, 'it is back');
  assert.equal(await page.focused().attribute('data-solid'), 'larger');
});

for (const [name, size] of Object.entries(sizes)) {
  for (const scheme of ['light', 'dark']) {
    scenario(`the pressed deck is seen whole on a ${name} in ${scheme}`, { ...size, scheme, touch: name !== 'desktop' }, async (page) => {
      await open(page);
      await rests(page);
      const frame = await solid(page).box();
      const drawn = await page.evaluate(() => {
        const { x, y, width, height } = document.querySelector('#solid .lines').getBoundingClientRect();
        return { x, y, width, height };
      });
      assert.ok(drawn.x >= frame.x && drawn.x + drawn.width <= frame.x + frame.width, JSON.stringify({ drawn, frame }));
      assert.ok(drawn.y >= frame.y && drawn.y + drawn.height <= frame.y + frame.height, JSON.stringify({ drawn, frame }));
      assert.ok(drawn.width > 0.5 * frame.width, 'it is as large as there is room');
      await page.screenshot(`pressed ${name} ${scheme}`);
      await page.part('#section').evaluate((element) => element.scrollIntoView({ block: 'center' }));
      await page.screenshot(`pressed section ${name} ${scheme}`);
      assert.deepEqual(await page.violations(), []);
    });
  }
}
