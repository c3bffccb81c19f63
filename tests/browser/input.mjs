// The keyboard and the pointers behind WebDriver, in the shape that `pointers.mjs` knows.

import { Unsupported } from './webdriver.mjs';

/** The keys that have names, as the protocol numbers them. */
const keys = {
  Enter: '\uE007', Escape: '\uE00C', Tab: '\uE004', Backspace: '\uE003', Delete: '\uE017', Home: '\uE011', End: '\uE010',
  ArrowLeft: '\uE012', ArrowUp: '\uE013', ArrowRight: '\uE014', ArrowDown: '\uE015', PageUp: '\uE00E', PageDown: '\uE00F',
  Shift: '\uE008', Control: '\uE009', Alt: '\uE00A', Meta: '\uE03D', F1: '\uE031', Space: ' ',
};

export class Keyboard {
  #window;

  constructor(window) {
    this.#window = window;
  }

  async #act(actions) {
    await this.#window.act({ type: 'key', id: 'keys', actions });
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
export class Pointer {
  #window;
  #type;
  #id;
  #place = { x: 0, y: 0 };
  #turns = 0;

  constructor(window, type, id = type) {
    this.#window = window;
    this.#type = type;
    this.#id = id;
  }

  async #act(action) {
    await this.#window.act({ type: 'pointer', id: this.#id, parameters: { pointerType: this.#type }, actions: [action] });
  }

  async move(x, y) {
    this.#place = { x, y };
    await this.#act({ type: 'pointerMove', duration: 0, origin: 'viewport', ...this.#place });
  }

  async down() {
    await this.#act({ type: 'pointerDown', button: 0 });
  }

  async up() {
    await this.#act({ type: 'pointerUp', button: 0 });
  }

  async cancel() {
    throw new Unsupported('WebDriver cannot take a finger away as the system does');
  }

  async wheel(deltaX, deltaY) {
    const scroll = { type: 'scroll', ...this.#place, deltaX, deltaY, duration: 0, origin: 'viewport' };
    // A new wheel each time: the driver of WebKit takes each turn as one from where the last one of that wheel ended.
    await this.#window.act({ type: 'wheel', id: `wheel${++this.#turns}`, actions: [scroll] });
  }
}
