import { createHash } from 'node:crypto';
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';

/** Another text for every build: the hash of its programs. */
const buildOf = (folder: string): string => {
  const hash = createHash('sha1');
  for (const name of readdirSync(folder).sort())
    if (/\.[cm]js$/.test(name)) hash.update(name).update(readFileSync(join(folder, name)));
  return hash.digest('hex');
};

/**
 * Where the bundled service finds its workers and the files of reports: beside itself, and in a packaged app
 * outside the archive, so that plain Node threads can load them and the binaries they need.
 */
export const bundledFiles = (folder: string) => {
  const place = folder.replace(/app\.asar(?=[\\/]|$)/, 'app.asar.unpacked');
  const worker = (name: string) => pathToFileURL(join(place, `${name}-worker.mjs`));
  return {
    build: () => buildOf(folder),
    workers: { report: worker('report'), choose: worker('choose'), heic: worker('heic') },
    reportAssets: {
      templates: join(place, 'report-templates'),
      fonts: [join(place, 'report-fonts')] as [string],
    },
  };
};
