// A photograph of a deck that is not there: known half outline, pressed shape and camera, written as a PNG.
//
// The deck is the Turnstone's outline made shorter and wider, so that the page has never seen it; its holes and its pressed
// shape are the Turnstone's. Elementary geometry, none of it the page's own code.

import { crc32, deflateSync } from 'node:zlib';

/** Cubic control points of the Turnstone's half, tail to nose, mm. */
const turnstone = [
  [[-400.05, 0], [-400.05, 83.94], [-291.34, 97.13], [-254, 100.2]],
  [[-254, 100.2], [-228.83, 102.27], [-174.61, 104.775], [0, 104.775]],
  [[0, 104.775], [118.32, 104.775], [212.72, 103.61], [254, 100.8]],
  [[254, 100.8], [386.83, 91.76], [412.75, 35.58], [412.75, 0]],
];
export const deck = { long: 0.97, wide: 0.96, length: 812.8 * 0.97, width: 209.55 * 0.96 };

const holes = [-234.95, -180.975, 180.975, 234.95].flatMap((x) => [20.6375, -20.6375].map((y) => [x, y]));
const bend = 254;
const radius = 95.25;
const degree = Math.PI / 180;

/** A place of the developed sheet on the pressed deck. */
function pressed([x, y]) {
  const beyond = Math.abs(x) - bend;
  let [along, up] = [x, 0];
  if (beyond > 0) {
    const angle = (x > 0 ? 21 : 20) * degree;
    const turn = Math.min(angle, beyond / radius);
    const straight = Math.max(0, beyond - radius * angle);
    along = Math.sign(x) * (bend + radius * Math.sin(turn) + straight * Math.cos(turn));
    up = radius * (1 - Math.cos(turn)) + straight * Math.sin(turn);
  }
  const u = Math.min(1, Math.max(0, -beyond / 40));
  const depth = 10 * u * u * (3 - 2 * u);
  if (depth === 0) {
    return [along, y, up];
  }
  const m = 209.55 / 2;
  const arc = (m * m + depth * depth) / (2 * depth);
  return [along, arc * Math.sin(y / arc), up + arc * (1 - Math.cos(y / arc))];
}

const thickness = 7 * 1.5 + 6 * 0.1; // usual plies, glued
const roundOver = 3.2;

/** The edge's section, from the rim of the bottom up to that of the top: how far inward, and how far below the top face. */
const section = (() => {
  const arc = [0, 1, 2].map((i) => [1 - Math.sin((i * Math.PI) / 4), 1 - Math.cos((i * Math.PI) / 4)].map((v) => v * roundOver));
  return [...arc.map(([inward, below]) => [inward, thickness - below]), ...arc.toReversed()];
})();

/** A place of the developed sheet's edge on the pressed deck's wall, by the way the edge runs there. */
function wall(place, along, [inward, below]) {
  const size = Math.hypot(...along);
  const out = [-along[1] / size, along[0] / size];
  const slope = (way) => {
    const [a, b] = [0.01, -0.01].map((step) => pressed([place[0] + step * way[0], place[1] + step * way[1]]));
    return a.map((value, k) => (value - b[k]) / 0.02);
  };
  const [x, y] = [slope([1, 0]), slope([0, 1])];
  const up = [x[1] * y[2] - x[2] * y[1], x[2] * y[0] - x[0] * y[2], x[0] * y[1] - x[1] * y[0]];
  const length = Math.hypot(...up);
  return pressed(place).map((value, k) => value - inward * (out[0] * x[k] + out[1] * y[k]) - (below * up[k]) / length);
}

/** A camera `lens` mm above the deck, tilted toward the nose by so many degrees. */
function camera({ width, height, lens = 850, tilt = 0 }) {
  const [sin, cos] = [Math.sin(tilt * degree), Math.cos(tilt * degree)];
  const distance = lens / cos;
  const focal = 0.75 * Math.max(width, height);
  return ([x, y, z]) => {
    const [dx, dz] = [x - distance * sin, z - distance * cos];
    const forward = -(dx * sin + dz * cos);
    const [right, down] = [dx * cos - dz * sin, -y];
    return [width / 2 + (focal * right) / forward, height / 2 + (focal * down) / forward];
  };
}

function cubic([p, q, r, s], t) {
  const u = 1 - t;
  return [0, 1].map((k) => u * u * u * p[k] + 3 * u * u * t * q[k] + 3 * u * t * t * r[k] + t * t * t * s[k]);
}

/** Renders the photograph; answers with the file and with where the holes are in it, as shares of width and height. */
export function photograph({ width = 2000, height = 1500, tilt = 0, lens } = {}) {
  const shows = camera({ width, height, tilt, lens });
  const sees = (place) => shows(pressed(place));
  const half = turnstone.flatMap((piece) =>
    Array.from({ length: 300 }, (_, i) => cubic(piece, i / 300)).map(([x, y]) => [x * deck.long, y * deck.wide]),
  );
  half.push([412.75 * deck.long, 0]);
  const edge = [...half, ...half.slice(1, -1).toReversed().map(([x, y]) => [x, -y])];
  const ways = edge.map((_, i) => [0, 1].map((k) => edge[(i + 1) % edge.length][k] - edge.at(i - 1)[k]));
  const ring = (at) => edge.map((place, i) => shows(wall(place, ways[i], at)));
  const pixels = Buffer.alloc(width * height * 3);
  const ground = [58, 62, 66];
  for (let i = 0; i < pixels.length; i++) {
    pixels[i] = ground[i % 3];
  }
  for (const at of section) {
    fill(pixels, width, height, ring(at), [168, 140, 100]);
  }
  fill(pixels, width, height, ring(section.at(-1)), [206, 172, 120]);
  for (const hole of holes) {
    const rim = Array.from({ length: 40 }, (_, i) => (i / 20) * Math.PI);
    fill(pixels, width, height, rim.map((a) => sees([hole[0] + 2.6 * Math.cos(a), hole[1] + 2.6 * Math.sin(a)])), [18, 16, 15]);
  }
  // A little grain, the same on every run.
  let seed = 1;
  for (let i = 0; i < pixels.length; i += 3) {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
    const grain = (seed >>> 30) - 1;
    for (let k = 0; k < 3; k++) {
      pixels[i + k] += grain;
    }
  }
  const shares = holes.map(sees).map(([x, y]) => ({ x: x / width, y: y / height }));
  return { bytes: png(pixels, width, height), holes: shares };
}

/** Fills a polygon: each pixel by how much of it is covered, along four lines. */
function fill(pixels, width, height, polygon, colour) {
  const lines = 4;
  const crossings = new Map();
  polygon.forEach((a, i) => {
    const b = polygon[(i + 1) % polygon.length];
    const [top, bottom] = a[1] < b[1] ? [a, b] : [b, a];
    for (let k = Math.max(0, Math.ceil(top[1] * lines - 0.5)); k < Math.min(height * lines, bottom[1] * lines - 0.5); k++) {
      const y = (k + 0.5) / lines;
      const x = top[0] + ((bottom[0] - top[0]) * (y - top[1])) / (bottom[1] - top[1]);
      crossings.set(k, [...(crossings.get(k) ?? []), x]);
    }
  });
  const covered = new Float32Array(width);
  for (let row = 0; row < height; row++) {
    let any = false;
    for (let line = 0; line < lines; line++) {
      const found = crossings.get(row * lines + line)?.sort((a, b) => a - b) ?? [];
      for (let i = 0; i + 1 < found.length; i += 2) {
        any = true;
        const [from, to] = [Math.max(0, found[i]), Math.min(width, found[i + 1])];
        for (let x = Math.floor(from); x < to; x++) {
          covered[x] += Math.max(0, Math.min(to, x + 1) - Math.max(from, x)) / lines;
        }
      }
    }
    if (any) {
      for (let x = 0; x < width; x++) {
        const at = 3 * (row * width + x);
        for (let k = 0; covered[x] > 0 && k < 3; k++) {
          pixels[at + k] += Math.round((colour[k] - pixels[at + k]) * Math.min(1, covered[x]));
        }
      }
      covered.fill(0);
    }
  }
}

function png(pixels, width, height) {
  const rows = Buffer.alloc(height * (1 + 3 * width));
  for (let row = 0; row < height; row++) {
    pixels.copy(rows, row * (1 + 3 * width) + 1, row * 3 * width, (row + 1) * 3 * width);
  }
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 2, 0, 0, 0], 8);
  const chunk = (kind, data) => {
    const body = Buffer.concat([Buffer.from(kind), data]);
    const [size, check] = [Buffer.alloc(4), Buffer.alloc(4)];
    size.writeUInt32BE(data.length);
    check.writeUInt32BE(crc32(body) >>> 0);
    return Buffer.concat([size, body, check]);
  };
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  return Buffer.concat([
    signature,
    chunk('IHDR', head),
    chunk('IDAT', deflateSync(rows, { level: 1 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}
