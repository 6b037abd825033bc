import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { defineConfig } from '@playwright/test';
import { workInMemory } from '../helpers/memory-folder.ts';
import type { HostOptions } from './fixtures.ts';

workInMemory();

/** A Chromium of the system's, where there is one; else the one that Playwright installs for itself. */
const installed = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'].find(
  existsSync,
);
/**
 * What Chromium does for each window beside the page, which nobody sees here: two pages that draw the
 * suggestions of its address bar, and a spare process for a page that does not come. They take a second of
 * processor time in each test. Of two such switches the last one counts, so that what Playwright itself
 * switches off stands here once more.
 */
const unseen = [
  ...['WebUIOmniboxPopup', 'WebUIOmniboxAimPopup', 'SpareRendererForSitePerProcess'],
  ...['AvoidUnnecessaryBeforeUnloadCheckSync', 'DestroyProfileOnBrowserClose', 'HttpsUpgrades'],
  ...['HttpsFirstBalancedModeAutoEnable', 'LensOverlay', 'MediaRouter', 'PaintHolding'],
  ...['ThirdPartyStoragePartitioning', 'AvoidCorsURLLoaderRestartOnRedirect', 'OptimizationHints'],
  ...['NetworkTimeServiceQuerying', 'AimEnabled', 'PreconnectToSearch'],
];
const output = fileURLToPath(new URL('../../output/e2e', import.meta.url));
// The hosts that tests start read our sources once more; what became of them is held between runs.
process.env.NODE_COMPILE_CACHE ??= fileURLToPath(new URL('../../output/compile-cache', import.meta.url));

/**
 * The screens in both hosts: all of `screens/` in the browser; the start, the main job, the recovery and the
 * preview of papers in the window too; `browser/` and `window/` in their own. The window needs an Electron and a
 * display (see .ci/run), so `npm test` runs the browser.
 */
export default defineConfig<HostOptions>({
  testDir: '.',
  outputDir: `${output}/traces`,
  fullyParallel: true,
  forbidOnly: true,
  workers: 2,
  retries: 0,
  // Bounds for a machine that does much else besides; what is there is never waited for.
  timeout: 400_000,
  expect: { timeout: 100_000 },
  reporter: [
    ['list'],
    ['json', { outputFile: process.env.PLAYWORN_E2E_RESULTS ?? `${output}/results.json` }],
  ],
  use: {
    viewport: { width: 1440, height: 900 },
    actionTimeout: 40_000,
    locale: 'en-US',
    timezoneId: 'UTC',
    // Recording costs a quarter of the whole run; a failure leaves its picture, and
    // `--trace on` tells the rest.
    trace: 'off',
    screenshot: 'only-on-failure',
    launchOptions: {
      args: [`--disable-features=${unseen.join()}`],
      ...(installed && { executablePath: installed }),
    },
  },
  projects: [
    { name: 'browser', testMatch: /\/(screens\/[^/]*|browser)\/[^/]*\.spec\.ts$/, use: { host: 'browser' } },
    // One at a time: a window that another one covers is not painted.
    {
      name: 'window',
      testMatch: /\/(window\/[^/]*|screens\/[^/]*\/(start|main-job|recovery|paper-preview))\.spec\.ts$/,
      use: { host: 'window' },
      workers: 1,
    },
  ],
});
