// The browser of the tests: one for each test file, started when first needed.
//
// Chromium by its own protocol, which can do everything; with `HALFBREADTH_ENGINE=firefox` or `webkit` that engine by
// WebDriver, and what WebDriver cannot do is skipped with its reason.

import { after } from 'node:test';
import { Engine } from './engine.mjs';
import { launch } from './launch.mjs';

/** Which engine: 'chromium', 'firefox' or 'webkit'. */
export const engine = process.env.HALFBREADTH_ENGINE ?? 'chromium';

let running;

/** The browser, started at the first call and closed after the last test of the file. */
export function browser() {
  running ??= engine === 'chromium' ? launch() : Engine.launch(engine);
  return running;
}

after(async () => {
  const started = await running?.catch(() => undefined); // the tests have said that it did not start
  await started?.close();
});
