import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test as base, type Page } from '@playwright/test';
import { copyDemo } from '../helpers/demo/demo-template.ts';
import { root, type Started, type StartOptions, startBrowser, startWindow } from './hosts.ts';
import { still } from './looking.ts';

export { expect } from '@playwright/test';

export interface HostOptions {
  /** Which of the hosts shows the screens; set by the project. */
  host: 'browser' | 'window';
}

type Start = (options?: Partial<Pick<StartOptions, 'demo' | 'env'>>) => Promise<Started>;

interface Fixtures extends HostOptions {
  /** An empty folder of the test's own, which also stands in for the user's home. */
  home: string;
  /** Where the test's collection lies, or will. */
  collection: string;
  /** Starts the host on the collection, again after it was closed where a test needs that. */
  start: Start;
  /** The same folder, holding a copy of the demo before anything is started. */
  demoCollection: string;
  /** The screens, started without a collection. */
  screens: Page;
  /** The screens with the demo open. */
  demo: Page;
  /** What a page may complain of in a test that provokes it; anything else fails the test. */
  expectedComplaints: RegExp[];
  /** Writes a picture of the page to output/e2e/screenshots. */
  picture(page: Page, name: string): Promise<void>;
}

/**
 * Collects what the page complains of: errors on its console, among them refusals by the policy,
 * and thrown ones.
 */
const listenForComplaints = (page: Page, complaints: string[]): void => {
  page.on('console', message => {
    if (message.type() === 'error') complaints.push(message.text());
  });
  page.on('pageerror', error => complaints.push(String(error)));
};

export const test = base.extend<Fixtures>({
  host: ['browser', { option: true }],
  // biome-ignore lint/correctness/noEmptyPattern: Playwright reads which fixtures are wanted from the pattern
  home: async ({}, use) => {
    const home = mkdtempSync(join(tmpdir(), 'playworn-'));
    await use(home);
    rmSync(home, { recursive: true, force: true });
  },
  collection: async ({ home }, use) => use(join(home, 'Collection')),
  // biome-ignore lint/correctness/noEmptyPattern: as above
  expectedComplaints: async ({}, use) => use([]),
  start: async ({ host, context, home, collection, expectedComplaints }, use) => {
    const running: Started[] = [];
    const complaints: string[] = [];
    await use(async (options = {}) => {
      const onPage = (page: Page) => listenForComplaints(page, complaints);
      const wanted = { home, collection, onPage, ...options };
      const started = host === 'window' ? await startWindow(wanted) : await startBrowser(context, wanted);
      running.push(started);
      return started;
    });
    for (const started of running) await started.close();
    const unexpected = complaints.filter(text => !expectedComplaints.some(pattern => pattern.test(text)));
    if (unexpected.length > 0) throw new Error(`The page complained:\n${unexpected.join('\n')}`);
  },
  screens: async ({ start }, use) => use((await start()).page),
  demoCollection: async ({ collection }, use, info) => {
    info.setTimeout(info.timeout + 180_000);
    await copyDemo(collection);
    await use(collection);
  },
  demo: async ({ start, demoCollection: _copied }, use) => use((await start()).page),
  picture: async ({ host }, use) =>
    use(async (page, name) => {
      const path = join(root, 'output/e2e/screenshots', host, `${name}.png`);
      await still(page);
      await page.screenshot({ path });
    }),
});
