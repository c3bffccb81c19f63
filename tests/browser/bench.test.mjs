// The bench timer: started by one tap, on by itself to the opened press, through a reload and a night.

import assert from 'node:assert/strict';
import { scenario } from './driver.mjs';

const MORNING = '2026-01-03T10:00:00Z'; // a Saturday
const ROOM = 'layup';

const bench = (page) => page.part('#bench');
const phase = (page) => bench(page).attribute('data-phase');
const words = (page, name) => page.part(`#bench-${name}`).content();
const button = (page, name) => page.part(`#bench [data-bench="${name}"]`);

/** Opens the timer with its clock in hand. */
async function open(page) {
  await page.holdClock(MORNING);
  await page.room(ROOM);
  await page.part('.room [data-bench="open"]').click();
  await page.until(() => button(page, 'start').visible(), 'the timer is open');
}

/** Lets time pass, and waits for the timer to have seen it. */
async function pass(page, seconds, expected) {
  await page.pass(seconds);
  await page.until(async () => (await phase(page)) === expected, `${expected} after ${seconds} s`);
}

/** The figure counts to so many seconds from the first touch of glue, whatever the clock says while a test looks at it. */
async function counts(page, to) {
  const { figure, left } = await page.evaluate((to) => {
    const started = Number(localStorage.getItem('halfbreadth.bench').split(' ')[1]);
    return { figure: document.querySelector('#bench-figure').textContent, left: (started + 10_000 - Date.now()) / 1000 + to };
  }, to);
  const found = figure.replace('−', '-').split(':').reduce((sum, part) => 60 * sum + Number(part), 0);
  assert.ok(Math.abs(found - left) < 2, `${figure} shows, ${left} s are left`);
}

scenario('one tap starts it, and no other is needed until the press is opened', {}, async (page) => {
  await open(page);
  assert.match(await words(page, 'plan'), /^Ply 7 lies on the mould, grain along, better face down\. 6 lines at 1 min/);
  await button(page, 'sound').click();
  await button(page, 'start').click();
  assert.equal(await phase(page), 'countdown');
  await counts(page, 0);
  assert.match(await words(page, 'next'), /^Spread ply 7, upper face; lay ply 6/);
  await pass(page, 10, 'lay');
  assert.equal(await words(page, 'headline'), 'Ply 6 along');
  await pass(page, 60, 'lay');
  assert.equal(await words(page, 'headline'), 'Ply 5 across');
  await counts(page, 120);
  assert.match(await words(page, 'says'), /Spread ply 6, upper face; lay ply 5, grain across\. Next: Spread ply 5/);
  assert.match(await words(page, 'open-left'), /^[45]:\d\d$/);
  assert.match(await words(page, 'used'), /^2\d %$/);
  await pass(page, 300, 'close');
  await counts(page, 540);
  await pass(page, 180, 'press');
  await counts(page, 540 + 86_400);
  assert.match(await words(page, 'opens'), /^tomorrow 10:1\d$/);
  // The next day, after the page was shut.
  await page.pass(23 * 3600);
  await page.reload();
  assert.equal(await bench(page).visible(), false, 'the page can be used while the glue cures');
  await page.room(ROOM);
  assert.match(await words(page, 'line'), /^In the press, [\d:]+ left in the press\. Opens today 10:1\d\.$/);
  await page.part('.room [data-bench="open"]').click();
  await counts(page, 540 + 86_400);
  await pass(page, 3700, 'open');
  assert.match(await words(page, 'now'), /may be opened/);
  await button(page, 'stop').click();
  await button(page, 'forget').click();
  assert.equal(await phase(page), 'setup');
});

scenario('a reload with glue on the hands comes back to the timer', {}, async (page) => {
  await open(page);
  await button(page, 'start').click();
  await pass(page, 45, 'lay');
  await page.reload();
  assert.equal(await bench(page).visible(), true);
  assert.equal(await words(page, 'headline'), 'Ply 6 along');
  await counts(page, 60);
  await page.press('Escape');
  assert.equal(await bench(page).visible(), true, 'a sleeve on Esc does not take it away');
});

scenario('it is worked by keys alone, held, and says when it is late', {}, async (page) => {
  await page.holdClock(MORNING);
  await page.room(ROOM);
  await page.part('.room [data-bench="open"]').focus();
  await page.press('Enter');
  await button(page, 'start').focus();
  await page.press('Enter');
  assert.equal(await page.focused().attribute('id'), 'bench-title');
  await pass(page, 20, 'lay');
  await page.press('Space');
  await page.until(async () => (await words(page, 'headline')) === 'Ply 5 across', 'the next step');
  await button(page, 'hold').focus();
  await page.press('Space');
  assert.equal(await button(page, 'hold').attribute('aria-pressed'), 'true');
  await pass(page, 200, 'lay');
  assert.equal(await words(page, 'headline'), 'Ply 5 across');
  assert.match(await words(page, 'figure'), /^−2:/);
  assert.equal(await words(page, 'late'), '');
  await pass(page, 200, 'lay');
  await page.until(async () => (await words(page, 'late')) !== '', 'it is late');
  assert.match(await words(page, 'late'), /Do not press it: scrape the glue off.*data sheet/);
  assert.match(await words(page, 'says'), /^Late/);
  await page.press('Space');
  assert.equal(await words(page, 'headline'), 'Ply 4 along');
  // Stopping asks; the safe answer has the focus.
  await button(page, 'stop').focus();
  await page.press('Enter');
  assert.equal(await page.focused().attribute('data-bench'), 'go-on');
  await page.press('Enter');
  assert.equal(await phase(page), 'lay');
});

scenario('the timer goes by the glue and the plies of the design', {}, async (page) => {
  await page.holdClock(MORNING);
  await page.evaluate(() => localStorage.setItem('halfbreadth.bench', 'bench-1 nonsense'));
  await page.reload();
  await page.room(ROOM);
  await page.field('laying-first').choose('top');
  await page.field('spread-basis').choose('both-faces');
  await page.part('.room [data-bench="open"]').click();
  assert.equal(await phase(page), 'setup', 'what cannot be read is no session');
  assert.match(await words(page, 'plan'), /^Ply 1 lies/);
  await button(page, 'start').click();
  assert.match(await words(page, 'next'), /Spread ply 1, upper face, and ply 2, lower face; lay ply 2/);
});
