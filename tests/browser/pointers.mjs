// The pointers of a person: a mouse, a pen, fingers. A pressed one is a hold, and all holds are used alike.

/**
 * Something pressed on the page, until it is released.
 * Places are `{ x, y }` in CSS pixels from the upper left corner of the window.
 */
class Hold {
  #place;
  #device;

  constructor(place, device) {
    this.#place = place;
    this.#device = device;
  }

  get place() {
    return this.#place;
  }

  /** Moves in equal steps, one for each frame, as a hand does. */
  async move(to, steps = 10) {
    const from = this.#place;
    for (let step = 1; step <= steps; step++) {
      const along = (a, b) => a + ((b - a) * step) / steps;
      this.#place = { x: along(from.x, to.x), y: along(from.y, to.y) };
      await this.#device.move(this.#place);
      await this.#device.frame();
    }
  }

  async moveBy({ x = 0, y = 0 }, steps = 10) {
    await this.move({ x: this.#place.x + x, y: this.#place.y + y }, steps);
  }

  async release() {
    await this.#device.up(this.#place);
    await this.#device.frame();
  }

  /** Ends as the system does that takes a touch away: a `pointercancel`. Only fingers have it. */
  async cancel() {
    await this.#device.cancel();
    await this.#device.frame();
  }
}

/** The pointers of one page. `frame` waits until the page has drawn. */
export class Pointers {
  #page;
  #cdp;
  #frame;
  #fingers = new Map();
  #nextFinger = 0;

  constructor(page, cdp, frame) {
    this.#page = page;
    this.#cdp = cdp;
    this.#frame = frame;
  }

  /** Presses `kind` ('mouse', 'pen' or 'touch') at a place. Every further 'touch' is one more finger. */
  async press(kind, place) {
    const device = { mouse: () => this.#mouse(), pen: () => this.#pen(), touch: () => this.#finger() }[kind]();
    await device.down(place);
    await this.#frame();
    return new Hold(place, { ...device, frame: this.#frame });
  }

  #mouse() {
    return this.#plain(this.#page.mouse);
  }

  /** A device that is moved, pressed and released where it is. */
  #plain(mouse) {
    return {
      down: async ({ x, y }) => {
        await mouse.move(x, y);
        await mouse.down();
      },
      move: ({ x, y }) => mouse.move(x, y),
      up: () => mouse.up(),
      cancel: () => mouse.cancel(),
    };
  }

  #pen() {
    if (this.#page.pen) {
      return this.#plain(this.#page.pen());
    }
    const send = (type, buttons, { x, y }) =>
      this.#cdp.send('Input.dispatchMouseEvent', {
        type, x, y, buttons,
        button: type === 'mouseMoved' && buttons === 0 ? 'none' : 'left',
        clickCount: type === 'mouseMoved' ? 0 : 1,
        pointerType: 'pen',
        force: buttons ? 0.5 : 0,
      });
    return {
      down: async (place) => {
        await send('mouseMoved', 0, place);
        await send('mousePressed', 1, place);
      },
      move: (place) => send('mouseMoved', 1, place),
      up: (place) => send('mouseReleased', 0, place),
    };
  }

  #finger() {
    const id = this.#nextFinger++;
    if (this.#page.finger) {
      return this.#plain(this.#page.finger(id));
    }
    // The protocol wants all fingers that are down, each time, and finds out itself which one has changed.
    const send = (type) =>
      this.#cdp.send('Input.dispatchTouchEvent', {
        type,
        touchPoints: [...this.#fingers].map(([id, { x, y }]) => ({ id, x, y })),
      });
    const set = (type) => (place) => {
      this.#fingers.set(id, place);
      return send(type);
    };
    const lift = (type) => () => {
      this.#fingers.delete(id);
      return send(this.#fingers.size ? 'touchMove' : type);
    };
    return {
      down: set('touchStart'),
      move: set('touchMove'),
      up: lift('touchEnd'),
      cancel: () => {
        this.#fingers.clear();
        return send('touchCancel');
      },
    };
  }
}
