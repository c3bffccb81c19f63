// Firefox by WebDriver BiDi, the standard protocol over a socket: one browser with many profiles, scripts that run before
// the page's own, and news of what happens in the page.

import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import WebSocket from 'ws';
import { Unsupported, patience } from './webdriver.mjs';

/** Commands to a browser, and its news. */
class Connection {
  #socket;
  #last = 0;
  #answers = new Map();
  #listeners = new Map();

  static async open(url) {
    const connection = new Connection();
    connection.#socket = new WebSocket(url);
    await new Promise((resolve, reject) => connection.#socket.once('open', resolve).once('error', reject));
    connection.#socket.on('message', (data) => connection.#receive(JSON.parse(data)));
    connection.#socket.on('close', () => connection.#answers.forEach(({ reject }) => reject(new Error('the browser is gone'))));
    return connection;
  }

  #receive({ id, result, error, message, method, params }) {
    if (method) {
      this.#listeners.get(params.context ?? params.source?.context)?.(method, params);
      return;
    }
    const { command, resolve, reject } = this.#answers.get(id);
    this.#answers.delete(id);
    if (error) {
      const fault = `${command}: ${error}: ${message}`;
      reject(/unknown command|unsupported/.test(fault) ? new Unsupported(fault) : new Error(fault));
    } else {
      resolve(result);
    }
  }

  send(command, params = {}) {
    const id = ++this.#last;
    return new Promise((resolve, reject) => {
      this.#answers.set(id, { command, resolve, reject });
      this.#socket.send(JSON.stringify({ id, method: command, params }));
    });
  }

  /** Tells `listener(method, params)` what happens in a window. */
  listen(context, listener) {
    this.#listeners.set(context, listener);
  }
}

/** A browser whose profiles are user contexts: nothing kept in one is seen in another. */
export class BidiBrowser {
  #connection;
  #downloads;

  /** `url` is the `webSocketUrl` that the driver answers to a new session that asks for one. */
  static async connect(url) {
    const browser = new BidiBrowser();
    browser.#connection = await Connection.open(url);
    browser.#downloads = await mkdtemp(join(tmpdir(), 'halfbreadth-downloads-'));
    await browser.#connection.send('session.subscribe', {
      events: [
        'log.entryAdded', 'network.beforeRequestSent', 'browsingContext.load', 'browsingContext.fragmentNavigated',
        'browsingContext.historyUpdated', 'browsingContext.downloadWillBegin', 'browsingContext.downloadEnd',
      ],
    });
    return browser;
  }

  async profile({ locale, timezoneId }) {
    const { userContext } = await this.#connection.send('browser.createUserContext');
    const userContexts = [userContext];
    await this.#connection.send('emulation.setLocaleOverride', { locale, userContexts });
    await this.#connection.send('emulation.setTimezoneOverride', { timezone: timezoneId, userContexts });
    const downloadBehavior = { type: 'allowed', destinationFolder: this.#downloads };
    await this.#connection.send('browser.setDownloadBehavior', { downloadBehavior, userContexts });
    return new BidiProfile(this.#connection, userContext);
  }

  async end() {
    await rm(this.#downloads, { recursive: true, force: true });
  }
}

class BidiProfile {
  #connection;
  #userContext;
  #ended;

  constructor(connection, userContext) {
    this.#connection = connection;
    this.#userContext = userContext;
  }

  async window() {
    // A tab behind another would draw no frames.
    const { context } = await this.#connection.send('browsingContext.create', { type: 'window', userContext: this.#userContext });
    return new BidiWindow(this.#connection, context);
  }

  /** Runs a script before the page's own, in whatever is loaded from now on; resolves to what takes it back. */
  async before(script, argument = null) {
    const { script: id } = await this.#connection.send('script.addPreloadScript', {
      functionDeclaration: `() => (${script})(${JSON.stringify(argument)})`,
      userContexts: [this.#userContext],
    });
    return () => this.#connection.send('script.removePreloadScript', { script: id });
  }

  async prepare(script) {
    await this.before(script);
  }

  async offline(offline) {
    const networkConditions = offline ? { type: 'offline' } : null;
    await this.#connection.send('emulation.setNetworkConditions', { networkConditions, userContexts: [this.#userContext] });
  }

  /** Ends it with all its windows; of several, each may end it. */
  async end() {
    this.#ended ??= this.#connection.send('browser.removeUserContext', { userContext: this.#userContext });
    await this.#ended;
  }
}

class BidiWindow {
  #connection;
  #context;
  #url = 'about:blank';
  #file;
  /** `(kind, news)`: 'fault' with a text, 'request' with an address, or one of those that `next` waits for. */
  #listener = () => {};
  #waiting = new Map();

  constructor(connection, context) {
    this.#connection = connection;
    this.#context = context;
    connection.listen(context, (method, params) => this.#hear(method, params));
  }

  listen(listener) {
    this.#listener = listener;
  }

  #hear(method, params) {
    switch (method) {
      case 'log.entryAdded':
        if (params.level === 'error') {
          this.#listener('fault', `${params.type}: ${params.text}`);
        }
        break;
      case 'network.beforeRequestSent':
        this.#listener('request', params.request.url);
        break;
      case 'browsingContext.load':
        this.#url = params.url;
        this.#happened('load');
        break;
      case 'browsingContext.fragmentNavigated':
      case 'browsingContext.historyUpdated':
        this.#url = params.url;
        break;
      case 'browsingContext.downloadWillBegin':
        this.#file = params.suggestedFilename;
        break;
      case 'browsingContext.downloadEnd':
        this.#downloaded(params.filepath);
    }
  }

  /** Takes the file away, so that the next of that name is called so too. */
  async #downloaded(path) {
    const bytes = await readFile(path);
    await rm(path);
    this.#happened('download', { name: this.#file, bytes });
  }

  #happened(kind, news) {
    this.#waiting.get(kind)?.(news);
    this.#waiting.delete(kind);
  }

  /** Resolves when that happens next: a 'load' or a 'download'. */
  next(kind) {
    return new Promise((resolve, reject) => {
      const late = setTimeout(() => reject(new Error(`waited in vain for a ${kind}`)), patience);
      this.#waiting.set(kind, (news) => {
        clearTimeout(late);
        resolve(news);
      });
    });
  }

  #send(command, params = {}) {
    return this.#connection.send(command, { context: this.#context, ...params });
  }

  url() {
    return this.#url;
  }

  async navigate(url) {
    await this.#send('browsingContext.navigate', { url, wait: 'complete' });
  }

  async reload() {
    await this.#send('browsingContext.reload', { wait: 'complete' });
  }

  /** Calls a function in the page, which may be asynchronous, with arguments that JSON can carry. */
  async call(f, ...args) {
    const { value } = await this.#run(`async (args) => JSON.stringify(await (${f})(...JSON.parse(args)))`, JSON.stringify(args));
    return value === undefined ? undefined : JSON.parse(value);
  }

  async #run(functionDeclaration, ...texts) {
    const { result, exceptionDetails } = await this.#connection.send('script.callFunction', {
      functionDeclaration,
      arguments: texts.map((value) => ({ type: 'string', value })),
      target: { context: this.#context },
      awaitPromise: true,
      userActivation: true,
    });
    if (exceptionDetails) {
      throw new Error(exceptionDetails.text);
    }
    return result;
  }

  /** Chooses files by their paths in the input that a function of the page finds. */
  async give(files, find) {
    await this.#send('input.setFiles', { element: await this.#run(String(find)), files });
  }

  async clipboard() {
    return this.call(() => navigator.clipboard.readText());
  }

  /** Lets a pointer, a wheel or the keyboard act. */
  async act(source) {
    if (source.parameters?.pointerType === 'pen') {
      throw new Unsupported('the driver of Firefox has no pen');
    }
    await this.#send('input.performActions', { actions: [source] });
  }

  async resize({ width, height }, devicePixelRatio) {
    await this.#send('browsingContext.setViewport', { viewport: { width, height }, devicePixelRatio });
  }

  /** The window as a PNG, in base64. */
  async screenshot() {
    return (await this.#send('browsingContext.captureScreenshot')).data;
  }

  /** What is printed on a page of that size in centimetres, as a PDF in base64. */
  async print(page) {
    return (await this.#send('browsingContext.print', { page, background: true })).data;
  }

  async close() {
    await this.#send('browsingContext.close');
  }
}
