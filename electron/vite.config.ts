import { builtinModules } from 'node:module';
import { fileURLToPath } from 'node:url';
import type { InlineConfig } from 'vite';

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Carry a binary, find their own files beside themselves, or have to stay exchangeable by their licence: left in node_modules. */
const leftOut = [
  'electron',
  'better-sqlite3',
  'sharp',
  '@myriaddreamin/typst-ts-node-compiler',
  'highs',
  /^libheif-js\//,
];

export const bundleNames = [
  'main',
  'preload',
  'hosts',
  'report-worker',
  'choose-worker',
  'heic-worker',
] as const;
export type BundleName = (typeof bundleNames)[number];

const entries: Record<BundleName, Record<string, string>> = {
  main: { main: at('main/main.ts') },
  preload: { preload: at('preload/preload.ts') },
  hosts: { service: at('service/service.ts'), browser: at('launcher/serve-browser.ts') },
  'report-worker': { 'report-worker': at('../reports/typesetting/worker.ts') },
  'choose-worker': { 'choose-worker': at('api/decisions/choose-worker.ts') },
  'heic-worker': { 'heic-worker': at('../db/photos/heic-worker.ts') },
};

/**
 * One file for each process and thread; the hosts of collections share most of theirs, and what only some
 * days need (spreadsheets, the demo) lies apart, since reading it takes longer than the rest of the start.
 * CommonJS, since a sandboxed preload must be, and the main entry of an Electron before 28 too; but the
 * workers, two of which await at their top level, are modules. Beside each lies its source map, so that the
 * trace of a fault names the sources. The bundles share `outDir`, which is therefore not emptied here.
 */
export const bundleConfig = (name: BundleName, outDir: string): InlineConfig => ({
  configFile: false,
  root: at('.'),
  logLevel: 'warn',
  ssr: { noExternal: true },
  build: {
    ssr: true,
    target: name === 'main' || name === 'preload' ? 'node18' : 'node22',
    outDir,
    emptyOutDir: false,
    minify: false,
    sourcemap: true,
    rolldownOptions: {
      input: entries[name],
      external: [...builtinModules, ...builtinModules.map(module => `node:${module}`), ...leftOut, /^@img\//],
      output: name.endsWith('worker')
        ? { format: 'es', entryFileNames: '[name].mjs', codeSplitting: false, sourcemapExcludeSources: true }
        : {
            format: 'cjs',
            sourcemapExcludeSources: true,
            entryFileNames: '[name].cjs',
            chunkFileNames: `${name}-[name].cjs`,
            codeSplitting: name === 'hosts',
          },
    },
  },
});
