// Parts of the page behind WebDriver, in the shape that `part.mjs` knows: the few methods it calls, and no more.

import { patience, pause } from './webdriver.mjs';

/** Elements, named by steps from the document on. */
export class Locator {
  #window;
  #page;
  #steps;

  constructor(window, page, steps) {
    this.#window = window;
    this.#page = page;
    this.#steps = steps;
  }

  #more(step) {
    return new Locator(this.#window, this.#page, [...this.#steps, step]);
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
    return this.#window.call(`(steps, argument) => (${f})((${find})(steps), argument)`, this.#steps, argument);
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

  /** What `probe` says of the one element, once it says something. */
  async #when(probe) {
    for (const end = Date.now() + patience; ; await pause(50)) {
      const said = await this.#one(probe);
      if (said) {
        return said;
      }
      if (Date.now() > end) {
        throw new Error(`${this} cannot be used`);
      }
    }
  }

  /** The middle of the element, once it can be pressed: it is drawn, not disabled, and nothing lies over it. */
  async #pressable() {
    return this.#when((element) => {
      if (!element.checkVisibility({ visibilityProperty: true }) || element.disabled) {
        return null;
      }
      for (const block of ['nearest', 'center', 'start', 'end']) {
        element.scrollIntoView({ block, inline: 'nearest' });
        const { left, top, width, height } = element.getBoundingClientRect();
        const [x, y] = [left + width / 2, top + height / 2];
        const there = document.elementFromPoint(x, y);
        if (element.contains(there) || there?.closest('label')?.control === element) {
          return { x, y };
        }
      }
      return null;
    });
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
    await this.#when((element) => element.checkVisibility({ visibilityProperty: true }) && !element.disabled);
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
