// Steps that many tests begin with.

import { readFile } from 'node:fs/promises';

/** The link's part from '#' on of the first demo deck in cubics: five nodes, and handles off the curve. */
export const inCubics = (await readFile(new URL('../links/v1/turnstone.link', import.meta.url), 'utf8')).trim();

/** The nodes of the first demo deck that have a name: its tips, the bend lines' and the one where it is widest. */
export const turnstone = { tailTip: 'n0', tailBend: 'n5', widest: 'n8', noseBend: 'n11', noseTip: 'n16' };

/** Opens a demo deck, as a design of its own, and comes back to drawing it. */
export async function openDemo(page, name) {
  await page.room('cut');
  await page.command(`open-${name}`);
  await page.room('draw');
  await page.saved();
}

/** Opens the sheet of figures, or shuts it, where the window is too small to show it beside the drawing. */
export async function openSheet(page, open = true) {
  const handle = page.part('[data-sheet]');
  if ((await handle.visible()) && (await handle.attribute('aria-expanded')) !== String(open)) {
    await handle.click();
  }
}

/** Selects a node by a click on its middle, where on a small window its mirror may lie over it. */
export async function select(page, id) {
  await (await page.grab(page.handle(id))).release();
}

/** The place of the selected node, mm along and across, as its fields have it. */
export async function placeInHand(page) {
  return {
    along: Number(await page.field('node-along').value()),
    across: Number(await page.field('node-across').value()),
  };
}

/** How many CSS pixels a millimetre takes, from two nodes of the first demo deck 508 mm apart. */
export async function scaleOfTurnstone(page) {
  const [a, b] = [await page.handle(turnstone.tailBend).centre(), await page.handle(turnstone.noseBend).centre()];
  return Math.hypot(b.x - a.x, b.y - a.y) / Math.hypot(508, 0.6);
}

/** A place on the stage where nothing lies. */
export async function emptyPlace(page) {
  const { x, y, width, height } = await page.part('#stage').box();
  return { x: x + 0.9 * width, y: y + 0.93 * height };
}
