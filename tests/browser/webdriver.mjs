// The standard WebDriver protocol: the drivers, their sessions, and the processes behind them.

import { spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createServer } from 'node:net';
import { delimiter, join } from 'node:path';

/** How long what a page does may take, ms. */
export const patience = 10_000;

/** What an engine or its protocol cannot do: a scenario that needs it is skipped, and says why. */
export class Unsupported extends Error {}

/** The drivers that run: a test file that takes too long is ended from outside, and its browsers end with it. */
const running = new Set();
process.once('SIGTERM', () => {
  running.forEach((driver) => driver.stop());
  process.exit(1);
});

/** A driver's process. */
export class Driver {
  #process;
  #url;

  /** Starts `command(port)`, `[program, arguments]`, with more variables if need be, and waits until it answers. */
  static async start(command, variables = {}) {
    const driver = new Driver();
    const port = await freePort();
    const [program, args] = command(port);
    driver.#process = spawn(program, args, { stdio: 'ignore', detached: true, env: { ...process.env, ...variables } });
    driver.#url = `http://127.0.0.1:${port}`;
    running.add(driver);
    for (const end = Date.now() + 20_000; ; await pause(100)) {
      const status = await fetch(`${driver.#url}/status`).catch(() => undefined);
      if (status?.ok) {
        return driver;
      }
      if (Date.now() > end) {
        driver.stop();
        throw new Error(`${program} does not answer`);
      }
    }
  }

  /** Opens a browser; resolves to its session and to what the driver says that it can do. */
  async session(capabilities) {
    const body = { capabilities: { alwaysMatch: { ...capabilities, pageLoadStrategy: 'normal' } } };
    const opened = await request(this.#url, 'POST', '/session', body);
    const session = new Session(`${this.#url}/session/${opened.sessionId}`);
    await session.post('/timeouts', { script: 60_000, pageLoad: 60_000 });
    return { session, capabilities: opened.capabilities };
  }

  stop() {
    running.delete(this);
    if (this.#process.exitCode === null && this.#process.signalCode === null) {
      process.kill(-this.#process.pid, 'SIGTERM'); // with the browsers it has started
    }
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

  delete(path = '') {
    return request(this.#url, 'DELETE', path);
  }
}

async function request(url, method, path, body) {
  const headers = { 'Content-Type': 'application/json' };
  const signal = AbortSignal.timeout(90_000); // longer than any command may take
  const response = await fetch(url + path, { method, headers, body: body && JSON.stringify(body), signal });
  const { value } = await response.json();
  if (!response.ok) {
    const message = `${method} ${path}: ${value.error}: ${value.message}`;
    throw /unknown command|unsupported operation/.test(value.error) ? new Unsupported(message) : new Error(message);
  }
  return value;
}

/** The program named in that variable, else the one on the path. */
export function named(variable, name) {
  const folders = (process.env.PATH ?? '').split(delimiter);
  const found = process.env[variable] ?? folders.map((folder) => join(folder, name)).find((path) => existsSync(path));
  if (!found) {
    throw new Error(`there is no ${name} on the path; install it, or name one in ${variable}`);
  }
  return found;
}

/** A port that is free just now. */
export function freePort() {
  return new Promise((resolve, reject) => {
    const server = createServer();
    server.once('error', reject).listen(0, '127.0.0.1', () => {
      const { port } = server.address();
      server.close(() => resolve(port));
    });
  });
}

/** What is promised, or a failure after so many milliseconds. */
export async function within(ms, promised) {
  let late;
  const end = new Promise((_, reject) => (late = setTimeout(() => reject(new Error(`nothing after ${ms} ms`)), ms)));
  return Promise.race([promised, end]).finally(() => clearTimeout(late));
}

export const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
