import { builtinModules } from 'node:module';
import { fileURLToPath } from 'node:url';
import type { InlineConfig } from 'vite';

const at = (path: string) => fileURLToPath(new URL(path, import.meta.url));

/** Carry a binary, or find their own files beside themselves: left in node_modules. */
const leftOut = ['electron', 'better-sqlite3', 'sharp', '@myriaddreamin/typst-ts-node-compiler', 'highs'];

export const bundleNames = ['main', 'preload', 'service', 'report-worker', 'choose-worker'] as const;
export type BundleName = (typeof bundleNames)[number];

const entries: Record<BundleName, string> = {
  main: at('main/main.ts'),
  preload: at('preload/preload.ts'),
  service: at('service/service.ts'),
  'report-worker': at('../reports/worker.ts'),
  'choose-worker': at('api/decisions/choose-worker.ts'),
};

/**
 * One file for each process and thread; of the service, what only some days need (spreadsheets, the demo)
 * lies apart, since reading it takes longer than the rest of the start. CommonJS, since a sandboxed preload
 * must be, and the main entry of an Electron before 28 too; but the workers, one of which awaits at its top
 * level, are modules. The bundles share `outDir`, which is therefore not emptied here.
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
    rolldownOptions: {
      input: { [name]: entries[name] },
      external: [...builtinModules, ...builtinModules.map(module => `node:${module}`), ...leftOut, /^@img\//],
      output: name.endsWith('worker')
        ? { format: 'es', entryFileNames: '[name].mjs', codeSplitting: false }
        : {
            format: 'cjs',
            entryFileNames: '[name].cjs',
            chunkFileNames: `${name}-[name].cjs`,
            codeSplitting: name === 'service',
          },
    },
  },
});
