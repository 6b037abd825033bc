import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { cpSync, existsSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { makeFolder } from '../../db/file/files.ts';
import { checkoutAssets } from '../../reports/typesetting/report-assets.ts';
import { bundledFiles } from '../service/bundled-files.ts';
import { bundleConfig, bundleNames } from '../vite.config.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** What can be built, from which sources, and how, into a folder of its own. */
const products = {
  renderer: {
    sources: ['renderer', 'valuation', 'electron/api', 'package-lock.json'],
    make: async (outDir: string) => {
      const { build } = await import('vite');
      await build({
        configFile: join(root, 'renderer/vite.config.ts'),
        logLevel: 'warn',
        build: { outDir, emptyOutDir: true },
      });
    },
  },
  electron: {
    sources: ['electron', 'db', 'migrations', 'valuation', 'reports', 'package.json', 'package-lock.json'],
    make: async (outDir: string) => {
      const { build } = await import('vite');
      for (const name of bundleNames) await build(bundleConfig(name, outDir));
      const { templates, fonts } = checkoutAssets();
      const copied = bundledFiles(outDir).reportAssets;
      cpSync(templates, copied.templates, { recursive: true });
      for (const font of fonts) cpSync(font, join(copied.fonts[0], basename(font)));
      // What became of older sources is never asked for again. The folders stay: who started this build writes there.
      for (const file of heldSources()) rmSync(join(root, file), { force: true });
    },
  },
};
export type Product = keyof typeof products;

const filesUnder = (place: string): string[] => {
  const full = join(root, place);
  try {
    const names = readdirSync(full, { withFileTypes: true }).sort((a, b) => (a.name < b.name ? -1 : 1));
    return names.flatMap(entry =>
      entry.isDirectory() ? filesUnder(join(place, entry.name)) : [join(place, entry.name)],
    );
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOTDIR') return [place];
    throw error;
  }
};

const compileCache = 'dist/compile-cache';
const heldSources = (): string[] => (existsSync(join(root, compileCache)) ? filesUnder(compileCache) : []);

/** Changes with any byte of the sources, whatever their dates say. */
const digest = (product: Product): string => {
  const hash = createHash('sha256');
  for (const file of products[product].sources.flatMap(filesUnder))
    hash
      .update(file)
      .update('\0')
      .update(readFileSync(join(root, file)))
      .update('\0');
  return hash.digest('hex');
};

const stampOf = (product: Product) => join(root, 'dist', `${product}.stamp`);
const isBuilt = (product: Product, wanted: string): boolean => {
  try {
    readdirSync(join(root, 'dist', product));
    return readFileSync(stampOf(product), 'utf8') === wanted;
  } catch {
    return false;
  }
};

/** Builds one product. A build that fails, or two at once, leave the last good one in place. */
const make = async (product: Product): Promise<void> => {
  const made = digest(product);
  const fresh = join(root, 'dist', `${product}.${process.pid}`);
  const old = `${fresh}.old`;
  makeFolder(fresh);
  try {
    await products[product].make(fresh);
    rmSync(stampOf(product), { force: true });
    try {
      renameSync(join(root, 'dist', product), old);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ENOENT') throw error;
    }
    renameSync(fresh, join(root, 'dist', product));
    writeFileSync(stampOf(product), made);
  } finally {
    rmSync(fresh, { recursive: true, force: true });
    rmSync(old, { recursive: true, force: true });
  }
};

const isProduct = (word: string): word is Product => Object.hasOwn(products, word);

/**
 * Builds what is stale, in a process of its own: a build takes memory that a host would hold as
 * long as it serves.
 */
export const buildStale = async (wanted: Product[], say: (sentence: string) => void): Promise<void> => {
  const stale = wanted.filter(product => !isBuilt(product, digest(product)));
  if (stale.length === 0) return;
  say(
    `Building ${stale.map(product => (product === 'renderer' ? 'the screens' : 'the app')).join(' and ')} …`,
  );
  const child = spawn(process.execPath, [fileURLToPath(import.meta.url), ...stale], { stdio: 'inherit' });
  const [code] = await once(child, 'exit');
  if (code !== 0) throw new Error('The build failed, and says why above.');
};

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const named = process.argv.slice(2).filter(isProduct);
  if (named.length > 0) for (const product of named) await make(product);
  else await buildStale(['renderer', 'electron'], sentence => console.log(sentence));
}
