// The browser of the tests: one Chromium for each test file, started when first needed.

import { after } from 'node:test';
import { launch } from './launch.mjs';

let running;

/** The browser, started at the first call and closed after the last test of the file. */
export function browser() {
  running ??= launch();
  return running;
}

after(async () => {
  await (await running)?.close();
});
