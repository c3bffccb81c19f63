// A browser behind WebDriver in the shape that `page.mjs` and `part.mjs` know: the few methods they call, and no more.

import { Driver, Unsupported, pause } from './webdriver.mjs';

/** How long a part may take to be there and ready, ms. */
const patience = 10_000;

/** The browsers of one engine. */
export class Engine {
  #driver;

  static async launch(name) {
    const engine = new Engine();
    engine.#driver = await Driver.start(name);
    return engine;
  }

  async newContext(options) {
    if (options.hasTouch || options.deviceScaleFactor !== 1) {
      throw new Unsupported('WebDriver cannot make a touch screen, or another density of pixels');
    }
    return new Context(await this.#driver.session({ dark: options.colorScheme === 'dark' }), options);
  }

  async close() {
    await this.#driver.stop();
  }
}

/** A browser with a profile of its own, and one window. */
class Context {
  #session;
  #options;
  #scripts = [];
  #pages = 0;

  constructor(session, options) {
    this.#session = session;
    this.#options = options;
  }

  async addInitScript(script) {
    this.#scripts.push(script);
  }

  async newPage() {
    if (this.#pages++ > 0) {
      throw new Unsupported('a second window of one profile is not driven by WebDriver here');
    }
    const page = new EnginePage(this.#session, this, this.#scripts);
    try {
      await page.setViewportSize(this.#options.viewport);
    } catch (error) {
      await this.close(); // nobody else will: an engine may have but one session
      throw error;
    }
    return page;
  }

  async newCDPSession() {
    return { send: () => Promise.reject(new Unsupported('only Chromium has the DevTools protocol')) };
  }

  async setOffline() {
    throw new Unsupported('WebDriver has no flight mode');
  }

  async close() {
    await this.#session.end();
  }
}

/** The page in its window. */
class EnginePage {
  #session;
  #context;
  #scripts;
  #url = 'about:blank';
  #listeners = { pageerror: () => {} };
  keyboard;
  mouse;
  touchscreen;

  constructor(session, context, scripts) {
    this.#session = session;
    this.#context = context;
    this.#scripts = scripts;
    this.keyboard = new Keyboard(session);
    this.mouse = new Pointer(session, 'mouse');
    this.finger = (id) => new Pointer(session, 'touch', `finger${id}`);
    this.pen = () => new Pointer(session, 'pen');
  }

  on(event, listener) {
    this.#listeners[event] = listener;
  }

  context() {
    return this.#context;
  }

  url() {
    return this.#url;
  }

  async goto(url) {
    await this.#session.post('/url', { url });
    if (this.#scripts.length > 0 && url !== 'about:blank') {
      // Nothing can be run before the page itself: what is to be there first is put there, and the page opened again.
      const scripts = this.#scripts.splice(0);
      for (const script of scripts) {
        await this.#session.call(script);
      }
      // A page that is left in the middle of its first write may be put aside with its database locked.
      for (const end = Date.now() + patience; Date.now() < end; await pause(100)) {
        if (await this.#session.call(() => document.body.dataset.saved !== undefined)) {
          break;
        }
      }
      await this.goto('about:blank');
      await this.#session.post('/url', { url });
    }
    await this.#watch();
    this.#url = await this.#session.get('/url');
  }

  async reload() {
    await this.#session.post('/refresh');
    await this.#watch();
  }

  /** Collects what goes wrong from now on, and what is downloaded. */
  async #watch() {
    await this.#session.call(() => {
      window.faults = [];
      addEventListener('error', ({ message }) => window.faults.push(`exception: ${message}`));
      addEventListener('unhandledrejection', ({ reason }) => window.faults.push(`rejection: ${reason}`));
      addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI }) =>
        window.faults.push(`policy: ${violatedDirective} ${blockedURI}`));
    });
  }

  async title() {
    return this.#session.get('/title');
  }

  async evaluate(f, argument = null) {
    const outcome = await this.#session.call(f, argument).catch((error) => {
      // Such as the clipboard, which a person may read and a driver may not.
      throw error.message.startsWith('NotAllowedError') ? new Unsupported(error.message) : error;
    });
    this.#url = await this.#session.get('/url');
    return outcome;
  }

  /** Tells the page's listener what went wrong since it was asked last. */
  async report() {
    const faults = await this.#session.call(() => window.faults?.splice(0) ?? []);
    faults.forEach((fault) => this.#listeners.pageerror(fault));
  }

  async setViewportSize({ width, height }) {
    for (let attempt = 0; attempt < 3; attempt++) {
      const inner = await this.#session.call(() => [innerWidth, innerHeight]);
      if (inner[0] === width && inner[1] === height) {
        return;
      }
      const rect = await this.#session.get('/window/rect');
      const [more, taller] = [width - inner[0], height - inner[1]];
      await this.#session.post('/window/rect', { width: rect.width + more, height: rect.height + taller });
      await pause(200);
    }
    const inner = await this.#session.call(() => [innerWidth, innerHeight]);
    if (inner[0] !== width || inner[1] !== height) {
      throw new Unsupported(`its window has no size of ${width} × ${height}: ${inner.join(' × ')}`);
    }
  }

  async screenshot() {
    return Buffer.from(await this.#session.get('/screenshot'), 'base64');
  }

  async pdf({ format }) {
    const page = { A4: { width: 21, height: 29.7 }, Letter: { width: 21.59, height: 27.94 } }[format]; // cm
    return Buffer.from(await this.#session.post('/print', { page, background: true }), 'base64');
  }

  async waitForEvent(event) {
    if (event !== 'download') {
      throw new Unsupported(`WebDriver does not tell of a ${event}`);
    }
    // The file is caught as the page hands it over.
    await this.#session.call(() => {
      window.handed = undefined;
      const [blobs, make, click] = [new Map(), URL.createObjectURL, HTMLAnchorElement.prototype.click];
      URL.createObjectURL = (blob) => {
        const url = make.call(URL, blob);
        blobs.set(url, blob);
        return url;
      };
      HTMLAnchorElement.prototype.click = function () {
        window.handed = { name: this.download, blob: blobs.get(this.href) };
        URL.createObjectURL = make;
        HTMLAnchorElement.prototype.click = click;
      };
    });
    for (const end = Date.now() + patience; Date.now() < end; await pause(50)) {
      const file = await this.#session.call(async () => {
        if (!window.handed) {
          return null;
        }
        const bytes = new Uint8Array(await window.handed.blob.arrayBuffer());
        let text = '';
        bytes.forEach((byte) => (text += String.fromCharCode(byte)));
        return { name: window.handed.name, base64: btoa(text) };
      });
      if (file) {
        return { suggestedFilename: () => file.name, bytes: Buffer.from(file.base64, 'base64') };
      }
    }
    throw new Error('no file was handed over');
  }

  async violations(axe) {
    return this.#session.call(`async () => {
      ${axe};
      const { violations } = await axe.run({ resultTypes: ['violations'] });
      return violations.map(({ id, impact, nodes }) => ({ rule: id, impact, where: nodes.map(({ target }) => target.join(' ')) }));
    }`);
  }

  locator(selector) {
    return new Locator(this.#session, this, [{ selector }]);
  }

  getByRole(role, { name }) {
    return new Locator(this.#session, this, [{ role, name }]);
  }
}

/** Elements, named by steps from the document on. */
class Locator {
  #session;
  #page;
  #steps;

  constructor(session, page, steps) {
    this.#session = session;
    this.#page = page;
    this.#steps = steps;
  }

  #more(step) {
    return new Locator(this.#session, this.#page, [...this.#steps, step]);
  }

  locator(selector) {
    return this.#more({ selector });
  }

  first() {
    return this.#more({ nth: 0 });
  }

  last() {
    return this.#more({ nth: -1 });
  }

  toString() {
    return this.#steps.map((step) => JSON.stringify(step)).join(' ');
  }

  /** Calls `f(elements, argument)` in the page. */
  async #on(f, argument = null) {
    return this.#session.call(`(steps, argument) => (${f})((${find})(steps), argument)`, this.#steps, argument);
  }

  /** Calls `f(element, argument)` on the one element, once it is there. */
  async #one(f, argument = null) {
    for (const end = Date.now() + patience; ; await pause(50)) {
      const { found, value } = await this.#on(
        `async (all, argument) => ({ found: all.length, value: all.length === 1 ? await (${f})(all[0], argument) : null })`,
        argument,
      );
      if (found === 1) {
        return value;
      }
      if (Date.now() > end) {
        throw new Error(`${this} are ${found} parts, not one`);
      }
    }
  }

  async count() {
    return this.#on((all) => all.length);
  }

  async isVisible() {
    return this.#on((all) => all.some((element) => element.checkVisibility({ visibilityProperty: true }) && element.getClientRects().length > 0));
  }

  async isEnabled() {
    return this.#one((element) => !element.disabled);
  }

  async evaluate(f) {
    return this.#one(f);
  }

  async innerText() {
    return this.#one((element) => element.innerText);
  }

  async textContent() {
    return this.#one((element) => element.textContent);
  }

  async inputValue() {
    return this.#one((element) => element.value);
  }

  async getAttribute(name) {
    return (await this.#one((element, name) => element.getAttribute(name), name)) ?? null;
  }

  async boundingBox() {
    return this.#one((element) => {
      const { x, y, width, height } = element.getBoundingClientRect();
      return { x, y, width, height };
    });
  }

  async focus() {
    await this.#one((element) => element.focus());
  }

  /** The middle of the element, once it can be pressed. */
  async #pressable() {
    for (const end = Date.now() + patience; ; await pause(50)) {
      const place = await this.#one((element) => {
        if (!element.checkVisibility({ visibilityProperty: true }) || element.disabled) {
          return null;
        }
        element.scrollIntoView({ block: 'nearest', inline: 'nearest' });
        const { x, y, width, height } = element.getBoundingClientRect();
        return { x: x + width / 2, y: y + height / 2 };
      });
      if (place) {
        return place;
      }
      if (Date.now() > end) {
        throw new Error(`${this} cannot be pressed`);
      }
    }
  }

  async hover() {
    const { x, y } = await this.#pressable();
    await this.#page.mouse.move(x, y);
  }

  async click() {
    const { x, y } = await this.#pressable();
    await this.#page.mouse.move(x, y);
    await this.#page.mouse.down();
    await this.#page.mouse.up();
  }

  async tap() {
    const finger = this.#page.finger(0);
    const { x, y } = await this.#pressable();
    await finger.move(x, y);
    await finger.down();
    await finger.up();
  }

  async fill(text) {
    await this.#pressable();
    await this.#one((element, text) => {
      element.focus();
      element.select();
      // As if it were typed: what a script sets is no change to tell of when the field is left.
      document.execCommand(text === '' ? 'delete' : 'insertText', false, text);
    }, text);
  }

  async selectOption(option) {
    await this.#one((element, wanted) => {
      const option = [...element.options].find(({ value, label }) => [value, label].includes(wanted));
      element.value = option.value;
      element.dispatchEvent(new Event('input', { bubbles: true }));
      element.dispatchEvent(new Event('change', { bubbles: true }));
    }, option);
  }
}

/** Finds the elements of a locator's steps; runs in the page. */
function find(steps) {
  const roles = { button: 'button, [role=button]', textbox: 'input, textarea', slider: '[role=slider]', link: 'a' };
  return steps.reduce(
    (found, { selector, nth, role, name }) => {
      if (nth !== undefined) {
        return [found.at(nth)].filter(Boolean);
      }
      const inside = (css) => [...new Set(found.flatMap((element) => [...element.querySelectorAll(css)]))];
      if (selector) {
        return inside(selector);
      }
      const label = (element) => element.ariaLabel ?? element.labels?.[0]?.textContent ?? element.textContent;
      return inside(roles[role] ?? `[role=${role}]`).filter((element) => label(element).trim() === name);
    },
    [document],
  );
}

/** The keys that have names, as the protocol numbers them. */
const keys = {
  Enter: '\uE007', Escape: '\uE00C', Tab: '\uE004', Backspace: '\uE003', Delete: '\uE017', Home: '\uE011', End: '\uE010',
  ArrowLeft: '\uE012', ArrowUp: '\uE013', ArrowRight: '\uE014', ArrowDown: '\uE015', PageUp: '\uE00E', PageDown: '\uE00F',
  Shift: '\uE008', Control: '\uE009', Alt: '\uE00A', Meta: '\uE03D', F1: '\uE031', Space: ' ',
};

class Keyboard {
  #session;

  constructor(session) {
    this.#session = session;
  }

  async #act(actions) {
    await this.#session.post('/actions', { actions: [{ type: 'key', id: 'keys', actions }] });
  }

  async press(chord) {
    const names = chord.split('+').map((name) => keys[name] ?? name);
    const down = names.map((value) => ({ type: 'keyDown', value }));
    const up = names.toReversed().map((value) => ({ type: 'keyUp', value }));
    await this.#act([...down, ...up]);
  }

  async type(text) {
    await this.#act([...text].flatMap((value) => [{ type: 'keyDown', value }, { type: 'keyUp', value }]));
  }
}

/** A mouse, a pen or a finger. */
class Pointer {
  #session;
  #type;
  #id;

  constructor(session, type, id = type) {
    this.#session = session;
    this.#type = type;
    this.#id = id;
  }

  async #act(action) {
    const parameters = { pointerType: this.#type };
    const actions = [{ type: 'pointer', id: this.#id, parameters, actions: [action] }];
    await this.#session.post('/actions', { actions }).catch((error) => {
      throw /Unimplemented .* pointerType/.test(error.message) ? new Unsupported(`no ${this.#type} here`) : error;
    });
  }

  async move(x, y) {
    await this.#act({ type: 'pointerMove', duration: 0, origin: 'viewport', x: Math.round(x), y: Math.round(y) });
  }

  async down() {
    await this.#act({ type: 'pointerDown', button: 0 });
  }

  async up() {
    await this.#act({ type: 'pointerUp', button: 0 });
  }

  async wheel(deltaX, deltaY) {
    const [x, y] = await this.#session.call(() => [innerWidth / 3, innerHeight / 3].map(Math.round));
    const scroll = { type: 'scroll', x, y, deltaX, deltaY, duration: 0, origin: 'viewport' };
    await this.#session.post('/actions', { actions: [{ type: 'wheel', id: 'wheel', actions: [scroll] }] });
  }
}
