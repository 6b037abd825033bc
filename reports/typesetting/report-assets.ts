import { readdir, readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Where the templates and fonts lie: plain folders, so that they can cross to the worker. */
export interface ReportAssets {
  /** Folder of the `.typ` files. */
  templates: string;
  /** The font files, or folders of them. */
  fonts: string[];
}

const faces = ['400Regular', '400Regular_Italic', '600SemiBold', '700Bold'];

/** The assets of a checkout: templates in the folder above, fonts from the installed package. */
export const checkoutAssets = (): ReportAssets => {
  const fontPackage = createRequire(import.meta.url).resolve('@expo-google-fonts/source-sans-3/package.json');
  return {
    templates: fileURLToPath(new URL('../templates', import.meta.url)),
    fonts: faces.map(face => join(fontPackage, '..', face, `SourceSans3_${face}.ttf`)),
  };
};

/**
 * Templates by file name and fonts as bytes; read by Node, so that they may lie inside
 * an application archive.
 */
export const readAssets = async (
  assets: ReportAssets,
): Promise<{ templates: Map<string, string>; fonts: Buffer[] }> => {
  const names = (await readdir(assets.templates)).filter(name => name.endsWith('.typ')).sort();
  const templates = new Map<string, string>();
  for (const name of names) templates.set(name, await readFile(join(assets.templates, name), 'utf8'));
  const fonts: Buffer[] = [];
  for (const path of assets.fonts)
    if (/\.(ttf|otf)$/i.test(path)) fonts.push(await readFile(path));
    else
      for (const file of (await readdir(path)).sort())
        if (/\.(ttf|otf)$/i.test(file)) fonts.push(await readFile(join(path, file)));
  return { templates, fonts };
};
