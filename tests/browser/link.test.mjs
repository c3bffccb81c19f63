// The share link: the whole shape in the address.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { openDemo, turnstone } from './steps.mjs';

/** Copies the link; resolves to the whole address. */
async function copyLink(page) {
  await page.command('copy-link');
  await page.until(async () => /^Link copied/.test(await page.notice()), 'the link is copied');
  return page.clipboard();
}

const fragment = (link) => new URL(link).hash;

scenario('a link opens in another browser with the same measures, as a copy', {}, async (page) => {
  await openDemo(page, 'dunlin');
  await page.dragBy(page.handle('n0'), { y: 9 });
  await page.enter('name', 'Dunlin, narrow');
  const mine = await page.readouts();
  const link = await copyLink(page);
  assert.equal(await page.part('#link').value(), link);
  const other = await page.elsewhere({ fragment: fragment(link), ...sizes.phone, touch: true });
  assert.deepEqual(await other.readouts(), mine);
  assert.equal(await other.field('name').value(), 'Dunlin, narrow');
  assert.equal(await other.part('.came-with-link').visible(), true);
  assert.equal(other.fragment, '', 'the address forgets it, so that a reload brings back what is on the shelf');
  assert.equal(await copyLink(other), link, 'and the link of the copy is the same');
});

scenario('the link of the demo deck is short enough for a chat message', {}, async (page) => {
  assert.ok((await copyLink(page)).length < 400);
});

scenario('a copy that is not wanted leaves everything as it was', {}, async (page) => {
  const link = await copyLink(page);
  await page.dragBy(page.handle(turnstone.widest), { y: 20 });
  await page.enter('name', 'Mine');
  await page.saved();
  const mine = await page.readouts();
  await page.goto(fragment(link));
  assert.notDeepEqual(await page.readouts(), mine);
  assert.equal(await page.part('#shelf li').count(), 1, 'the copy is not on the shelf');
  await page.command('go-back');
  await page.until(async () => (await page.field('name').value()) === 'Mine', 'mine again');
  assert.deepEqual(await page.readouts(), mine);
  assert.equal(await page.part('.came-with-link').visible(), false);
  assert.equal(await page.undoStep(), 'renamed the deck');
});

scenario('a copy is kept on the shelf beside mine when I say so', {}, async (page) => {
  const link = await copyLink(page);
  await page.enter('name', 'Mine');
  await page.saved();
  await page.goto(fragment(link));
  await page.command('keep-copy');
  await page.saved();
  assert.equal(await page.part('.came-with-link').visible(), false);
  await page.reload();
  assert.equal(await page.field('name').value(), 'Turnstone');
  assert.equal(await page.part('#shelf li').count(), 2);
});

scenario('a copy is kept with its first change, and mine stays as it was', {}, async (page) => {
  const link = await copyLink(page);
  await page.enter('name', 'Mine');
  await page.saved();
  await page.goto(fragment(link));
  await page.dragBy(page.handle(turnstone.widest), { y: 20 });
  await page.saved();
  assert.equal(await page.part('.came-with-link').visible(), false);
  assert.equal(await page.part('#shelf li').count(), 2);
});

scenario('a copy that was only looked at is gone after a reload', {}, async (page) => {
  const link = await copyLink(page);
  await page.enter('name', 'Mine');
  await page.saved();
  await page.goto(fragment(link));
  await page.reload();
  assert.equal(await page.field('name').value(), 'Mine');
});

for (const [damage, of] of [
  ['a changed letter', (link) => link.slice(0, 30) + (link[30] === 'A' ? 'B' : 'A') + link.slice(31)],
  ['a lost end', (link) => link.slice(0, -7)],
  ['foreign characters', (link) => `${link}%20%3Cb%3E`],
  ['nothing in it', () => '#d='],
  ['far too much in it', (link) => link + 'A'.repeat(9000)],
]) {
  scenario(`a link with ${damage} is refused in words, and the design in hand stays`, {}, async (page) => {
    const link = fragment(await copyLink(page));
    await page.dragBy(page.handle(turnstone.widest), { y: 20 });
    await page.saved();
    const mine = await page.readouts();
    await page.goto(of(link));
    assert.match(await page.notice(), /link|address/);
    assert.equal(await page.part('#notice').attribute('data-tone'), 'refused');
    assert.deepEqual(await page.readouts(), mine);
    assert.equal(await page.undoStep(), 'moved node 9');
    assert.equal(await page.part('.came-with-link').visible(), false);
  });
}
