// The driver: what a person does with the page, and what they find there. Tests know only this file and
// the `Page` it hands them, so that another way to steer a browser can take the place of the one behind it.
//
// A test is a scenario:
//
//     scenario('the area follows the waist', { ...sizes.phone, touch: true }, async (page) => {
//       const before = await page.readout('area');
//       await page.dragBy(page.handle('waist'), { y: 20 }, { by: 'touch' });
//       assert.notEqual(await page.readout('area'), before);
//     });

import { after, test } from 'node:test';
import { browser } from './browser.mjs';
import { Page } from './page.mjs';
import { serveSite } from './server.mjs';
import { Unsupported } from './webdriver.mjs';

/** The windows every look is judged in, in CSS pixels. */
export const sizes = {
  desktop: { width: 1440, height: 900 },
  tablet: { width: 1024, height: 768 },
  tabletUpright: { width: 768, height: 1024 },
  phone: { width: 390, height: 844 },
};

/** Ends a scenario that this engine cannot play, and says why. */
export function cannot(why) {
  throw new Unsupported(why);
}

let site;

after(async () => {
  await (await site)?.close();
});

/**
 * A test of the whole page: opens it, runs `body(page)`, and fails on any error the page had meanwhile.
 * `options` are those of `open`. A failed scenario leaves a screenshot.
 */
export function scenario(name, options, body) {
  test(name, async (context) => {
    const opened = [];
    let failure;
    try {
      await body(await open(opened, options));
    } catch (error) {
      failure = error;
      await Promise.all(opened.map((page, i) => page.screenshot(`failed ${name} ${i + 1}`).catch(() => {})));
    }
    await Promise.all(opened.map((page) => page.report()));
    await Promise.all(opened.map((page) => page.close()));
    if (failure instanceof Unsupported) {
      context.skip(failure.message);
      return;
    }
    const errors = opened.flatMap((page) => page.errors);
    if (errors.length) {
      // What the page reports is often the cause of the failure, so it stands first.
      failure = new Error(`the page had errors:\n${errors.join('\n')}`, { cause: failure });
    }
    if (failure) {
      throw failure;
    }
  });
}

/**
 * Opens the page in a browser profile of its own, and waits until it is ready.
 * `fragment` is the link's part from '#' on; `width` and `height` are the window's, in CSS pixels; `scheme` is 'light'
 * or 'dark'; `touch` makes it a touch screen; `scale` is its device pixels for each CSS pixel. `url` is another address of
 * the page than the built site's; `locale` the browser's language. A `newcomer` is shown the first steps; all others have seen them.
 */
async function open(opened, { fragment = '', ...options } = {}) {
  const url = options.url ?? (await (site ??= serveSite())).url;
  const { width, height } = { ...sizes.desktop, ...options };
  const context = await (await browser()).newContext({
    viewport: { width, height },
    colorScheme: options.scheme ?? 'light',
    hasTouch: options.touch ?? false,
    deviceScaleFactor: options.scale ?? 1,
    locale: options.locale ?? 'en-GB',
    timezoneId: 'UTC',
    permissions: ['clipboard-read', 'clipboard-write'],
  });
  if (!options.newcomer) {
    await context.addInitScript(() => {
      try {
        localStorage.getItem('halfbreadth.settings') ?? localStorage.setItem('halfbreadth.settings', 'guided');
      } catch {
        // An empty page has no storage.
      }
    });
  }
  return openIn(context, url, opened, fragment);
}

/** Opens the page in a window of a profile that may have others. */
async function openIn(context, url, opened, fragment = '') {
  const inner = await context.newPage();
  const cdp = await context.newCDPSession(inner);
  const page = new Page(inner, cdp, url, {
    elsewhere: (more) => open(opened, more),
    beside: (fragment) => openIn(context, url, opened, fragment),
  });
  opened.push(page);
  await page.goto(fragment);
  return page;
}
