// WebKit, as Debian's driver of it steers it: a browser for each profile, by the first WebDriver protocol, which has no
// news of what happens in the page.

import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { flightMode } from './server.mjs';
import { Driver, Unsupported, named, patience, pause, within } from './webdriver.mjs';

export class WebKit {
  #screen;

  /** A browser by a driver of its own, which can have but one. */
  async profile(options) {
    if (options.hasTouch) {
      throw new Unsupported('the driver of WebKit makes a mouse of every finger');
    }
    if (options.deviceScaleFactor !== 1) {
      throw new Unsupported('the driver of WebKit cannot set the density of pixels');
    }
    if (options.colorScheme === 'dark') {
      throw new Unsupported('the driver of WebKit cannot ask for dark colours');
    }
    if (!options.locale.startsWith('en')) {
      throw new Unsupported('WebKit here has the language of the system');
    }
    this.#screen ??= Screen.start();
    const { name } = await this.#screen;
    const command = (port) => [named('WEBKITDRIVER', 'WebKitWebDriver'), [`--port=${port}`]];
    const capabilities = {
      browserName: 'MiniBrowser',
      'webkitgtk:browserOptions': { binary: miniBrowser(), args: ['--automation'] },
    };
    for (let attempt = 1; ; attempt++) {
      const driver = await Driver.start(command, { DISPLAY: name });
      try {
        // Of two that start at the same moment one may wait for its browser without end.
        const { session } = await within(20_000, driver.session(capabilities));
        return new Profile(driver, session);
      } catch (error) {
        driver.stop();
        if (attempt === 3) {
          throw error;
        }
      }
    }
  }

  async stop() {
    const screen = await this.#screen?.catch(() => undefined); // the tests have said that it did not start
    screen?.end();
  }
}

/** A display in memory: this browser has no mode without one. */
class Screen {
  #process;
  name;

  static async start() {
    const screen = new Screen();
    // It takes the first number that is free itself, and writes it: two that are started at once get two.
    const options = ['-displayfd', '3', '-screen', '0', '1680x1280x24', '-nolisten', 'tcp'];
    screen.#process = spawn(named('XVFB', 'Xvfb'), options, { stdio: ['ignore', 'ignore', 'ignore', 'pipe'] });
    process.once('exit', () => screen.end());
    const number = await new Promise((resolve, reject) => {
      screen.#process.stdio[3].once('data', (data) => resolve(String(data).trim()));
      screen.#process.once('error', reject).once('exit', (code) => reject(new Error(`the display ended: ${code}`)));
    });
    screen.name = `:${number}`;
    return screen;
  }

  end() {
    this.#process.kill();
  }
}

/** The browser that Debian's driver steers: it lies beside the library, not on the path. */
function miniBrowser() {
  const folders = ['x86_64', 'aarch64'].flatMap((cpu) =>
    ['4.1', '4.0', '6.0'].map((version) => `/usr/lib/${cpu}-linux-gnu/webkit2gtk-${version}/MiniBrowser`),
  );
  const found = process.env.MINIBROWSER ?? folders.find((path) => existsSync(path));
  if (!found) {
    throw new Error('there is no MiniBrowser of WebKit; install webkit2gtk-driver, or name one in MINIBROWSER');
  }
  return found;
}

/** A session: commands go to the window it has turned to, so that they follow one another. */
class Profile {
  #driver;
  #session;
  #scripts = [];
  #turned;
  #ended;
  #last = Promise.resolve();

  constructor(driver, session) {
    this.#driver = driver;
    this.#session = session;
  }

  async window() {
    const handle = this.#turned
      ? (await this.#session.post('/window/new', { type: 'window' })).handle
      : await this.#session.get('/window');
    this.#turned ??= handle;
    return new Window(this, handle, this.#scripts.splice(0));
  }

  /** Calls `ask(session)` with the session turned to that window. */
  in(handle, ask) {
    const asked = this.#last.then(async () => {
      if (this.#turned !== handle) {
        await this.#session.post('/window', { handle });
        this.#turned = handle;
      }
      return ask(this.#session);
    });
    this.#last = asked.catch(() => {});
    return asked;
  }

  /** Runs a script in the page's first window, which is then opened again: what it leaves in the storage stays. */
  async prepare(script) {
    this.#scripts.push(script);
  }

  async before() {
    throw new Unsupported('in WebKit nothing can be run before the page itself');
  }

  /** The browser has no flight mode; the servers of this test have. */
  async offline(offline) {
    flightMode(offline);
  }

  /** Ends it with all its windows; of several, each may end it. */
  async end() {
    flightMode(false);
    this.#ended ??= this.#session.delete().finally(() => this.#driver.stop());
    await this.#ended;
  }
}

class Window {
  #profile;
  #handle;
  #scripts;
  #url = 'about:blank';
  #listener = () => {};

  constructor(profile, handle, scripts) {
    this.#profile = profile;
    this.#handle = handle;
    this.#scripts = scripts;
  }

  #get(path) {
    return this.#profile.in(this.#handle, (session) => session.get(path));
  }

  #post(path, body) {
    return this.#profile.in(this.#handle, (session) => session.post(path, body));
  }

  listen(listener) {
    this.#listener = listener;
  }

  url() {
    return this.#url;
  }

  async navigate(url) {
    if (this.#scripts.length > 0 && url !== 'about:blank') {
      await this.#prepare(url);
    }
    await this.#post('/url', { url });
    await this.#watch();
  }

  /** Nothing can be run before the page itself: what is to be there first is put there from a picture beside it, or from a page on a disk. */
  async #prepare(url) {
    const onDisk = url.startsWith('file:');
    await this.#post('/url', { url: onDisk ? url : new URL('icon.svg', url).href });
    for (const script of this.#scripts.splice(0)) {
      await this.call(script);
    }
    if (onDisk) {
      // A page that is left in the middle of its first write may be put aside with its database locked.
      await this.#found(() => (document.body.dataset.saved !== undefined ? {} : null));
      await this.#post('/url', { url: 'about:blank' });
    }
  }

  async reload() {
    await this.#post('/refresh');
    await this.#watch();
  }

  /** Collects what goes wrong from now on. */
  async #watch() {
    await this.call(() => {
      window.faults = [];
      addEventListener('error', ({ message }) => window.faults.push(`exception: ${message}`));
      addEventListener('unhandledrejection', ({ reason }) => window.faults.push(`rejection: ${reason}`));
      addEventListener('securitypolicyviolation', ({ violatedDirective, blockedURI }) =>
        window.faults.push(`policy: ${blockedURI} violates ${violatedDirective}`));
      // No test may read the clipboard.
      const { clipboard } = navigator;
      const write = clipboard?.writeText;
      if (write) {
        clipboard.writeText = (text) => {
          window.copied = text;
          return write.call(clipboard, text);
        };
      }
      const say = console.error;
      console.error = (...said) => {
        window.faults.push(`console: ${said.join(' ')}`);
        say.apply(console, said);
      };
    });
  }

  /** Tells the listener what went wrong since it was told last. */
  async report() {
    const faults = await this.call(() => window.faults?.splice(0) ?? []);
    faults.forEach((fault) => this.#listener('fault', fault));
  }

  /** Calls a function in the page, which may be asynchronous, with arguments that JSON can carry. */
  async call(f, ...args) {
    const script = `
      const [done, args] = [arguments[arguments.length - 1], [...arguments].slice(0, -1)];
      const say = (said) => done(JSON.stringify({ ...said, url: location.href }));
      Promise.resolve().then(() => (${f})(...args)).then((value) => say({ value }), (error) => say({ error: String(error) }));`;
    const { value, url, error } = JSON.parse(await this.#post('/execute/async', { script, args }));
    if (error) {
      throw new Error(error);
    }
    this.#url = url;
    return value;
  }

  /** What the page has put into the clipboard. */
  async clipboard() {
    return this.call(() => window.copied);
  }

  async act(source) {
    if (source.parameters?.pointerType === 'touch') {
      throw new Unsupported('the driver of WebKit makes a mouse of every finger');
    }
    // Its places are whole pixels.
    const actions = source.actions.map((action) => ('x' in action ? { ...action, x: Math.round(action.x), y: Math.round(action.y) } : action));
    await this.#post('/actions', { actions: [{ ...source, actions }] });
  }

  async resize({ width, height }) {
    const inner = () => this.call(() => [innerWidth, innerHeight]);
    const fits = async () => (await inner()).join() === [width, height].join();
    for (let attempt = 0; attempt < 3 && !(await fits()); attempt++) {
      const [rect, [across, down]] = [await this.#get('/window/rect'), await inner()];
      await this.#post('/window/rect', { width: rect.width + width - across, height: rect.height + height - down });
      for (const end = Date.now() + 200; Date.now() < end && !(await fits()); ) {
        await pause(20);
      }
    }
    if (!(await fits())) {
      throw new Unsupported(`the window of WebKit's browser has no size of ${width} × ${height}: ${(await inner()).join(' × ')}`);
    }
  }

  /** Resolves when that happens next: a 'load' or a 'download'. */
  next(kind) {
    return kind === 'load' ? this.#load() : this.#download();
  }

  async #load() {
    await this.call(() => (document.documentElement.dataset.before = ''));
    await this.#found(() => document.documentElement.dataset.before === undefined && document.readyState === 'complete' ? {} : null);
    await this.#watch();
  }

  /** The file as the page hands it over. */
  async #download() {
    await this.call(() => {
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
        delete HTMLAnchorElement.prototype.click;
      };
    });
    const { name, base64 } = await this.#found(async () => {
      if (!window.handed) {
        return null;
      }
      const bytes = new Uint8Array(await window.handed.blob.arrayBuffer());
      let text = '';
      bytes.forEach((byte) => (text += String.fromCharCode(byte)));
      return { name: window.handed.name, base64: btoa(text) };
    });
    return { name, bytes: Buffer.from(base64, 'base64') };
  }

  /** Chooses files by their paths in the input that a function of the page finds. */
  async give(files, find) {
    const element = await this.#post('/execute/sync', { script: `return (${find})()`, args: [] });
    await this.#post(`/element/${Object.values(element)[0]}/value`, { text: files.join('\n') });
  }

  /** What a function of the page says, once it says something. */
  async #found(f) {
    for (const end = Date.now() + patience; Date.now() < end; await pause(50)) {
      // A page that is being left answers nothing.
      const found = await this.call(f).catch(() => undefined);
      if (found) {
        return found;
      }
    }
    throw new Error('waited in vain');
  }

  async screenshot() {
    return this.#get('/screenshot');
  }

  async print(page) {
    return this.#post('/print', { page, background: true });
  }

  async close() {
    await this.#profile.in(this.#handle, (session) => session.delete('/window'));
  }
}
