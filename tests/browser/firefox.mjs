// Firefox, as geckodriver starts it: one browser for each way the desktop may be set, with many profiles in it.

import { BidiBrowser } from './bidi.mjs';
import { Driver, freePort, named } from './webdriver.mjs';

export class Firefox {
  /** The browsers running or being started, by what the desktop is like. */
  #started = new Map();

  /** A profile with nothing in it; see `newContext` of `engine.mjs` for the options. */
  async profile(options) {
    const desktop = { dark: options.colorScheme === 'dark', touch: options.hasTouch };
    const key = JSON.stringify(desktop);
    if (!this.#started.has(key)) {
      this.#started.set(key, start(desktop));
    }
    const { browser } = await this.#started.get(key);
    return browser.profile(options);
  }

  async stop() {
    for (const { status, value } of await Promise.allSettled(this.#started.values())) {
      if (status === 'fulfilled') {
        await value.session.delete(); // which ends the browser and takes its folder away
        await value.browser.end();
        value.driver.stop();
      }
    }
  }
}

async function start({ dark, touch }) {
  const socket = await freePort();
  const driver = await Driver.start((port) => [
    named('GECKODRIVER', 'geckodriver'),
    ['--port', String(port), '--websocket-port', String(socket)],
  ]);
  const coarse = 1; // of what the browser's look says of pointers: 1 coarse, 2 fine, 4 hovering
  const pointers = touch ? { 'ui.primaryPointerCapabilities': coarse, 'ui.allPointerCapabilities': coarse } : {};
  const capabilities = {
    browserName: 'firefox',
    webSocketUrl: true,
    'moz:firefoxOptions': {
      args: ['-headless'],
      prefs: {
        ...pointers,
        'dom.w3c_touch_events.enabled': touch ? 1 : 0,
        'ui.systemUsesDarkTheme': dark ? 1 : 0,
        // A file that is downloaded is not opened: the page would be behind it.
        'browser.download.alwaysOpenPanel': false,
        'pdfjs.disabled': true,
        'devtools.jsonview.enabled': false,
        'focusmanager.testmode': true, // every window has the focus, as the only one on a desk has
        'dom.events.testing.asyncClipboard': true, // without asking, as no person is there to say yes
        // A page from a disk is alone, as it is for everyone.
        'security.fileuri.strict_origin_policy': true,
      },
    },
  };
  try {
    const opened = await driver.session(capabilities);
    const browser = await BidiBrowser.connect(opened.capabilities.webSocketUrl);
    return { driver, session: opened.session, browser };
  } catch (error) {
    driver.stop();
    throw error;
  }
}
