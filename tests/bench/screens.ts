/**
 * The long lists in a real browser: Cars, Decide and Sales of a large collection scrolled by the wheel and by leaps. The longest
 * task of the page while it scrolls, in processor time of its thread (a frame waits for at most that; at most 50 ms), the rows that are
 * in the page (under 80) and the memory that its scripts hold (at most 150 MB). Run: node tests/bench/screens.ts [cars]
 */
import { existsSync, mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { chromium, type Page } from '@playwright/test';
import { serve } from '../e2e/hosts.ts';
import { makeLargeCollection } from '../helpers/large-collection.ts';
import { measured } from './measure.ts';

const cars = Number(process.argv[2] ?? 20_000);
const folder = mkdtempSync(join(tmpdir(), 'playworn-bench-'));
const dir = join(folder, 'collection');
const places = { Cars: '#/cars', Decide: '#/decide', Sales: '#/sales' };
const turns = 60;
const leaps = 12;
const patience = 600_000;
/** A Chromium of the system's, where there is one; else the one that Playwright installs for itself. */
const installed = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(
  existsSync,
);

interface TraceEvent {
  name: string;
  pid: number;
  tid: number;
  dur?: number;
  /** Processor time of the thread, in microseconds. */
  tdur?: number;
  args: { name?: string };
}

/** The longest tasks of the page's main thread, in milliseconds of processor time, the longest first. */
const tasksOf = (trace: Buffer): number[] => {
  const { traceEvents } = JSON.parse(trace.toString('utf8')) as { traceEvents: TraceEvent[] };
  const main = new Set(
    traceEvents
      .filter(({ name, args }) => name === 'thread_name' && args.name === 'CrRendererMain')
      .map(({ pid, tid }) => `${pid} ${tid}`),
  );
  return traceEvents
    .filter(
      ({ name, pid, tid, tdur }) => /RunTask$/.test(name) && tdur !== undefined && main.has(`${pid} ${tid}`),
    )
    .map(({ tdur = 0 }) => tdur / 1000)
    .sort((a, b) => b - a);
};

/** Nothing is busy any more, and the grid has rows. */
const settled = (page: Page) =>
  page.waitForFunction(
    () =>
      document.querySelector('[role="grid"] tbody [role="row"], [role="grid"] tbody tr') !== null &&
      document.querySelector('[aria-busy="true"]') === null,
    undefined,
    { timeout: patience },
  );

const nextFrame = (page: Page) =>
  page.evaluate(() => new Promise(done => requestAnimationFrame(() => requestAnimationFrame(done))));

const rowsIn = (page: Page): Promise<number> =>
  page.evaluate(() => document.querySelectorAll('[role="grid"] tbody tr').length);

/** Scrolls the grid by the wheel, then by leaps as its bar does; gives the most rows that were in the page. */
const scroll = async (page: Page): Promise<number> => {
  const box = await page.locator('[role="grid"]').first().boundingBox();
  if (!box) throw new Error('there is no grid to scroll');
  await page.mouse.move(box.x + Math.min(300, box.width / 2), 500);
  let rows = 0;
  for (let i = 0; i < turns; i += 1) {
    await page.mouse.wheel(0, 700);
    await nextFrame(page);
    rows = Math.max(rows, await rowsIn(page));
  }
  for (let i = 1; i <= leaps; i += 1) {
    await page.evaluate(share => {
      let area = document.querySelector('[role="grid"]')?.parentElement;
      while (area && area.scrollHeight <= area.clientHeight + 1) area = area.parentElement;
      if (!area) throw new Error('nothing scrolls');
      area.scrollTop = area.scrollHeight * share;
    }, i / leaps);
    await nextFrame(page);
    rows = Math.max(rows, await rowsIn(page));
  }
  await settled(page);
  return rows;
};

try {
  mkdirSync(join(folder, 'home'));
  await (await makeLargeCollection(dir, cars, { pays: true })).close({ at: '2026-03-14T10:00:00.000Z' });
  const { address, child } = await serve({ home: join(folder, 'home'), collection: dir });
  const browser = await chromium.launch({ ...(installed && { executablePath: installed }) });
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  page.setDefaultTimeout(patience);
  await page.goto(address);
  await page.locator('main').first().waitFor();
  const devtools = await page.context().newCDPSession(page);
  await devtools.send('Performance.enable');
  for (const [name, place] of Object.entries(places)) {
    await page.evaluate(to => {
      location.hash = to;
    }, place);
    await settled(page);
    await browser.startTracing(page, { categories: ['toplevel', 'disabled-by-default-devtools.timeline'] });
    const rows = await scroll(page);
    const tasks = tasksOf(await browser.stopTracing());
    if (tasks.length === 0) throw new Error('the trace has no tasks of the page');
    await devtools.send('HeapProfiler.collectGarbage');
    const { metrics } = await devtools.send('Performance.getMetrics');
    const heap = metrics.find(metric => metric.name === 'JSHeapUsedSize')?.value ?? Number.NaN;
    const at = `, ${cars} cars`;
    console.log(`  ${name}: ${tasks.filter(ms => ms > 50).length} of ${tasks.length} tasks over 50 ms`);
    measured({
      work: `${name} scrolled, longest task of the page${at}`,
      value: tasks[0]!,
      unit: 'ms',
      goal: 50,
    });
    measured({ work: `${name}, rows in the page${at}`, value: rows, unit: 'rows', goal: 79 });
    measured({ work: `${name}, memory of the page${at}`, value: heap / 1e6, unit: 'MB', goal: 150 });
  }
  await browser.close();
  child.kill('SIGINT');
  await new Promise(resolve => child.once('exit', resolve));
} finally {
  rmSync(folder, { recursive: true, force: true });
}
