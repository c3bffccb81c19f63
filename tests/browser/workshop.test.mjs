// Lay up and Press: what the workshop is told, what it works out, the plies, the mould card, the records.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';

const near = (found, wanted, within = 1e-9) => assert.ok(Math.abs(found - wanted) <= within * Math.abs(wanted), `${found} for ${wanted}`);

/** The message beside a field. */
const message = async (page, key) => page.part(`#${await page.field(key).attribute('aria-describedby')}`).content();

const isInvalid = async (page, key) => (await page.field(key).attribute('aria-invalid')) === 'true';

/** What can be typed in each room: key, a value for each system, and a figure that must follow it, if any. */
const told = {
  layup: [
    ['moisture', '8', '8', null], ['bond-line', '0.12', '0.005', 'finished-thickness'],
    ['measured-thickness', '11.4', '0.45', 'finished-thickness'], ['blank-length', '842', '33 1/4', 'glue-mass'],
    ['sheet-length', '1700', '70', 'veneers-per-sheet'], ['sheet-width', '300', '12', 'offcut-share'],
    ['cross-sheet-length', '1700', '70', 'cross-veneers-per-sheet'], ['cross-sheet-width', '300', '12', 'cross-offcut-share'],
    ['kerf', '3', '0.125', null], ['spread-rate', '180', '40', 'glue-mass'], ['glue-density', '1.05', '66', 'glue-volume'],
    ['glue-solids', '45', '45', 'glue-dry'], ['open-time', '6', '6', 'assembly-share'], ['assembly-time', '15', '15', 'assembly-share'],
    ['minutes-per-line', '0.8', '0.8', 'time-to-press'], ['closing-time', '2', '2', 'time-to-press'], ['press-time', '30', '30', 'days'],
    ['decks', '24', '24', 'veneers-along'], ['moulds', '2', '2', 'presses'], ['sheet-price', '6', '6', 'cost'],
    ['cross-sheet-price', '7', '7', 'cost'], ['glue-price', '11', '11', 'cost'], ['other-price', '20', '20', 'cost'],
  ],
  press: [
    ['mould-length', '860', '34', null], ['mould-width', '236', '9 1/4', 'pressed-area'], ['mould-clear-length', '846', '33 1/2', 'post-clearance'],
    ['mould-pressure', '0.9', '120', null], ['bolts', '12', '12', 'press-total'], ['bolt-diameter', '12', '1/2', 'bolt-load'],
    ['bolt-pitch', '1.75', '0.077', 'bolt-load-limit'], ['nut-factor', '0.15', '0.15', 'bolt-load'], ['bolt-torque', '14', '110', 'bolt-load'],
    ['proof-stress', '310', '45000', 'torque-limit'], ['wanted-pressure', '0.4', '50', 'wanted-torque'], ['press-force', '50000', '12000', 'pressure'],
    ['axle-height', '55', '2 1/8', 'nose-tip-height'], ['axle-offset', '2', '1/16', 'nose-strike-angle'], ['riser', '3', '1/8', 'tail-strike-angle'],
    ['wheel-diameter', '56', '2 1/4', 'wheel-bite-lean'], ['wheel-half-width', '104', '4', 'wheel-bite-lean'], ['rider', '90', '180', 'deflection'],
    ['landing-factor', '2', '2', 'flex-load'], ['countersink', '11', '3/8', 'countersink-depth'], ['countersink-angle', '82', '82', 'countersink-depth'],
    ['round-over', '3', '1/8', 'seal-area'], ['grip-overlap', '8', '1/4', 'grip-length'],
  ],
};

for (const [size, window] of Object.entries({ desktop: sizes.desktop, phone: { ...sizes.phone, touch: true } })) {
  for (const [room, rows] of Object.entries(told)) {
    for (const system of ['mm', 'inch']) {
      scenario(`every number of ${room} is typed in ${system}, kept, and followed by its figure (${size})`, window, async (page) => {
        await page.command(`units-${system}`);
        await page.room(room);
        for (const [key, mm, inch, figure] of rows) {
          const before = figure && (await page.readout(figure));
          const text = system === 'mm' ? mm : inch;
          await page.enter(key, text);
          assert.equal(await isInvalid(page, key), false, `${key}: ${await message(page, key)}`);
          assert.equal(await page.field(key).value(), text, key);
          if (figure) {
            assert.notEqual(await page.readout(figure), before, `${figure} does not follow ${key}`);
          }
        }
        const kept = await page.readouts();
        await page.saved();
        await page.reload();
        assert.deepEqual(await page.readouts(), kept);
      });
    }
  }
}

for (const [room, key, text, words] of [
  ['layup', 'open-time', '0', /Open time .*too small .*at least 0\.5 min/],
  ['layup', 'open-time', '', /open time|empty|a time/i],
  ['layup', 'glue-density', '9', /too large .*at most 1\.4/],
  ['layup', 'ply-1-thickness', '-1', /too small/],
  ['layup', 'ply-1-thickness', 'thin', /thickness|number/i],
  ['layup', 'sheet-length', '1e9', /./],
  ['press', 'bolt-diameter', '0', /too small .*at least 5/],
  ['press', 'bolts', '0', /too small .*at least 2/],
  ['press', 'rider', '500', /too large/],
]) {
  scenario(`“${text}” as ${key} is refused beside its field, and nothing else changes`, {}, async (page) => {
    await page.room(room);
    const before = await page.readouts();
    await page.enter(key, text);
    assert.equal(await isInvalid(page, key), true);
    assert.match(await message(page, key), words);
    assert.equal(await page.field(key).value(), text);
    assert.deepEqual(await page.readouts(), before);
    assert.equal(await page.undoStep(), null);
  });
}

scenario('what is doubtful stands beside its field, and falls away with it', {}, async (page) => {
  await page.room('layup');
  await page.enter('blank-width', '205');
  assert.match(await message(page, 'blank-width'), /smaller than the outline/);
  assert.equal(await isInvalid(page, 'blank-width'), false, 'a warning is no refusal');
  await page.enter('blank-width', '241.3');
  assert.equal(await message(page, 'blank-width'), '');
  await page.enter('sheet-length', '400');
  assert.match(await message(page, 'sheet-length'), /Not one veneer/);
  assert.equal(await page.readout('sheets'), null);
  assert.notEqual(await page.readout('glue-mass'), null, 'the rest stands');
  await page.enter('minutes-per-line', '2');
  assert.match(await message(page, 'minutes-per-line'), /of its time/);
});

scenario('a torque past the bolts’ limit, and a pressure asked for without a mould’s limit, say why there is none', {}, async (page) => {
  await page.room('press');
  await page.enter('wanted-pressure', '0.4');
  assert.equal(await page.readout('wanted-torque'), null);
  assert.match(await message(page, 'mould-pressure'), /No torque is given without/);
  await page.enter('mould-pressure', '1');
  near(await page.readout('wanted-torque'), (0.4 * (await page.readout('pressed-area')) * 0.2 * 10) / 10, 1e-6);
  await page.enter('bolt-torque', '40');
  assert.match(await message(page, 'bolt-torque'), /past .*three quarters of its proof load/);
  assert.equal(await page.readout('pressure'), null);
});

scenario('plies are turned, changed, taken out and added, and the stack says what is wrong with it', { ...sizes.tablet, touch: true }, async (page) => {
  await page.room('layup');
  const words = () => page.part('#stack-words').content();
  assert.equal(await words(), '');
  await page.field('ply-1-grain').choose('X');
  assert.match(await words(), /not the same from both faces/);
  assert.equal(await page.undoStep(), 'changed ply 1');
  await page.command('undo');
  for (const ply of [3, 5]) {
    await page.field(`ply-${ply}-grain`).choose('L');
  }
  assert.match(await words(), /splits along it/);
  await page.command('lay-up-five');
  assert.equal(await page.part('#plies > li').count(), 5);
  assert.equal(await words(), '');
  near(await page.readout('finished-thickness'), 5 * 1.5 + 4 * 0.1);
  const before = await page.readout('deflection');
  await page.field('ply-1-wood').choose('yellow-birch');
  await page.field('ply-5-wood').choose('yellow-birch');
  assert.ok((await page.readout('deflection')) < before, 'birch is stiffer');
  await page.enter('ply-3-thickness', '2');
  near(await page.readout('finished-thickness'), 6 + 2 + 0.4);
  await page.part('[data-remove-ply="2"]').tap();
  await page.part('[data-remove-ply="2"]').tap();
  assert.equal(await page.part('#plies > li').count(), 3);
  await page.part('[data-remove-ply="2"]').tap();
  assert.match(await words(), /2 plies: lay up 3 to 13/);
  await page.command('add-ply');
  assert.equal(await page.part('#plies > li').count(), 4);
  assert.equal(await page.part('#laying > li').count(), 4);
  assert.doesNotMatch(await words(), /lay up 3 to 13/);
  assert.match(await message(page, 'ply-1-thickness'), /bends dry to \d+\.\d mm by estimate/);
  await page.enter('ply-1-thickness', '2');
  assert.match(await message(page, 'ply-1-thickness'), /; the nose is tighter; the tail is tighter/);
  assert.equal(await page.part('#woods > li').count(), 7);
  assert.match(await page.part('#woods > li').first().content(), /109\.?\d* MPa.*12\.60 GPa.*Wood Handbook/);
});

scenario('the laying order follows the way of laying and the faces spread', {}, async (page) => {
  await page.room('layup');
  const order = () => page.evaluate(() => [...document.querySelectorAll('#laying li')].map((li) => li.textContent));
  assert.match((await order())[0], /^Ply 7: 1\.50 mm, grain along, better face down; spread its upper face/);
  assert.match((await order())[6], /^Ply 1: .*better face up; spread nothing/);
  await page.field('laying-first').choose('top');
  assert.match((await order())[0], /^Ply 1: /);
  const mass = await page.readout('glue-mass');
  await page.field('spread-basis').choose('both-faces');
  near(await page.readout('glue-mass'), 2 * mass);
  assert.equal(await page.field('spread-rate').value(), '200');
  assert.match((await order())[1], /lower face before it goes on, then its upper/);
});

scenario('a locked mould card keeps its fields through every edit, and another deck can take the mould', {}, async (page) => {
  await page.room('press');
  await page.enter('mould-name', 'Saturday');
  await page.enter('mould-length', '861');
  await page.command('lock-mould');
  assert.equal(await page.field('mould-length').enabled(), false);
  await page.room('draw');
  await page.enter('nose-bend-radius', '100');
  assert.match(await message(page, 'nose-bend-radius'), /mould card is locked/);
  await page.press('Escape');
  await page.enter('overall-width', '215');
  assert.ok(Math.abs((await page.readout('overall-width')) - 215) < 1e-3);
  await page.saved();
  await page.room('cut');
  await page.command('open-dunlin');
  await page.saved();
  await page.room('press');
  const wheelbase = await page.readout('platform-length');
  await page.role('button', 'The mould of Turnstone').click();
  await page.until(async () => (await page.field('mould-name').value()) === 'Saturday', 'the mould to be taken');
  assert.notEqual(await page.readout('platform-length'), wheelbase);
  assert.equal(await page.field('mould-length').value(), '861');
  assert.equal(await page.field('mould-length').enabled(), false, 'the lock belongs to the card');
});

scenario('a press day is noted deck by deck beside what was worked out, and lasts', { ...sizes.phone, touch: true }, async (page) => {
  await page.room('press');
  await page.command('begin-record');
  assert.equal(await page.field('record-1-serial').value(), '1');
  assert.match(await page.field('record-1-date').value(), /^\d{4}-\d\d-\d\d$/);
  assert.match(await message(page, 'record-1-day-glue'), /worked out: 267 g/);
  await page.enter('record-1-day-glue', '271');
  await page.enter('record-1-day-hours', '26');
  await page.enter('record-1-lots', 'maple 12, glue 3');
  await page.enter('record-1-day-moisture', '55');
  assert.match(await message(page, 'record-1-day-moisture'), /too large/);
  await page.enter('record-1-day-moisture', '7');
  await page.room('layup');
  await page.part('[data-tick=graded][data-index="0"]').tap();
  await page.part('[data-tick=metered][data-index="6"]').tap();
  await page.saved();
  await page.reload();
  await page.room('press');
  assert.equal(await page.field('record-1-day-glue').value(), '271');
  assert.equal(await page.field('record-1-lots').value(), 'maple 12, glue 3');
  await page.room('layup');
  assert.equal(await page.part('[data-tick=graded][data-index="0"]').attribute('aria-pressed'), 'true');
  assert.equal(await page.part('[data-tick=graded][data-index="1"]').attribute('aria-pressed'), 'false');
  assert.equal(await page.part('[data-tick=metered][data-index="6"]').attribute('aria-pressed'), 'true');
});

scenario('stiffness is compared with the version behind', {}, async (page) => {
  await page.command('keep-version');
  await page.room('press');
  near(await page.readout('stiffness-ratio'), 1);
  await page.room('layup');
  for (const ply of [1, 7]) {
    await page.enter(`ply-${ply}-thickness`, '2');
  }
  assert.ok((await page.readout('stiffness-ratio')) > 1.2);
});

scenario('figures of the workshop say where they come from, and which are estimates', {}, async (page) => {
  await page.room('press');
  const rows = await page.evaluate(() =>
    [...document.querySelectorAll('[data-panel] .row')].map((row) => ({
      help: row.querySelector('.label').title,
      estimate: row.querySelector('.estimate') !== null,
      key: row.querySelector('output').dataset.readout,
    })));
  assert.ok(rows.length > 50);
  assert.ok(rows.every(({ help }) => help.length > 30));
  assert.deepEqual(rows.filter(({ key }) => ['deflection', 'springback', 'stress-share'].includes(key)).map(({ estimate }) => estimate), [true, true, true]);
  assert.equal(rows.find(({ key }) => key === 'veneers-along').estimate, false);
});

for (const [size, window] of Object.entries(sizes)) {
  for (const scheme of ['light', 'dark']) {
    scenario(`Lay up and Press have nothing for axe-core to find, and nothing runs over (${size}, ${scheme})`, { ...window, touch: true, scheme }, async (page) => {
      for (const room of ['layup', 'press']) {
        await page.room(room);
        if (room === 'press') await page.command('begin-record');
        assert.deepEqual(await page.violations(), []);
        const over = await page.evaluate(() => document.scrollingElement.scrollWidth - innerWidth);
        assert.ok(over <= 0, `${over} px beyond the window`);
        await page.screenshot(`${room} ${size} ${scheme}`);
      }
    });
  }
}
