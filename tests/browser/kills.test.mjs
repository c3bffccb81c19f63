// Nothing is lost when the browser is killed: at random moments, in the middle of drags.
//
// `HALFBREADTH_KILLS=100 node --test kills.test.mjs` kills it a hundred times; without a number it is a sample of them.

import assert from 'node:assert/strict';
import { spawn } from 'node:child_process';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { chromium } from 'playwright-core';
import { engine } from './browser.mjs';
import { executable, flags } from './launch.mjs';
import { serveSite } from './server.mjs';

const kills = Number(process.env.HALFBREADTH_KILLS ?? 8);

/** A browser with a profile that outlives it. All its processes are one group, and are killed as one. */
async function start(profile) {
  const child = spawn(executable(), [...flags, '--headless', '--remote-debugging-port=0', `--user-data-dir=${profile}`, 'about:blank'], {
    detached: true,
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  const endpoint = await new Promise((resolve, reject) => {
    let said = '';
    child.stderr.on('data', (data) => {
      said += data;
      const found = /DevTools listening on (\S+)/.exec(said);
      if (found) resolve(found[1]);
    });
    child.once('exit', () => reject(new Error(`the browser ended by itself:\n${said}`)));
  });
  const gone = new Promise((resolve) => child.once('exit', resolve));
  const browser = await chromium.connectOverCDP(endpoint);
  const kill = async () => {
    if (child.exitCode === null && child.signalCode === null) {
      process.kill(-child.pid, 'SIGKILL');
    }
    await gone;
    await browser.close().catch(() => {});
  };
  return { page: browser.contexts()[0].pages()[0], kill };
}

const pause = (ms) => new Promise((resolve) => setTimeout(resolve, ms));
const number = (page, name) => page.evaluate((name) => Number(document.body.dataset[name]), name);

const options = {
  timeout: kills * 30_000,
  skip: engine !== 'chromium' && 'WebDriver gives no browser the profile of one that was killed',
};

test(`a browser killed ${kills} times in the middle of drags has every change that was kept`, options, async () => {
  const profile = await mkdtemp(join(tmpdir(), 'halfbreadth-kills-'));
  const site = await serveSite();
  let expected = 0;
  let changes = 0;
  let browser;
  try {
    for (let kill = 0; kill <= kills; kill++) {
      browser = await start(profile);
      const { page } = browser;
      await page.goto(site.url);
      await page.waitForSelector('body[data-ready]');
      const found = await number(page, 'saved');
      assert.ok(found >= expected, `kill ${kill}: revision ${expected} was kept, ${found} was found`);
      assert.equal(await page.locator('body').getAttribute('data-copy'), null, 'the lock of a killed window is gone');
      if (kill === kills) {
        break;
      }
      expected = found;
      let tellKept;
      const kept = new Promise((resolve) => (tellKept = resolve));
      page.on('console', (message) => {
        const [, saved] = /^saved (\d+)$/.exec(message.text()) ?? [];
        changes += saved ? 1 : 0;
        expected = Math.max(expected, Number(saved ?? 0));
        if (saved) tellKept();
      });
      await page.evaluate(() => {
        const tell = () => console.log(`saved ${document.body.dataset.saved}`);
        new MutationObserver(tell).observe(document.body, { attributeFilter: ['data-saved'] });
      });
      // Every other time not before the first change, however slow the machine is.
      const begun = kill % 2 ? kept : undefined;
      const moment = Promise.resolve(begun).then(() => pause(100 + Math.random() * 1500)).then(browser.kill);
      await drags(page).catch(() => {}); // it ends with the browser
      await moment;
    }
  } finally {
    await browser?.kill(); // a failed check leaves it alive
    await site.close();
    await rm(profile, { recursive: true, force: true, maxRetries: 5 });
  }
  assert.ok(changes >= Math.floor(kills / 2), `only ${changes} changes were kept in ${kills} runs: the test kills too early`);
});

/** Drags a node out and in, without end: every other drag takes it back to where it was. */
async function drags(page) {
  const node = page.locator('[data-handle="n7"]');
  for (let way = 12; ; way = -way) {
    const { x, y, width, height } = await node.boundingBox();
    const [left, top] = [x + width / 2, y + height / 2];
    await page.mouse.move(left, top);
    await page.mouse.down();
    await page.mouse.move(left, top + way, { steps: 4 });
    await page.mouse.up();
  }
}
