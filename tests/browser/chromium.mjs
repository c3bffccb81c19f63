// The browser of the tests: one Chromium for each test file, started when first needed.

import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { after } from 'node:test';
import { chromium } from 'playwright-core';

const flags = [
  '--no-sandbox', // the sandbox cannot start as root, and the only page opened is our own
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

let running;

/** The browser, started at the first call and closed after the last test of the file. */
export function browser() {
  running ??= chromium.launch({ executablePath: executable(), headless: true, args: flags });
  return running;
}

after(async () => {
  await (await running)?.close();
});

/** The Chromium named in `CHROMIUM`, else the one on the path. */
function executable() {
  if (process.env.CHROMIUM) {
    return process.env.CHROMIUM;
  }
  const folders = (process.env.PATH ?? '').split(delimiter);
  const found = folders
    .flatMap((folder) => ['chromium', 'chromium-browser', 'google-chrome'].map((name) => join(folder, name)))
    .find((path) => existsSync(path));
  if (!found) {
    throw new Error('there is no chromium on the path; install it, or name one in CHROMIUM');
  }
  return found;
}
