// Draws the icons that platforms want as pixels from the one drawing: `node tests/browser/icons.mjs`, after a change of it.

import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { launch } from './launch.mjs';

const page = new URL('../../www/page/', import.meta.url);
const drawing = (await readFile(new URL('icon.svg', page), 'utf8')).replace('<svg ', '<svg width="100%" height="100%" ');

/** Name, pixels a side, and how much of it the drawing takes: a platform may cut a maskable icon to a circle. */
const icons = [
  ['icon-192', 192, 1],
  ['icon-512', 512, 1],
  ['icon-maskable-512', 512, 0.72],
  ['icon-touch-180', 180, 0.86],
];

const browser = await launch();
for (const [name, size, share] of icons) {
  const tab = await browser.newPage({ viewport: { width: size, height: size } });
  const inset = ((1 - share) / 2) * 100;
  const ground = share < 1 ? '#fbfaf6' : 'transparent';
  await tab.setContent(
    `<body style="margin:0;background:${ground}"><div style="position:absolute;inset:${inset}%">${drawing}</div>`,
  );
  await tab.screenshot({ path: fileURLToPath(new URL(`${name}.png`, page)), omitBackground: true });
  await tab.close();
}
await browser.close();
