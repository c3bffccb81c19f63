// The heavy part of a photograph: looking at it, beside the page so that the page never waits.
// Every message asks for one thing by its number; the answer comes back under that number.
import init, { photoHole, photoLook, photoOpen, photoSheet, photoTrace, speak } from './halfbreadth.js';

/** As many pixels as a telephone's camera has; larger pictures are made smaller. */
const MOST_PIXELS = 12_500_000;

const ready = init();

/** What can be asked for: each gets what was handed on and a function that hears of progress, from 0 to 1. */
const tasks = {
  open({ bitmap }) {
    const scale = Math.min(1, Math.sqrt(MOST_PIXELS / (bitmap.width * bitmap.height)));
    const [width, height] = [bitmap.width, bitmap.height].map((side) => Math.max(1, Math.floor(side * scale)));
    const canvas = new OffscreenCanvas(width, height);
    const context = canvas.getContext('2d', { willReadFrequently: true });
    context.drawImage(bitmap, 0, 0, width, height);
    bitmap.close();
    const { data } = context.getImageData(0, 0, width, height);
    photoOpen(width, height, new Uint8Array(data.buffer));
    return { width, height };
  },
  speak: ({ code, catalogue }) => speak(code, catalogue),
  hole: ({ x, y }) => photoHole(x, y),
  look: ({ given, design, inches }) => photoLook(given, design, inches),
  async sheet({ given, design, inches }, progress) {
    const { covers, width, height, pixels } = photoSheet(given, design, inches, progress);
    const canvas = new OffscreenCanvas(width, height);
    canvas.getContext('2d').putImageData(new ImageData(pixels, width, height), 0, 0);
    return { covers, blob: await canvas.convertToBlob({ type: 'image/png' }) };
  },
  trace: ({ given, design, inches }, progress) => photoTrace(given, design, inches, progress),
};

/** One after the other, as they were asked for. */
let last = Promise.resolve();

self.addEventListener('message', ({ data: { number, task, given } }) => {
  last = last.then(async () => {
    try {
      await ready;
      const answer = await tasks[task](given, (progress) => self.postMessage({ number, progress }));
      self.postMessage({ number, answer });
    } catch (error) {
      self.postMessage({ number, error: error.message });
    }
  });
});
