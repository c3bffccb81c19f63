// What a frame of a drag costs the page's main thread, and what cancelled drags leave behind. Run by hand:
//
//     cargo run -- build && node tests/browser/frames.mjs [--quick] [--only=locks]
//
// A mouse drags a node, a handle and a pin of a batten in circles for five seconds each, with the processor as it is and
// slowed four times. The cost of a frame comes from the browser's own trace: the processor time of every task of the
// renderer's main thread from the end of one frame to the end of the next (input, script, style, layout, paint, commit).
// The page's read-out knows only the script's part of that, and a long animation frame is reported only above 50 ms; both
// are on the wall's clock, in which a busy machine counts the work of others. So the trace judges, and the
// browser's count of long frames stands beside it.

import { readFile } from 'node:fs/promises';
import { availableParallelism, loadavg } from 'node:os';
import { launch } from './launch.mjs';
import { serveSite } from './server.mjs';
import { turnstone } from './steps.mjs';

const quick = process.argv.includes('--quick');
const only = process.argv.find((argument) => argument.startsWith('--only='))?.slice('--only='.length) ?? '';
const seconds = quick ? 1.5 : 5;
const cancelled = quick ? 1_000 : 10_000;

/** At most: the median of a frame, ms, by how much the processor is slowed; long frames are counted at 1 only. */
const budgets = { 1: 2, 4: 8 };
const longFrame = 50;
const heapBudget = 1e6;

const kept = async (name) => (await readFile(new URL(`../links/v1/${name}.link`, import.meta.url), 'utf8')).trim();
const cubics = await kept('turnstone');
const drags = [
  { what: 'node', fragment: cubics, select: 'n2', id: 'n2' },
  { what: 'handle', fragment: cubics, select: 'n3', id: 'h3-start' },
  { what: 'batten pin', select: turnstone.widest, id: turnstone.widest },
  { what: 'pin of a lone batten', fragment: await kept('one-batten'), select: 'n5', id: 'n5' },
  { what: 'pin, 3 locks', select: turnstone.noseBend, id: turnstone.noseBend, locks: ['overall-width', 'overall-length', 'nose-kick-taper'] },
].filter(({ what }) => what.includes(only));

/** What each event of the trace is part of. */
const parts = {
  FireAnimationFrame: 'script',
  EventDispatch: 'script',
  FunctionCall: 'script',
  UpdateLayoutTree: 'style',
  Layout: 'layout',
  PrePaint: 'paint',
  Paint: 'paint',
  Layerize: 'paint',
  UpdateLayer: 'paint',
  Commit: 'paint',
};

const site = await serveSite();
try {
  const rows = [];
  for (const slowed of [1, 4]) {
    for (const drag of drags) {
      rows.push(await measure(drag, slowed));
      console.error(`${drag.what} at ${slowed}×: done`);
    }
  }
  console.table(rows);
  console.log(`load of this machine: ${loadavg()[0].toFixed(1)} threads on ${availableParallelism()} processors; where that is more than one ` +
    'on each, take the figures as ratios');
  const { scripts, wasm } = await heapGrowth();
  const worst = Math.max(scripts, wasm);
  console.log(`heap growth after ${cancelled} cancelled drags: scripts ${scripts} B, wasm ${wasm} B; ` +
    `${(worst / heapBudget).toFixed(2)} of the budget of ${heapBudget} B`);
} finally {
  await site.close();
}

/** Opens the page in a browser of its own. */
async function open(fragment, flags) {
  const browser = await launch(flags);
  const context = await browser.newContext({ viewport: { width: 1440, height: 900 }, locale: 'en-GB' });
  const page = await context.newPage();
  await page.addInitScript(() => {
    window.longFrames = [];
    const keep = (list) => window.longFrames.push(...list.getEntries().map(({ duration }) => duration));
    new PerformanceObserver(keep).observe({ type: 'long-animation-frame' });
  });
  await page.goto(site.url + fragment);
  await page.locator('body[data-ready]').waitFor();
  return { browser, page, cdp: await context.newCDPSession(page) };
}

async function centre(page, id) {
  const { x, y, width, height } = await page.locator(`[data-handle="${id}"]`).boundingBox();
  return { x: x + width / 2, y: y + height / 2 };
}

/** Drags once round and round, and gives a row of the table. */
async function measure({ what, fragment = '', select, id, locks = [] }, slowed) {
  const { browser, page, cdp } = await open(fragment);
  try {
    for (const key of locks) {
      await page.locator(`[data-lock="${key}"]`).dispatchEvent('click');
    }
    const node = await centre(page, select);
    await page.mouse.click(node.x, node.y);
    const at = await centre(page, id);
    await page.mouse.move(at.x, at.y);
    await page.mouse.down();
    await circle(cdp, at, 0.5); // so that the code is compiled by the time that counts
    await cdp.send('Emulation.setCPUThrottlingRate', { rate: slowed });
    await page.evaluate(() => (window.longFrames.length = 0));
    const categories = ['devtools.timeline', 'disabled-by-default-devtools.timeline', '__metadata'];
    await browser.startTracing(page, { categories });
    await circle(cdp, at, seconds);
    const trace = JSON.parse(await browser.stopTracing());
    await cdp.send('Emulation.setCPUThrottlingRate', { rate: 1 });
    const long = await page.evaluate(() => window.longFrames.length);
    await page.mouse.up();
    const frames = framesOf(trace.traceEvents);
    const [median, high] = [quantile(frames.map((f) => f.cost), 0.5), quantile(frames.map((f) => f.cost), 0.95)];
    const row = {
      drag: what,
      slowed,
      frames: frames.length,
      'median ms': round(median),
      'p95 ms': round(high),
      'most ms': round(Math.max(...frames.map((f) => f.cost))),
      'median of budget': round(median / budgets[slowed]),
      'long frames': frames.filter((f) => f.cost > longFrame).length,
      'by the wall': long,
    };
    for (const part of Object.keys(frames[0].parts)) {
      row[`${part} ms`] = round(quantile(frames.map((f) => f.parts[part]), 0.5));
    }
    return row;
  } finally {
    await browser.close();
  }
}

/** Moves the mouse in circles of 20 px, once a second, as often as a good mouse reports. */
async function circle(cdp, { x, y }, duration) {
  const start = performance.now();
  for (let sent = 0; performance.now() - start < duration * 1000; sent++) {
    const turn = 2 * Math.PI * ((performance.now() - start) / 1000);
    const place = { x: x + 20 * Math.sin(turn), y: y + 20 * (1 - Math.cos(turn)) };
    await cdp.send('Input.dispatchMouseEvent', { type: 'mouseMoved', button: 'left', buttons: 1, ...place });
    await new Promise((done) => setTimeout(done, Math.max(0, start + 8 * (sent + 1) - performance.now())));
  }
}

/** The frames in a trace: the processor time of each, ms, and of its parts, which do not count one another. */
function framesOf(events) {
  const { pid, tid } = events.find((e) => e.name === 'FireAnimationFrame');
  const ofMain = events.filter((e) => e.pid === pid && e.tid === tid && e.ph === 'X');
  ofMain.sort((a, b) => a.ts - b.ts || b.dur - a.dur);
  const frames = [];
  const begin = () => ({ cost: 0, parts: { script: 0, style: 0, layout: 0, paint: 0 }, draws: false });
  let frame = begin();
  const open = [];
  for (const event of ofMain) {
    while (open.length && open.at(-1).ts + open.at(-1).dur <= event.ts) {
      open.pop();
    }
    if (event.name === 'RunTask' && frame.draws) {
      frames.push(frame);
      frame = begin();
    }
    const cost = (event.tdur ?? event.dur) / 1000;
    const [part, outer] = [parts[event.name], open.map(({ name }) => parts[name]).findLast(Boolean)];
    if (event.name === 'RunTask') {
      frame.cost += cost;
    }
    if (part) {
      frame.parts[part] += cost;
      if (outer) {
        frame.parts[outer] -= cost;
      }
    }
    frame.draws ||= event.name === 'FireAnimationFrame';
    open.push(event);
  }
  return frames.slice(1); // the first holds what the start of the trace cost
}

/** Bytes more in use after so many cancelled drags, each drawn, than after the first hundred. */
async function heapGrowth() {
  const { browser, page, cdp } = await open('', ['--disable-frame-rate-limit', '--disable-gpu-vsync']);
  const inUse = async () => {
    await cdp.send('HeapProfiler.collectGarbage');
    const { usedSize } = await cdp.send('Runtime.getHeapUsage');
    const wasm = await page.evaluate(async () => {
      const { default: init } = await import('./halfbreadth.js');
      return (await init()).memory.buffer.byteLength;
    });
    return { scripts: usedSize, wasm };
  };
  try {
    const at = await centre(page, turnstone.widest);
    await dragAndCancel(page, at, 100);
    const before = await inUse();
    await dragAndCancel(page, at, cancelled);
    const after = await inUse();
    return { scripts: after.scripts - before.scripts, wasm: after.wasm - before.wasm };
  } finally {
    await browser.close();
  }
}

/** Drags from a place and cancels, many times, by events made in the page: real ones would take an hour. */
async function dragAndCancel(page, at, count) {
  await page.evaluate(async ({ at, count }) => {
    const stage = document.querySelector('#stage');
    const frame = () => new Promise((done) => requestAnimationFrame(done));
    const send = (type, x, y) => stage.dispatchEvent(new PointerEvent(type, {
      bubbles: true, cancelable: true, pointerId: 1, pointerType: 'mouse', isPrimary: true, clientX: x, clientY: y,
    }));
    for (let i = 0; i < count; i++) {
      send('pointerdown', at.x, at.y);
      send('pointermove', at.x + 10 + (i % 7), at.y + 5 + (i % 11));
      await frame();
      send('pointercancel', at.x, at.y);
      await frame();
    }
  }, { at, count });
}

function quantile(values, share) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.floor(share * (sorted.length - 1))];
}

function round(value) {
  return Math.round(value * 100) / 100;
}
