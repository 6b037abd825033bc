import { z } from 'zod';
import type { BagFinding } from '../../../db/archive/bag.ts';
import { type ArchiveMade, makeArchive } from '../../../db/archive/make-archive.ts';
import {
  checkArchive,
  type DatabaseOrigin,
  type TakenBack,
  takeBack,
} from '../../../db/archive/take-back.ts';
import { hasCars } from '../../../db/records/cars/cars.ts';
import { folderInput } from '../folder-input.ts';
import { makeReport } from '../inputs.ts';
import { wholeReport } from '../reports/reports.ts';
import { base, needsCollection } from '../session/context.ts';
import { streamed } from '../session/progress.ts';

const stages = {
  copying: 'Copying photographs',
  hashing: 'Taking checksums',
  packing: 'Packing',
  checking: 'Comparing with the checksums',
  unpacking: 'Unpacking photographs',
} as const;

export type { ArchiveMade };

/** Writes the whole collection as an archive, with a report of it as it stands where there are cars. */
const make = needsCollection
  .input(z.object({ out: folderInput, withReport: z.boolean().default(true) }))
  .handler(({ context: { session, collection }, input, signal }) =>
    streamed<ArchiveMade>(async (onProgress, stop) => {
      const report =
        input.withReport && (await hasCars(collection.read.db))
          ? await wholeReport(session, makeReport.parse({ format: 'pdf' }), onProgress, stop)
          : undefined;
      return makeArchive(collection, {
        out: input.out,
        at: session.at(),
        report: report && { fileName: report.fileName, bytes: report.bytes },
        signal: stop,
        onProgress: (done, total, stage) => onProgress(done, total, stages[stage]),
      });
    }, signal),
  );

const findingText: Record<BagFinding['kind'], string> = {
  missing: 'is missing',
  altered: 'is not as it was archived',
  unreadable: 'cannot be read',
  unlisted: 'was not part of the archive when it was made',
  invalid: 'is not what an archive has there',
};

const originText: Record<DatabaseOrigin, string> = {
  verified: 'The database is just as it was archived.',
  rebuilt:
    'The database is damaged; it was made again from the tables beside it, which are as they were archived.',
  altered:
    'The database is not the one that was archived, and the tables beside it are damaged too; it can be read in full and was restored as it is. Check it with care.',
};

/** What came back, and each file that did not, in words. */
export interface TakenBackView extends TakenBack {
  /** Where the database came from. */
  said: string;
  sentences: string[];
}

const sentencesOf = (findings: BagFinding[]): string[] =>
  findings.map(({ file, kind }) => `${file} ${findingText[kind]}.`);

/** An archive as it was found, and each file that is not as it was archived, in words. */
export interface ArchiveCheck {
  files: number;
  findings: BagFinding[];
  sentences: string[];
}

/** Compares an archive with its own checksums, and takes nothing out of it. */
const check = base.input(z.object({ archive: folderInput })).handler(({ input, signal }) =>
  streamed<ArchiveCheck>(async (onProgress, stop) => {
    const checked = await checkArchive({
      archive: input.archive,
      signal: stop,
      onProgress: (done, total, stage) => onProgress(done, total, stages[stage]),
    });
    return { ...checked, sentences: sentencesOf(checked.findings) };
  }, signal),
);

/** Makes a collection in a new folder from an archive. */
const unpack = base
  .input(z.object({ archive: folderInput, dir: folderInput }))
  .handler(({ context: { session }, input, signal }) =>
    streamed<TakenBackView>(async (onProgress, stop) => {
      const taken = await takeBack({
        ...input,
        at: session.at(),
        signal: stop,
        onProgress: (done, total, stage) => onProgress(done, total, stages[stage]),
      });
      return { ...taken, said: originText[taken.database], sentences: sentencesOf(taken.findings) };
    }, signal),
  );

export const archive = { make, check, unpack };
