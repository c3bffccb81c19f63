// The page in one window: what a person does with it and finds on it.

import assert from 'node:assert/strict';
import { createRequire } from 'node:module';
import { mkdir, readFile, writeFile } from 'node:fs/promises';
import { Part, place } from './part.mjs';
import { Pointers } from './pointers.mjs';

const shots = new URL('shots/', import.meta.url);

/** The page in one window. */
export class Page {
  /** Everything that went wrong in the page so far: exceptions, console errors, calls to other hosts. */
  errors = [];
  /** Opens the page once more as another person would, in another browser: nothing is shared but the link. */
  elsewhere;
  /** Opens the page once more in the same browser, in a window of its own. */
  beside;
  #page;
  #cdp;
  #url;
  #pointers;

  constructor(page, cdp, url, { elsewhere, beside }) {
    this.#page = page;
    this.#cdp = cdp;
    this.#url = url;
    this.elsewhere = elsewhere;
    this.beside = beside;
    this.#pointers = new Pointers(page, cdp, () => this.frame());
    page.on('pageerror', (error) => this.errors.push(`exception: ${error.stack ?? error}`));
    page.on('console', (message) => {
      if (message.type() === 'error') {
        this.errors.push(`console: ${message.text()} (${message.location().url})`);
      }
    });
    page.on('request', (request) => {
      if (!/^(data|blob):/.test(request.url()) && !request.url().startsWith(url)) {
        this.errors.push(`request beyond the site: ${request.url()}`);
      }
    });
  }

  // Where the page is

  /** Opens a link of the page, given by its fragment, as a click on it in a message does. */
  async goto(fragment = '') {
    await this.#page.goto('about:blank'); // else a new fragment alone would load nothing
    await this.#page.goto(this.#url + fragment);
    await this.ready();
  }

  async reload() {
    await this.#page.reload();
    await this.ready();
  }

  /** Does something after which the page loads itself anew, and waits until it has. */
  async navigation(action) {
    await Promise.all([this.#page.waitForEvent('load'), action()]);
    await this.ready();
  }

  /** Waits for the end of the start, or its failure: what the page reports then fails the scenario anyway. */
  async ready() {
    const ready = this.part('body[data-ready]');
    await this.until(async () => this.errors.length > 0 || (await ready.count()) > 0, 'body[data-ready]', 40_000);
  }

  /** The fragment of the address, from '#' on. */
  get fragment() {
    return new URL(this.#page.url()).hash;
  }

  async title() {
    return this.#page.title();
  }

  async resize({ width, height }) {
    await this.#page.setViewportSize({ width, height });
    await this.frame();
  }

  async offline(offline = true) {
    await this.#page.context().setOffline(offline);
  }

  /** Waits until what was done is drawn: handlers store, the next frame computes and draws. */
  async frame() {
    await this.#page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  }

  /** Waits until `probe()`, asked again and again, answers with something true; resolves to that. */
  async until(probe, what = String(probe), timeout = 5_000) {
    for (const end = Date.now() + timeout; Date.now() < end; await this.frame()) {
      const answer = await probe();
      if (answer) {
        return answer;
      }
    }
    throw new Error(`waited ${timeout} ms in vain for: ${what}`);
  }

  /** Closes this window only. */
  async closeWindow() {
    await this.#page.close();
  }

  /** Gathers what went wrong where the browser does not tell of it by itself. */
  async report() {
    await this.#page.report?.();
  }

  async close() {
    await this.#page.context().close();
  }

  // What is on the page: the stable hooks first, then what a person would name

  handle(id) {
    return this.part(`[data-handle="${id}"]`);
  }

  field(key) {
    return this.part(`[data-field="${key}"]`);
  }

  /** The element that carries out a command: of two, the one that is not under More. */
  commandPart(name) {
    return this.part(`[data-command="${name}"]`).last();
  }

  /** Clicks a command; on a small window it may first have to be found under More. */
  async command(name) {
    const more = this.part('.more');
    const under = this.part(`#more [data-command="${name}"]`);
    if ((await under.count()) > 0 && !(await under.visible()) && !(await this.commandPart(name).visible())) {
      await more.click();
      await under.click();
      await this.press('Escape');
      return;
    }
    await this.commandPart(name).click();
  }

  /** Goes to a room: 'draw', 'layup' or 'cut'. */
  async room(name) {
    await this.part(`[data-room="${name}"]`).click();
  }

  /** A shown measure in its full precision, as a number (mm, mm², degrees, g); `null` where there is none. */
  async readout(key) {
    const value = await this.part(`[data-readout="${key}"]`).attribute('data-value');
    assert.notEqual(value, null, `the readout ${key} has no data-value`);
    const number = value === '' ? null : Number(value);
    assert.ok(!Number.isNaN(number), `the readout ${key} is no number: ${value}`);
    return number;
  }

  /** A shown measure as it is written on the page, seen or not: figure only, without its unit. */
  async shown(key) {
    return this.part(`[data-readout="${key}"]`).content();
  }

  /** All measures in their full precision, by key, as the page writes them: strings, empty where there is none. */
  async readouts() {
    return this.#page.evaluate(() =>
      Object.fromEntries(
        [...document.querySelectorAll('[data-readout]')].map(({ dataset }) => [dataset.readout, dataset.value]),
      ),
    );
  }

  /** What the status line says; empty if nothing. */
  async notice() {
    return this.part('#notice').content();
  }

  /** The name of the step that undo would take back; `null` if there is none. */
  async undoStep() {
    return this.commandPart('undo').attribute('data-step');
  }

  /** Waits until the last change is kept in the browser. */
  async saved() {
    const done = () => this.#page.evaluate(() => document.body.dataset.saved === document.body.dataset.revision);
    await this.until(done, 'body[data-saved] = body[data-revision]');
  }

  /** Types into a field over what is there, and confirms with Enter. */
  async enter(key, text) {
    await this.field(key).fill(text);
    await this.press('Enter');
  }

  /** The parts that a CSS selector finds; most methods of it want exactly one. */
  part(selector) {
    return new Part(this.#page.locator(selector), () => this.frame());
  }

  /** The part a screen reader calls by this role and name. */
  role(role, name) {
    return new Part(this.#page.getByRole(role, { name, exact: true }), () => this.frame());
  }

  /** The part that has the keyboard's focus. */
  focused() {
    return this.part(':focus');
  }

  // What a person does

  /** Presses a key or a chord, such as 'ArrowUp', 'Shift+ArrowLeft' or 'Control+z'. */
  async press(chord) {
    await this.#page.keyboard.press(chord);
    await this.frame();
  }

  async type(text) {
    await this.#page.keyboard.type(text);
    await this.frame();
  }

  /** Presses a pointer on a part or a place; see `Hold` for what can be done with it then. */
  async grab(where, { by = 'mouse' } = {}) {
    return this.#pointers.press(by, await place(where));
  }

  /** Drags from one part or place to another, by 'mouse', 'pen' or 'touch'. */
  async drag(from, to, { by = 'mouse', steps = 10 } = {}) {
    const hold = await this.grab(from, { by });
    await hold.move(await place(to), steps);
    await hold.release();
  }

  /** Drags from a part or place by so many CSS pixels to the right and down. */
  async dragBy(from, { x = 0, y = 0 }, options) {
    const start = await place(from);
    await this.drag(start, { x: start.x + x, y: start.y + y }, options);
  }

  /** Moves two fingers, one either side of a place, from one distance to another, along a line. */
  async pinch(where, { from, to, angle = 0, steps = 10 }) {
    const centre = await place(where);
    const at = (distance) => ({
      x: centre.x + (distance / 2) * Math.cos(angle),
      y: centre.y + (distance / 2) * Math.sin(angle),
    });
    const fingers = [await this.grab(at(from), { by: 'touch' }), await this.grab(at(-from), { by: 'touch' })];
    for (let step = 1; step <= steps; step++) {
      const distance = from + ((to - from) * step) / steps;
      await fingers[0].move(at(distance), 1);
      await fingers[1].move(at(-distance), 1);
    }
    await fingers[0].release();
    await fingers[1].release();
  }

  /** Turns the mouse wheel over a part or place. */
  async wheel(where, { x = 0, y = 0 }) {
    const { x: left, y: top } = await place(where);
    await this.#page.mouse.move(left, top);
    await this.#page.mouse.wheel(x, y);
    await this.frame();
  }

  /** Does something that downloads a file; resolves to its name and bytes. */
  async download(action) {
    const [download] = await Promise.all([this.#page.waitForEvent('download', { timeout: 10_000 }), action()]);
    return { name: download.suggestedFilename(), bytes: download.bytes ?? (await readFile(await download.path())) };
  }

  /**
   * Does something that asks for a file, and gives it this one: bytes, or one that lies at a `path`. Bytes are carried into
   * the page by the page itself, which large ones hold up.
   */
  async upload(action, { name, bytes, type = 'application/octet-stream', path }) {
    const [chooser] = await Promise.all([this.#page.waitForEvent('filechooser', { timeout: 10_000 }), action()]);
    await chooser.setFiles(path ?? { name, mimeType: type, buffer: Buffer.from(bytes) });
    await this.frame();
  }

  /** The text in the clipboard. */
  async clipboard() {
    return this.#page.clipboard?.() ?? this.#page.evaluate(() => navigator.clipboard.readText());
  }

  /** What the browser prints of the page on that paper, as a PDF. */
  async print(format) {
    return this.#page.pdf({ format, printBackground: true, preferCSSPageSize: false });
  }

  // What a person cannot do, but a test may

  /** Keeps a picture of the window in `shots/`; resolves to its bytes (PNG). */
  async screenshot(name) {
    await mkdir(shots, { recursive: true });
    const file = `${name.replaceAll(/[^\p{L}\p{N}.-]+/gu, '-')}.png`;
    const bytes = await this.#page.screenshot();
    await writeFile(new URL(file, shots), bytes);
    return bytes;
  }

  /** Bytes in use by the page after a collection of garbage: those of scripts, and the memory of the wasm. */
  async memory() {
    await this.#cdp.send('HeapProfiler.collectGarbage');
    const { usedSize } = await this.#cdp.send('Runtime.getHeapUsage');
    const wasm = await this.#page.evaluate(async () => {
      const { default: init } = await import('./halfbreadth.js');
      return (await init()).memory.buffer.byteLength; // a second init answers with the exports of the first
    });
    return { scripts: usedSize, wasm };
  }

  /** Puts the page's clock in the test's hand, from its next load on: it goes on by itself, and jumps with `pass`. */
  async holdClock(time) {
    await this.#page.clock.install({ time });
    await this.reload();
  }

  /** Lets so many seconds pass at once. */
  async pass(seconds) {
    await this.#page.clock.fastForward(1000 * seconds);
    await this.frame();
  }

  /**
   * Lets every write to the browser's database fail as on a full disk: the transaction is broken off. An override of the
   * quota by the protocol is shown by the browser as active, and holds back no write.
   */
  async fullDisk(full = true) {
    await this.#page.evaluate((full) => {
      const { prototype } = IDBDatabase;
      const own = (globalThis.ownTransaction ??= prototype.transaction);
      const broken = function (stores, mode) {
        const transaction = own.call(this, stores, mode);
        if (mode === 'readwrite') {
          queueMicrotask(() => transaction.abort());
        }
        return transaction;
      };
      prototype.transaction = full ? broken : own;
    }, full);
  }

  /** Runs a function in the page, with one argument that JSON can carry. */
  async evaluate(script, argument) {
    return this.#page.evaluate(script, argument);
  }

  /** What axe-core finds wrong for users of assistive tools: `[{ rule, impact, where }]`, empty if all is well. */
  async violations() {
    // In a world of its own, where neither the page's policy nor its globals can change what axe does.
    const axe = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
    if (this.#page.violations) {
      return this.#page.violations(axe);
    }
    const { frameTree } = await this.#cdp.send('Page.getFrameTree');
    const world = await this.#cdp.send('Page.createIsolatedWorld', { frameId: frameTree.frame.id });
    const run = async (expression) => {
      const { result, exceptionDetails } = await this.#cdp.send('Runtime.evaluate', {
        expression,
        contextId: world.executionContextId,
        awaitPromise: true,
        returnByValue: true,
      });
      assert.equal(exceptionDetails, undefined, exceptionDetails?.exception?.description);
      return result.value;
    };
    await run(`${axe}; 0`);
    const found = await run(`axe.run({ resultTypes: ['violations'] }).then(({ violations }) => violations.map(
      ({ id, impact, nodes }) => ({ rule: id, impact, where: nodes.map(({ target }) => target.join(' ')) })))`);
    return found;
  }
}
