import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** Everything but the end-to-end runs (Playwright) and the measurements (plain scripts). Runs on the Node of node_modules. */
export default defineConfig({
  root: fileURLToPath(new URL('..', import.meta.url)),
  test: {
    environment: 'node',
    include: ['tests/**/*.test.ts', 'tests/**/*.test.tsx'],
    exclude: ['tests/e2e/**', 'tests/bench/**', '**/node_modules/**'],
    setupFiles: ['tests/properties/settings.ts'],
    globalSetup: ['tests/properties/settings.ts'],
    testTimeout: 120_000,
    hookTimeout: 180_000,
    maxWorkers: 2,
  },
});
