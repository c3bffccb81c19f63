// Firefox and WebKit by the standard WebDriver protocol: sessions, commands, and the processes behind them.

import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createServer } from 'node:net';
import { delimiter, join } from 'node:path';

/** What an engine or its protocol cannot do: a scenario that needs it is skipped, and says why. */
export class Unsupported extends Error {}

/** How each engine is started, and what a session of it asks for. */
const engines = {
  firefox: {
    command: (port) => [named('GECKODRIVER', 'geckodriver'), ['--port', String(port)]],
    capabilities: (dark) => ({
      browserName: 'firefox',
      'moz:firefoxOptions': {
        args: ['-headless'],
        prefs: {
          'ui.systemUsesDarkTheme': dark ? 1 : 0,
          'intl.accept_languages': 'en-GB',
          // A page from a disk is alone, as it is for everyone.
          'security.fileuri.strict_origin_policy': true,
        },
      },
    }),
  },
  webkit: {
    // It has no mode without a display: a display in memory takes its place.
    command: (port) => [
      named('XVFB_RUN', 'xvfb-run'),
      ['-a', '-s', '-screen 0 1680x1280x24', named('WEBKITDRIVER', 'WebKitWebDriver'), `--port=${port}`],
    ],
    capabilities: (dark) => {
      if (dark) {
        throw new Unsupported('the protocol cannot ask this WebKit for dark colours');
      }
      return { browserName: 'MiniBrowser', 'webkitgtk:browserOptions': { binary: miniBrowser(), args: ['--automation'] } };
    },
  },
};

/** A driver process; sessions of it are browsers with a profile of their own. */
export class Driver {
  #engine;
  #process;
  #url;

  static async start(name) {
    const driver = new Driver();
    driver.#engine = engines[name];
    const port = await freePort();
    const [command, args] = driver.#engine.command(port);
    driver.#process = spawn(command, args, { stdio: 'ignore', detached: true });
    driver.#url = `http://127.0.0.1:${port}`;
    // A test file that takes too long is ended from outside: its browsers end with it.
    process.once('SIGTERM', () => driver.stop().finally(() => process.exit(1)));
    for (const end = Date.now() + 20_000; ; await pause(100)) {
      const status = await fetch(`${driver.#url}/status`).catch(() => undefined);
      if (status?.ok) {
        return driver;
      }
      if (Date.now() > end) {
        await driver.stop();
        throw new Error(`${command} does not answer`);
      }
    }
  }

  async session({ dark = false } = {}) {
    const body = { capabilities: { alwaysMatch: { ...this.#engine.capabilities(dark), pageLoadStrategy: 'normal' } } };
    const { sessionId } = await request(this.#url, 'POST', '/session', body);
    const session = new Session(`${this.#url}/session/${sessionId}`);
    await session.post('/timeouts', { script: 60_000, pageLoad: 60_000 });
    return session;
  }

  async stop() {
    process.kill(-this.#process.pid, 'SIGTERM'); // with the display in memory, if there is one
  }
}

/** One browser. */
export class Session {
  #url;

  constructor(url) {
    this.#url = url;
  }

  get(path) {
    return request(this.#url, 'GET', path);
  }

  post(path, body = {}) {
    return request(this.#url, 'POST', path, body);
  }

  /** Calls a function in the page, which may be asynchronous, with arguments that JSON can carry. */
  async call(f, ...args) {
    const script = `
      const [done, args] = [arguments[arguments.length - 1], [...arguments].slice(0, -1)];
      Promise.resolve().then(() => (${f})(...args)).then((value) => done({ value }), (error) => done({ error: String(error) }));`;
    const { value, error } = await this.post('/execute/async', { script, args });
    if (error) {
      throw new Error(error);
    }
    return value ?? undefined;
  }

  async end() {
    await request(this.#url, 'DELETE', '');
  }
}

async function request(url, method, path, body) {
  const headers = { 'Content-Type': 'application/json' };
  const response = await fetch(url + path, { method, headers, body: body && JSON.stringify(body) });
  const { value } = await response.json();
  if (!response.ok) {
    const message = `${method} ${path}: ${value.error}: ${value.message}`;
    throw /unknown command|unsupported operation/.test(value.error) ? new Unsupported(message) : new Error(message);
  }
  return value;
}

/** The program named in that variable, else the one on the path. */
function named(variable, name) {
  const folders = (process.env.PATH ?? '').split(delimiter);
  const found = process.env[variable] ?? folders.map((folder) => join(folder, name)).find((path) => existsSync(path));
  if (!found) {
    throw new Error(`there is no ${name} on the path; install it, or name one in ${variable}`);
  }
  return found;
}

/** The browser that Debian's driver of WebKit steers: it lies beside the library, not on the path. */
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

function freePort() {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject).listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}

export const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
