import { globSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';
import { workInMemory } from './helpers/memory-folder.ts';

workInMemory();

const root = fileURLToPath(new URL('..', import.meta.url));
const others = ['tests/e2e/**', 'tests/bench/**', '**/node_modules/**'];

/**
 * Tests that put something in the place of a module see it only in a process where nothing has loaded that
 * module before.
 */
const alone = globSync('tests/**/*.test.{ts,tsx}', { cwd: root, exclude: others }).filter(file =>
  /\bvi\.(mock|doMock|resetModules)\(/.test(readFileSync(join(root, file), 'utf8')),
);

/**
 * Everything but the end-to-end runs (Playwright) and the measurements (plain scripts). Runs on the Node of
 * node_modules. Tests share a process from file to file, which saves reading the program into each again: a
 * fifth of the time of tests of collections, a third of those of pure functions.
 */
export default defineConfig({
  root,
  test: {
    environment: 'node',
    // Programs that tests start read our sources once more; what became of them is held between runs.
    env: { NODE_COMPILE_CACHE: join(root, 'output/compile-cache') },
    setupFiles: ['tests/properties/settings.ts'],
    globalSetup: ['tests/properties/settings.ts'],
    // Bounds for a machine that does much else besides; a test that hangs ends by them.
    testTimeout: 600_000,
    hookTimeout: 600_000,
    maxWorkers: 2,
    projects: [
      {
        extends: true,
        test: {
          name: 'together',
          include: ['tests/**/*.test.{ts,tsx}'],
          exclude: [...others, ...alone],
          isolate: false,
        },
      },
      { extends: true, test: { name: 'alone', include: alone } },
    ],
  },
});
