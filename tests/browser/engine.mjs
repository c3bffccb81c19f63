// A browser behind WebDriver in the shape that `page.mjs` and `part.mjs` know: the few methods they call, and no more.

import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Firefox } from './firefox.mjs';
import { Keyboard, Pointer } from './input.mjs';
import { Locator } from './locator.mjs';
import { Unsupported, patience, pause } from './webdriver.mjs';
import { WebKit } from './webkit.mjs';

/** The browsers of one engine. */
export class Engine {
  #browser;

  static async launch(name) {
    const engine = new Engine();
    engine.#browser = name === 'firefox' ? new Firefox() : new WebKit();
    return engine;
  }

  async newContext(options) {
    return new Context(await this.#browser.profile(options), options);
  }

  async close() {
    await this.#browser.stop();
  }
}

/** A profile of its own, and its windows. */
class Context {
  #profile;
  #options;
  #folders = [];

  constructor(profile, options) {
    this.#profile = profile;
    this.#options = options;
  }

  async addInitScript(script) {
    await this.#profile.prepare(script);
  }

  async newPage() {
    const page = new EnginePage(await this.#profile.window(), this, this.#options);
    try {
      await page.setViewportSize(this.#options.viewport);
    } catch (error) {
      await this.close(); // nobody else will
      throw error;
    }
    return page;
  }

  async newCDPSession() {
    return { send: () => Promise.reject(new Unsupported('only Chromium has the DevTools protocol')) };
  }

  async setOffline(offline) {
    await this.#profile.offline(offline);
  }

  before(script, argument) {
    return this.#profile.before(script, argument);
  }

  /** A file of that name and content, there until the end of the context: a page may read it late. */
  async file({ name, buffer }) {
    const folder = await mkdtemp(join(tmpdir(), 'halfbreadth-file-'));
    this.#folders.push(folder);
    await writeFile(join(folder, name), buffer);
    return join(folder, name);
  }

  async close() {
    await this.#profile.end();
    await Promise.all(this.#folders.splice(0).map((folder) => rm(folder, { recursive: true })));
  }
}

/** The page in its window. */
class EnginePage {
  #window;
  #context;
  #density;
  #listeners = {};
  #closed = false;
  keyboard;
  mouse;
  clock;

  constructor(window, context, { deviceScaleFactor }) {
    this.#window = window;
    this.#context = context;
    this.#density = deviceScaleFactor;
    this.keyboard = new Keyboard(window);
    this.mouse = new Pointer(window, 'mouse');
    this.finger = (id) => new Pointer(window, 'touch', `finger${id}`);
    this.pen = () => new Pointer(window, 'pen');
    this.clock = new Clock(window, context);
    window.listen((kind, said) => {
      if (kind === 'request') {
        this.#listeners.request?.({ url: () => said });
      } else {
        this.#listeners.pageerror?.(said);
      }
    });
  }

  on(event, listener) {
    this.#listeners[event] = listener;
  }

  context() {
    return this.#context;
  }

  url() {
    return this.#window.url();
  }

  async goto(url) {
    await this.#window.navigate(url);
  }

  async reload() {
    await this.#window.reload();
  }

  async title() {
    return this.#window.call(() => document.title);
  }

  async evaluate(f, argument = null) {
    return this.#window.call(f, argument);
  }

  /** Tells the page's listener what went wrong since it was asked last, where the protocol has no news. */
  async report() {
    if (!this.#closed) {
      await this.#window.report?.();
    }
  }

  async setViewportSize(size) {
    await this.#window.resize(size, this.#density);
  }

  async screenshot() {
    return Buffer.from(await this.#window.screenshot(), 'base64');
  }

  async pdf({ format }) {
    const page = { A4: { width: 21, height: 29.7 }, Letter: { width: 21.59, height: 27.94 } }[format]; // cm
    return Buffer.from(await this.#window.print(page), 'base64');
  }

  async waitForEvent(event) {
    switch (event) {
      case 'load':
        return this.#window.next('load');
      case 'download': {
        const { name, bytes } = await this.#window.next('download');
        return { suggestedFilename: () => name, bytes };
      }
      case 'filechooser':
        return this.#fileChooser();
      default:
        throw new Error(`no ${event} is waited for here`);
    }
  }

  /** The input as the page opens it: the dialog itself is no part of the page, and would stay open. */
  async #fileChooser() {
    await this.#window.call(() => {
      window.chooser = undefined;
      HTMLInputElement.prototype.click = function () {
        window.chooser = this;
        delete HTMLInputElement.prototype.click;
      };
    });
    for (const end = Date.now() + patience; Date.now() < end; await pause(50)) {
      if (await this.#window.call(() => window.chooser !== undefined)) {
        return {
          setFiles: async (file) => {
            const path = typeof file === 'string' ? file : await this.#context.file(file);
            await this.#window.give([path], () => window.chooser);
          },
        };
      }
    }
    throw new Error('no file was asked for');
  }

  async clipboard() {
    return this.#window.clipboard();
  }

  async violations(axe) {
    return this.#window.call(`async () => {
      ${axe};
      const { violations } = await axe.run({ resultTypes: ['violations'] });
      return violations.map(({ id, impact, nodes }) => ({ rule: id, impact, where: nodes.map(({ target }) => target.join(' ')) }));
    }`);
  }

  locator(selector) {
    return new Locator(this.#window, this, [{ selector }]);
  }

  getByRole(role, { name }) {
    return new Locator(this.#window, this, [{ role, name }]);
  }

  async close() {
    await this.report();
    this.#closed = true;
    await this.#window.close();
  }
}

/** The page's clock in the test's hand: it goes on by itself, and jumps. */
class Clock {
  #window;
  #context;
  #ahead = 0;
  #takeBack = async () => {};

  constructor(window, context) {
    this.#window = window;
    this.#context = context;
  }

  /** Sets it to that time, from the next load on. */
  async install({ time }) {
    await this.#set(Date.parse(time) - Date.now());
  }

  async fastForward(ms) {
    await this.#set(this.#ahead + ms);
    await this.#window.call((ms) => letPass(ms), ms);
    await pause(500); // until what the page does by the clock has ticked
  }

  async #set(ahead) {
    this.#ahead = ahead;
    await this.#takeBack();
    this.#takeBack = await this.#context.before((ahead) => {
      const Own = Date;
      globalThis.letPass = (ms) => (ahead += ms);
      globalThis.Date = class extends Own {
        constructor(...args) {
          super(...(args.length ? args : [Own.now() + ahead]));
        }
        static now() {
          return Own.now() + ahead;
        }
      };
    }, ahead);
  }
}
