import { resolve } from 'node:path';
import { ORPCError } from '@orpc/server';
import type { ArchiveMade } from '../../../db/archive/make-archive.ts';
import { counted } from '../../../valuation/wording/reader.ts';
import type { TakenBackView } from '../../api/archive/archive.ts';
import { withCollection } from '../collection.ts';
import { followed } from '../progress-bar.ts';
import { endRefused, print, Refused, say } from '../terminal.ts';

interface ArchiveOptions {
  collection: string;
  out: string;
  report: boolean;
  json?: boolean;
}

/**
 * `playworn archive`: the whole collection as one file or folder that can be checked and
 * brought back anywhere.
 */
export const archive = async (options: ArchiveOptions): Promise<void> =>
  withCollection(options, async ({ api, signal }) => {
    const out = resolve(options.out);
    const made = await followed<ArchiveMade>(
      await api.archive.make({ out, withReport: options.report }, { signal }),
    );
    for (const sha256 of made.missingPhotos)
      say(`Photograph ${sha256.slice(0, 12)}… is no longer in the photo folder, and so not in the archive.`);
    print(options.json, { archive: out, ...made }, ({ archive: path, files, bytes }) => [
      `${path}, ${counted(files, 'file')}, ${bytes} bytes`,
    ]);
  });

/**
 * `playworn unarchive`: a collection in a new folder from an archive; ends with 1 where a file of it
 * is not as it was.
 */
export const unarchive = async (
  file: string,
  { collection, json }: { collection: string; json?: boolean },
): Promise<void> =>
  withCollection({ collection, unopened: true }, async ({ api, session, signal }) => {
    const dir = session.options.defaultDir;
    const taken = await api.archive
      .unpack({ archive: resolve(file), dir }, { signal })
      .then(work => followed<TakenBackView>(work))
      .catch((error: unknown): never => {
        // What is damaged is the archive: no backup of a collection is to be offered for it.
        throw signal.aborted || !(error instanceof ORPCError) || error.code === 'INTERNAL_SERVER_ERROR'
          ? error
          : new Refused(error.message);
      });
    const { database, said, photos, findings, sentences } = taken;
    print(json, { dir, database, photos, findings }, () => [
      `${said} ${counted(photos, 'photograph')} came back. The collection is in ${dir}.`,
    ]);
    for (const sentence of sentences) say(sentence);
    if (findings.length > 0)
      endRefused(
        `${findings.length} ${findings.length === 1 ? 'file is' : 'files are'} not as archived; everything else came back.`,
      );
  });
