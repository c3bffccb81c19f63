// A part of the page: what the driver can find in it, and do to it.

import assert from 'node:assert/strict';

/** A part of the page, named but not yet looked for: it may come and go. */
export class Part {
  #locator;
  #frame;

  /** `frame` waits until the page has drawn. */
  constructor(locator, frame) {
    this.#locator = locator;
    this.#frame = frame;
  }

  /** A part inside this one. */
  part(selector) {
    return new Part(this.#locator.locator(selector), this.#frame);
  }

  /** The first of the parts. */
  first() {
    return new Part(this.#locator.first(), this.#frame);
  }

  /** The last of the parts. */
  last() {
    return new Part(this.#locator.last(), this.#frame);
  }

  async count() {
    return this.#locator.count();
  }

  async visible() {
    return this.#locator.isVisible();
  }

  async enabled() {
    return this.#locator.isEnabled();
  }

  async focused() {
    return this.#locator.evaluate((element) => element === document.activeElement);
  }

  async text() {
    return (await this.#locator.innerText()).trim();
  }

  /** All text in the part, seen or not. */
  async content() {
    return (await this.#locator.textContent()).trim();
  }

  /** The text in an input. */
  async value() {
    return this.#locator.inputValue();
  }

  /** The value of an attribute; `null` if the part has no such attribute. */
  async attribute(name) {
    return this.#locator.getAttribute(name);
  }

  /** Where the part stands in the window, in CSS pixels. */
  async box() {
    const box = await this.#locator.boundingBox();
    assert.ok(box, `${this.#locator} is not drawn`);
    return box;
  }

  async centre() {
    const { x, y, width, height } = await this.box();
    return { x: x + width / 2, y: y + height / 2 };
  }

  async focus() {
    await this.#locator.focus();
    await this.#frame();
  }

  /** Moves the mouse onto the part and leaves it there. */
  async hover() {
    await this.#locator.hover();
    await this.#frame();
  }

  /** What a function of the page's own world says of the part. */
  async evaluate(probe) {
    return this.#locator.evaluate(probe);
  }

  async click() {
    await this.#locator.click();
    await this.#frame();
  }

  async tap() {
    await this.#locator.tap();
    await this.#frame();
  }

  /** Puts text in place of what the input has, without confirming it. */
  async fill(text) {
    await this.#locator.fill(text);
    await this.#frame();
  }

  /** Chooses an option of a select by its value or its label. */
  async choose(option) {
    await this.#locator.selectOption(option);
    await this.#frame();
  }
}

/** The place a pointer would go to: the middle of a part, or the place itself. */
export async function place(where) {
  return where instanceof Part ? where.centre() : where;
}
