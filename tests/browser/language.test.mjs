// The page in its second language: nothing of it is left in English, and nothing is lost by choosing it.

import assert from 'node:assert/strict';
import { scenario, sizes } from './driver.mjs';
import { openSheet } from './steps.mjs';

const bytes = (text) => new TextEncoder().encode(text);

/** Chooses a language and waits for the page in it. */
async function speak(page, code) {
  await openSheet(page);
  // The page goes while the choice still waits for its next frame.
  await page.navigation(() => page.part('[data-language]').choose(code).catch(() => {}));
  assert.equal(await page.part('html').attribute('lang'), code);
}

/**
 * Every text of the page, seen or not, that is English still: that the catalogue has another one for, or that has an
 * English word in it that German does not have.
 */
const english = (page) =>
  page.evaluate(async () => {
    const answer = await fetch('language/de.json');
    const pairs = Object.entries(await answer.json());
    const keys = new Set(pairs.filter(([key, other]) => key !== other).map(([key]) => key.trim()));
    const others = new Set(pairs.map(([, other]) => other.trim()));
    const words = /\b(the|of|and|is|are|with|to|from|not|it|by|for|at|on|this|that|which|here|there|where)\b/i;
    const own = '[translate=no], script, style, #link, [data-value]';
    const found = new Set();
    const look = (value, isOwn, where) => {
      const text = value?.trim().replace(/\s+/g, ' ').replace('Wood and Fiber Science', ''); // a journal
      if (text && !others.has(text) && ((!isOwn && keys.has(text)) || words.test(text))) {
        found.add(`${text} (${where})`);
      }
    };
    for (const element of document.body.querySelectorAll('*')) {
      for (const name of ['title', 'aria-label', 'placeholder', 'alt', 'aria-valuetext', 'data-step']) {
        look(element.getAttribute(name), element.parentElement.closest(own), name);
      }
      if (!element.closest('script, style, [lang=en], noscript')) {
        for (const node of element.childNodes) {
          if (node.nodeType === Node.TEXT_NODE) {
            look(node.data, element.closest(own), element.id || element.className || element.tagName);
          }
        }
      }
    }
    return [...found];
  });

for (const [name, options] of [['desktop', sizes.desktop], ['phone', { ...sizes.phone, touch: true }]]) {
  scenario(`all rooms, sheets and refusals are in German (${name})`, { ...options, newcomer: true }, async (page) => {
    const left = new Map();
    const look = async (where) => (await english(page)).forEach((text) => left.has(text) || left.set(text, where));
    await speak(page, 'de');
    await look('the first steps');
    await page.command('end-guide');
    await openSheet(page);

    // What the sheets say that open over the page.
    for (const sheet of ['words', 'cautions']) {
      await page.part(`[popovertarget=${sheet}]`).first().click();
      await look(sheet);
      await page.press('Escape');
    }
    await page.command('keep-version');
    for (const family of ['arc', 'ellipse', 'superellipse', 'clothoid']) {
      await page.command(`add-${family}`);
    }
    await look('sweeps and a version');

    // What is typed wrong, in many ways.
    for (const [key, text] of [
      ['overall-width', '9000'], ['overall-width', 'breit'], ['wheelbase', '1,234.5'], ['nose-kick-angle', '1/0'],
      ['nose-kick-angle', '12 Knoten'], ['overall-length', '-3'], ['nose-bend-radius', ''], ['section-station', '9999'],
      ['waist-width', '10'], ['flat-strip', '1e3'], ['blank-length', '300'],
    ]) {
      if (await page.field(key).enabled()) {
        await page.room((await page.field(key).evaluate((field) => field.closest('.room')?.dataset.of)) ?? 'draw');
        await openSheet(page);
        await page.enter(key, text);
        await look(`${key}: ${text}`);
      }
    }
    await page.room('draw');
    await openSheet(page);
    await page.field('bring-rows').fill('0 95\n100 breit');
    await page.press('Tab');
    await look('a bad table');
    for (const [file, text] of [['deck.csv', '1;2;3;4\n'], ['deck.svg', '<svg><path d="M0 0L9 9"/></svg>'], ['deck.dxf', 'x']]) {
      await page.upload(() => page.command('choose-shape'), { name: file, bytes: bytes(text), type: 'text/plain' });
      await page.until(async () => (await page.notice()) !== '', 'a notice');
      await look(file);
    }
    await page.command('leave-shape');

    for (const room of ['layup', 'press', 'cut', 'sheet']) {
      await page.room(room);
      await openSheet(page);
      await look(room);
    }
    await page.room('layup');
    await openSheet(page);
    await page.part('[data-bench=open]').click();
    await look('the bench timer');
    await page.part('[data-bench=start]').click();
    await look('the bench timer that runs');
    await page.part('[data-bench=stop]').click();
    await look('the question of the bench timer');
    await page.part('[data-bench=forget]').click();
    await page.part('[data-bench=leave]').click();
    await page.room('press');
    await openSheet(page);
    await page.command('begin-record');
    await look('a record');

    await page.room('cut');
    await openSheet(page);
    for (const part of ['template', 'half-template', 'saw-line', 'offsets', 'mark-out', 'deck']) {
      await page.field('part').choose(part);
      await look(part);
    }
    await page.part('#pasted').fill('#d=AAAA');
    await page.command('open-link');
    await look('a damaged link');
    await page.upload(() => page.command('open-file'), { name: 'deck.json', bytes: bytes('{"format": 7}') });
    await look('a damaged file');
    await page.room('draw');
    await openSheet(page, false);
    for (const node of ['n1', 'n2']) {
      await (await page.grab(page.handle(node))).release();
      await look(node);
    }
    await page.command('undo');
    await look('undone');
    assert.deepEqual([...left], []);
  });
}

scenario('figures have a comma on the page, and files, scripts and the hooks a point', {}, async (page) => {
  await speak(page, 'de');
  const hook = await page.part('[data-readout=overall-length]').attribute('data-value');
  assert.equal(Number(hook).toFixed(1), '812.8');
  assert.equal(await page.shown('overall-length'), '812,8');
  await page.enter('overall-width', '210,5');
  assert.ok(Math.abs((await page.readout('overall-width')) - 210.5) < 1e-3);
  assert.equal(await page.field('overall-width').value(), '210,5');
  await page.enter('overall-width', '211.5');
  assert.equal(await page.shown('overall-width'), '211,5');
  await page.room('cut');
  const svg = await page.download(() => page.command('export-svg'));
  assert.match(Buffer.from(svg.bytes).toString(), /width="\d+\.\d+mm"/);
  await page.field('part').choose('offsets');
  const csv = await page.download(() => page.command('export-csv'));
  assert.match(Buffer.from(csv.bytes).toString(), /^Station mm \(DEVELOPED\),.*\r\n-?\d+\.\d\d,/);
  await page.room('sheet');
  assert.match(await page.part('#page-1').content(), /Werkblatt, Seite 1 von 2/);
  const pdf = await page.download(() => page.command('export-sheet'));
  assert.ok(Buffer.from(pdf.bytes).includes('/Lang(de)'));
  const refused = await page.evaluate(async () => {
    const { defaultDesign, setDimension } = await import('./halfbreadth.js');
    try {
      return setDimension(defaultDesign(), 'overall-width', 9000);
    } catch (error) {
      return error.message;
    }
  });
  assert.match(refused, /^Width 9000\.0 mm cannot be met/);
  await page.room('draw');
  await speak(page, 'en');
  assert.equal(await page.shown('overall-length'), '812.8');
});

scenario('a newcomer is met in the language of the browser', { locale: 'de-AT', newcomer: true }, async (page) => {
  assert.equal(await page.part('html').attribute('lang'), 'de');
  assert.equal(await page.part('[data-language]').value(), 'de');
  assert.match(await page.part('.guide').text(), /Zieh einen Knoten/);
  assert.deepEqual(await page.violations(), []);
  await page.screenshot('language newcomer');
});

scenario('what would be lost by a new start keeps the page as it is until the next', {}, async (page) => {
  await page.field('bring-rows').fill('0 95');
  await page.press('Tab');
  await page.part('[data-language]').choose('de');
  await page.until(() => page.part('#language-later').visible(), 'the hint');
  assert.equal(await page.field('bring-rows').value(), '0 95');
  assert.equal(await page.part('html').attribute('lang'), 'en');
  await page.reload();
  assert.equal(await page.part('html').attribute('lang'), 'de');
});

scenario('a language can be chosen in flight mode', {}, async (page) => {
  await page.until(async () => (await page.part('body').attribute('data-offline')) !== null, 'body[data-offline]', 20_000);
  await page.offline();
  await speak(page, 'de');
  assert.equal(await page.part('[data-room=layup]').content(), '2 Lagen');
});

scenario('the worker of photographs speaks the language of the page', { locale: 'de-DE' }, async (page) => {
  const choose = (name, bytes) => page.upload(() => page.part('[data-photo=choose]').click(), { name, bytes, type: 'image/png' });
  await choose('notes.png', bytes('no picture'));
  await page.until(async () => /^Diese Datei ist kein Bild/.test(await page.notice()), 'a refusal in German');
  const dot = 'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==';
  await choose('dot.png', Buffer.from(dot, 'base64'));
  await page.until(async () => /^Ein Bild von 1 mal 1 Bildpunkten/.test(await page.notice()), 'another one');
});
