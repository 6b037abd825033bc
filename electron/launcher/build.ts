import { createHash } from 'node:crypto';
import { cpSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { build } from 'vite';
import { checkoutAssets } from '../../reports/report-assets.ts';
import { bundledFiles } from '../service/bundled-files.ts';
import { bundleConfig, bundleNames } from '../vite.config.ts';

const root = fileURLToPath(new URL('../..', import.meta.url));

/** What can be built, from which sources, and how, into a folder of its own. */
const products = {
  renderer: {
    sources: ['renderer', 'valuation', 'electron/api', 'package-lock.json'],
    make: (outDir: string) =>
      build({
        configFile: join(root, 'renderer/vite.config.ts'),
        logLevel: 'warn',
        build: { outDir, emptyOutDir: true },
      }),
  },
  electron: {
    sources: ['electron', 'db', 'migrations', 'valuation', 'reports', 'package.json', 'package-lock.json'],
    make: async (outDir: string) => {
      for (const name of bundleNames) await build(bundleConfig(name, outDir));
      const { templates, fonts } = checkoutAssets();
      const copied = bundledFiles(outDir).reportAssets;
      cpSync(templates, copied.templates, { recursive: true });
      for (const font of fonts) cpSync(font, join(copied.fonts[0], basename(font)));
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

/** Builds what is stale. A build that fails, or two at once, leave the last good one in place. */
export const buildStale = async (wanted: Product[], say: (sentence: string) => void): Promise<void> => {
  for (const product of wanted) {
    const made = digest(product);
    if (isBuilt(product, made)) continue;
    say(`Building ${product === 'renderer' ? 'the screens' : 'the app'} …`);
    const fresh = join(root, 'dist', `${product}.${process.pid}`);
    const old = `${fresh}.old`;
    mkdirSync(fresh, { recursive: true });
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
  }
};

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href)
  await buildStale(['renderer', 'electron'], sentence => console.log(sentence));
