// Which Chromium the tests and measurements start, and how.

import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { chromium } from 'playwright-core';

export const flags = [
  '--no-sandbox', // the sandbox cannot start as root, and the only page opened is our own
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Starts the browser, with more flags if need be. */
export function launch(more = []) {
  return chromium.launch({ executablePath: executable(), headless: true, args: [...flags, ...more] });
}

/** The Chromium named in `CHROMIUM`, else the one on the path. */
export function executable() {
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
