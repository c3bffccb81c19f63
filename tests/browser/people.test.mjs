// For whoever comes: the first steps, the words, the cautions.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { turnstone } from './steps.mjs';

for (const [name, size] of Object.entries({ desktop: sizes.desktop, phone: sizes.phone })) {
  scenario(`the first steps are shown once on a ${name}, and never again`, { ...size, newcomer: true }, async (page) => {
    const guide = page.part('.guide');
    assert.equal(await guide.visible(), true);
    assert.equal(await guide.part('li').count(), 3);
    assert.deepEqual(await page.violations(), []);
    await page.screenshot(`first steps ${name}`);
    await page.dragBy(page.handle(turnstone.widest), { y: 8 });
    assert.equal(await page.undoStep(), 'moved node 9', 'they are in nobody’s way');
    await page.command('end-guide');
    assert.equal(await guide.visible(), false);
    await page.reload();
    assert.equal(await guide.visible(), false);
  });

  scenario(`every quantity is explained by touch and by keyboard on a ${name}`, size, async (page) => {
    const open = page.part('#words:popover-open');
    if (name === 'phone') {
      await page.part('[data-sheet]').click();
    }
    await page.part('#words-button').click();
    assert.equal(await open.count(), 1);
    const { words, keys } = await page.evaluate(() => ({
      words: [...document.querySelectorAll('#words dt')].map(({ id }) => id.replace('word-', '')),
      keys: [...document.querySelectorAll('[data-readout]')].map(({ dataset }) => dataset.readout),
    }));
    assert.deepEqual(keys.filter((key) => !words.includes(key)), []);
    assert.equal(await page.part('#words dt + dd').count(), words.length);
    assert.deepEqual(await page.violations(), []);
    await page.screenshot(`words ${name}`);
    await page.press('Escape');
    assert.equal(await open.count(), 0);

    await page.field('wheelbase').focus();
    await page.press('F1');
    assert.equal(await page.focused().attribute('id'), 'word-wheelbase');
    await page.press('Escape');
    await page.part('[data-figure=area] .label').click();
    assert.equal(await page.focused().attribute('id'), 'word-area');
  });
}

scenario('where work is named its cautions stand, in the words of the page of cautions', {}, async (page) => {
  const placed = await page.evaluate(() =>
    [...document.querySelectorAll('[data-caution]')].map((place) => [place.dataset.caution, place.textContent]));
  assert.ok(placed.length >= 8);
  for (const [work, words] of placed) {
    assert.ok(words.startsWith(`${work} `) && words.length > work.length + 20, `${work}: “${words}”`);
  }
});

scenario('the cautions are a page of their own, reached from every room', {}, async (page) => {
  for (const room of ['draw', 'layup', 'press', 'cut']) {
    await page.room(room);
    await page.role('button', 'Cautions').click();
    const text = await page.part('#cautions').text();
    for (const work of ['Gluing', 'Pressing', 'Band saw', 'Router', 'Drill', 'Dust and finish', 'A new deck']) {
      assert.ok(text.includes(work), work);
    }
    assert.match(text, /manual/);
    await page.press('Escape');
  }
  await page.role('button', 'Cautions').click();
  assert.deepEqual(await page.violations(), []);
  await page.screenshot('cautions');
});

scenario('nothing moves by itself where that is asked for', {}, async (page) => {
  const moving = await page.evaluate(async () => {
    const sheets = [...document.styleSheets].flatMap(({ cssRules }) => [...cssRules]);
    const moves = (rule) => /(^|[\s;{])(transition|animation)(-\w+)*:/.test(rule.cssText);
    return sheets
      .filter((rule) => moves(rule) && !(rule.conditionText ?? '').includes('prefers-reduced-motion: no-preference'))
      .map(({ cssText }) => cssText);
  });
  assert.deepEqual(moving, []);
});
