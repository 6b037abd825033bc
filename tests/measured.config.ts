import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { workInMemory } from './helpers/memory-folder.ts';

workInMemory();

const pure = ['tests/valuation/**/*.test.ts', 'tests/published/**/*.test.ts', 'tests/renderer/**/*.test.ts'];
const others = ['tests/e2e/**', 'tests/bench/**', '**/node_modules/**'];

/**
 * Everything but the end-to-end runs (Playwright) and the measurements (plain scripts). Runs on the Node of
 * node_modules. Tests of pure functions share a process from file to file, which saves a third of their time;
 * those that open collections do not.
 */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    environment: 'node',
    // Programs that tests start read our sources once more; what became of them is held between runs.
    env: { NODE_COMPILE_CACHE: fileURLToPath(new URL('../output/compile-cache', import.meta.url)) },
    setupFiles: ['/tmp/sw/cpu-setup.ts', 'tests/properties/settings.ts'],
    globalSetup: ['tests/properties/settings.ts'],
    testTimeout: 120_000,
    hookTimeout: 180_000,
    maxWorkers: 2,
    projects: [
      { extends: true, test: { name: 'pure', include: pure, exclude: others, isolate: false } },
      {
        extends: true,
        test: { name: 'parts', include: ['tests/**/*.test.{ts,tsx}'], exclude: [...others, ...pure] },
      },
    ],
  },
});
