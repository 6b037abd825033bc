import { chmodSync, existsSync, readdirSync, renameSync, rmdirSync, rmSync, statSync } from 'node:fs';
import { mkdir } from 'node:fs/promises';
import { basename, dirname, extname, join } from 'node:path';
import { z } from 'zod';
import { filesBelow } from '../../../db/archive/bag.ts';
import { isZipName } from '../../../db/archive/make-archive.ts';
import { zipFolder } from '../../../db/archive/zip-bag.ts';
import { CollectionError, withStorageErrors } from '../../../db/errors.ts';
import { makeFolder } from '../../../db/file/files.ts';
import { readSetting } from '../../../db/records/collection/settings.ts';
import type { GalleryMade } from '../../../reports/gallery/write-gallery.ts';
import { plainLocale } from '../../../valuation/wording/reader.ts';
import { id, line, locale } from '../fields.ts';
import { folderInput } from '../folder-input.ts';
import { needsCollection } from '../session/context.ts';
import { refused } from '../session/errors.ts';
import { streamed } from '../session/progress.ts';
import type { Session } from '../session/session.ts';
import { galleryCars } from './gallery-cars.ts';

const makeGallery = z.object({
  out: folderInput,
  /** Over the wall; the collection's own name where there is none. */
  title: line.optional(),
  lotId: id.optional(),
  locale: locale.default(plainLocale),
});
type GalleryWanted = z.output<typeof makeGallery>;

export interface GalleryWritten extends GalleryMade {
  out: string;
  bytes: number;
}

/** A file that is there is never written over; an empty folder may be filled. */
const refuseTaken = (out: string): void => {
  if (!existsSync(out)) return;
  const empty = !isZipName(out) && statSync(out).isDirectory() && readdirSync(out).length === 0;
  if (!empty) throw new CollectionError({ kind: 'name-taken', path: out });
};

/** What is made to be shown can be read by others of this computer, too, such as a server of pages. */
const openToOthers = (folder: string): void => {
  chmodSync(folder, 0o755);
  for (const entry of readdirSync(folder, { withFileTypes: true }))
    if (entry.isDirectory()) openToOthers(join(folder, entry.name));
    else chmodSync(join(folder, entry.name), 0o644);
};

const sizeOf = (out: string): number =>
  isZipName(out)
    ? statSync(out).size
    : filesBelow(out).reduce((sum, name) => sum + statSync(join(out, name)).size, 0);

const writeIt = async (
  session: Session,
  { out, title, lotId, locale: reader }: GalleryWanted,
  named: string,
  onProgress: (done: number, total: number, stage: string) => void,
  signal: AbortSignal,
): Promise<GalleryWritten> => {
  refuseTaken(out);
  const cars = await galleryCars(session, { lotId, locale: reader });
  if (cars.length === 0) throw refused('There is no car to show. Add cars, or choose another lot.');
  const { writeGallery } = await import('../../../reports/gallery/write-gallery.ts');
  makeFolder(dirname(out));
  const folder = `${out}.${process.pid}.part`;
  const zip = `${folder}.zip`;
  const clear = () => {
    rmSync(folder, { recursive: true, force: true });
    rmSync(zip, { force: true });
  };
  clear();
  try {
    await mkdir(folder);
    const made = await writeGallery({ title: title || named, locale: reader, cars }, folder, {
      signal,
      templates: session.options.reportAssets?.templates,
      onPhoto: (done, total) => onProgress(done, total, 'Preparing photographs'),
    });
    openToOthers(folder);
    if (isZipName(out)) {
      await zipFolder(folder, basename(out, extname(out)), zip, {
        signal,
        onFile: (done, total) => onProgress(done, total, 'Packing'),
      });
      chmodSync(zip, 0o644);
    }
    refuseTaken(out);
    if (!isZipName(out) && existsSync(out)) rmdirSync(out);
    renameSync(isZipName(out) ? zip : folder, out);
    return { ...made, out, bytes: sizeOf(out) };
  } finally {
    clear();
  }
};

/** Writes the cars that are still there as static pages: into a new or empty folder, or as a ZIP file. */
const make = needsCollection.input(makeGallery).handler(({ context: { session, db }, input, signal }) =>
  streamed<GalleryWritten>(async (onProgress, stop) => {
    const named = (await readSetting(db, 'name')) || 'The collection';
    return withStorageErrors(input.out, () => writeIt(session, input, named, onProgress, stop));
  }, signal),
);

export const gallery = { make };
