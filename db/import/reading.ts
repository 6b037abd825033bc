import type { Kysely } from 'kysely';
import type { Currency } from '../../valuation/types.ts';
import type { Collection } from '../collection.ts';
import { readReportingCurrency } from '../records/collection/settings.ts';
import { listWords } from '../records/own-words/words.ts';
import { listColours } from '../reference/colour-names.ts';
import type { Schema } from '../schema.ts';
import { dittoReader } from './ditto.ts';
import type { Table } from './files/table.ts';
import { describer } from './judges/description.ts';
import { type Habits, type Judge, judgeRow, type ReadRow, readRow } from './judges/judge.ts';
import { lotJudge } from './judges/lot.ts';
import { referenceJudge } from './judges/reference.ts';
import { salesJudge } from './judges/sales.ts';
import { WordBook } from './judges/word-book.ts';
import type { Learned } from './learn.ts';
import type { Mapping } from './mapping.ts';
import { withMerged } from './merged-cells.ts';
import { NotUnderstoodTexts } from './not-understood.ts';
import type { Purchases } from './purchases.ts';
import type { ImportOptions, RunOptions } from './types.ts';

/** One import: which file, how it is read, and who waits for it. */
export interface ImportRequest {
  collection: Collection;
  file: Blob;
  /** The file's own name, as its owner knows it. */
  name: string;
  options: RunOptions;
  /** ISO instant: of entering, and the latest day that a sale can have. */
  at: string;
  /** What `coloursOnly` says of the reference, where that is known; else it is read. */
  colours?: ReadonlySet<string>;
  signal?: AbortSignal | undefined;
  onProgress?: ((done: number, total: number, stage: string) => void) | undefined;
}

/** Where the rows go. */
export interface Target {
  lotId: number | null;
  lotName: string | null;
  /** Of the lot; null where none is made. */
  lotCurrency: Currency | null;
  nextNumber: () => string;
  purchases: Purchases;
  /** True inside the import's action. */
  write: boolean;
  /** True where the action has changed records before its rows are judged. */
  sees: boolean;
  /** Of amounts that name none, where nothing speaks against it. */
  currency: Currency;
  onMissing: (casting: string) => void;
}

/**
 * How the cells of a file are read: with the words of the collection and of the import, and on the scale that
 * its grades show.
 */
export const habitsOf = async (
  db: Kysely<Schema>,
  mapping: Mapping,
  { hasDoubtfulGrades }: Pick<Learned, 'hasDoubtfulGrades'>,
  { words = [] }: ImportOptions,
): Promise<Habits> => {
  const book = new WordBook([...(await listWords(db)), ...words]);
  const place = mapping.places.get('grade');
  const said = place === undefined ? null : book.scaleOf(mapping.columns[place]?.heading ?? '');
  return { mapping, words: book, scale: said ?? (hasDoubtfulGrades ? 'asked' : null) };
};

/** The texts of a file that are not understood, to be gathered as its rows are judged. */
export const notUnderstoodOf = async (db: Kysely<Schema>, { scale }: Habits): Promise<NotUnderstoodTexts> => {
  return new NotUnderstoodTexts(await listColours(db), scale === 'asked');
};

export const judgeFor = async (
  { collection, options, at }: ImportRequest,
  db: Kysely<Schema>,
  habits: Habits,
  { write, sees, onMissing, ...target }: Target,
): Promise<Judge> => {
  const judge = await judgeOfKind({ collection, options, at }, db, habits, {
    write,
    sees,
    onMissing,
    ...target,
  });
  const readDescription = await describer(db, {
    as: options.as,
    mapping: habits.mapping,
    words: options.words ?? [],
    currency: target.currency,
    today: at.slice(0, 10),
  });
  return readDescription ? (row, line) => readDescription(row) ?? judge(row, line) : judge;
};

/** In which amounts are that name no currency, where nothing speaks against it. */
export const ownCurrency = async (
  db: Kysely<Schema>,
  { as, currency }: ImportOptions,
  lotCurrency: Currency | null,
): Promise<Currency> => currency ?? (as === 'lot' ? lotCurrency : null) ?? (await readReportingCurrency(db));

const judgeOfKind = async (
  { collection, options, at }: Pick<ImportRequest, 'collection' | 'options' | 'at'>,
  db: Kysely<Schema>,
  habits: Habits,
  { write, sees, onMissing, ...target }: Target,
): Promise<Judge> => {
  const sqlite = write ? collection.write.sqlite : null;
  const reader = sees ? collection.write.sqlite : collection.read.sqlite;
  if (options.as === 'reference') return referenceJudge(db, sqlite);
  const reporting = await readReportingCurrency(db);
  if (options.as === 'lot')
    return lotJudge(db, habits, {
      ...target,
      reporting,
      at,
      reader,
      sqlite,
    });
  return salesJudge(db, habits, {
    addReference: options.addReference,
    ofAll: options.ofAll ?? {},
    currency: target.currency,
    today: at.slice(0, 10),
    reader,
    sqlite,
    onMissing,
  });
};

interface Judging {
  table: Table;
  habits: Habits;
  judge: Judge;
  /** How many rows there are, as far as is known. */
  rows: number;
  request: ImportRequest;
}

/**
 * Judges every row in order; `onRow` sees each that is a row of the list, `onAside` the lines that are not.
 * Yields to the event loop now and then.
 */
export const judgeAll = async (
  { table, habits, judge, rows, request: { signal, onProgress } }: Judging,
  onRow: (row: ReadRow, judged: ReturnType<typeof judgeRow>) => void,
  onAside?: (row: ReadRow, not: string) => void,
): Promise<void> => {
  let done = 0;
  const withDittos = dittoReader(habits.mapping);
  for await (const batch of table.rows())
    for (const given of batch) {
      const merged = withMerged(given, habits.mapping);
      const row = readRow(merged.not === undefined ? withDittos(merged) : merged);
      if (!row) continue;
      if (row.not !== undefined) {
        onAside?.(row, row.not);
        continue;
      }
      onRow(row, judgeRow(judge, habits, row));
      done++;
      if (done % 500 === 0) {
        await new Promise(resolve => setImmediate(resolve));
        signal?.throwIfAborted();
        onProgress?.(done, rows, 'reading rows');
      }
    }
  signal?.throwIfAborted();
};
