import type { Kysely } from 'kysely';
import { coloursOnly } from '../reference/colour-names.ts';
import type { Schema } from '../schema.ts';
import { CellCounter } from './cell-counter.ts';
import { settleCurrencies } from './currency-evidence.ts';
import { openTable, type Table } from './files/table.ts';
import type { judgeRow, ReadRow } from './judges/judge.ts';
import { asideView, rowView } from './judges/row-view.ts';
import { type Learned, learnFormats } from './learn.ts';
import { type Mapping, mapColumns } from './mapping.ts';
import {
  habitsOf,
  type ImportRequest,
  judgeAll,
  judgeFor,
  notUnderstoodOf,
  ownCurrency,
  type Target,
} from './reading.ts';
import { knownNote } from './run-notes.ts';
import { kindWarnings, unreadColumns } from './said-of-file.ts';
import type { ImportResult } from './types.ts';

/** Notes of single rows beyond this many are counted, not listed. */
const mostNotes = 200;

/** An import under way: its file as it was opened, and what there is to say of it so far. */
export interface ImportRun {
  request: ImportRequest;
  table: Table;
  mapping: Mapping;
  formats: Learned;
  result: ImportResult;
  /** Castings that the reference lacks, in small letters. */
  missing: Set<string>;
  /** How many notes there are of single rows, listed or not. */
  rowNotes: number;
}

/**
 * Opens the file and learns its columns and formats; none of its rows is taken yet. Throws ImportFileError where it
 * cannot be read as a table or a required column is missing.
 */
export const openRun = async (request: ImportRequest, db: Kysely<Schema>): Promise<ImportRun> => {
  const { file, name, options, signal } = request;
  const colours = request.colours ?? (await coloursOnly(db));
  const table = await openTable(file, name, options, colours);
  const mapping = mapColumns(table, options);
  const formats = await learnFormats(table, mapping, options, signal);
  const result: ImportResult = {
    accepted: 0,
    rejected: [],
    duplicates: 0,
    duplicateLines: [],
    unidentified: 0,
    addedCastings: 0,
    notUnderstood: [],
    cells: { understood: 0, partly: 0, unknown: 0, idle: 0 },
    learned: formats.learned,
    questions: formats.questions,
    notes: [
      ...table.warnings,
      ...mapping.warnings,
      ...kindWarnings(mapping, options),
      ...unreadColumns(mapping),
    ],
  };
  if (options.rows) result.rows = [];
  return { request, table, mapping, formats, result, missing: new Set(), rowNotes: 0 };
};

/** Adds to the result what became of a row, and writes it where the target says so. */
const countRow = (
  run: ImportRun,
  { line }: ReadRow,
  { judged }: ReturnType<typeof judgeRow>,
  write: boolean,
): void => {
  const { result } = run;
  switch (judged.outcome) {
    case 'rejected':
      result.rejected.push({ line, column: judged.column, reason: judged.reason });
      return;
    case 'duplicate':
      result.duplicates++;
      result.duplicateLines.push(line);
      return;
    case 'accepted':
      if (write) judged.write();
      result.accepted++;
      if (judged.unidentified) result.unidentified++;
      for (const note of judged.notes)
        if (++run.rowNotes <= mostNotes) result.notes.push(`Line ${line}: ${note}.`);
  }
};

/** Judges all rows of the file, and takes those that can be taken where the target says so. */
export const takeRows = async (
  run: ImportRun,
  db: Kysely<Schema>,
  target: Omit<Target, 'onMissing' | 'currency'>,
): Promise<void> => {
  const { request, table, mapping, formats, result, missing } = run;
  const currency = await ownCurrency(db, request.options, target.lotCurrency);
  const { learned, questions } = settleCurrencies(mapping.currencies, currency, request.options);
  result.learned.push(...learned);
  result.questions.push(...questions);
  const habits = await habitsOf(db, mapping, formats, request.options);
  const texts = await notUnderstoodOf(db, habits);
  const cells = new CellCounter(mapping, result.cells);
  const judge = await judgeFor(request, db, habits, {
    ...target,
    currency,
    onMissing: casting => missing.add(casting.toLowerCase()),
  });
  await judgeAll(
    { table, habits, judge, rows: formats.rows, request },
    (row, outcome) => {
      const { judged, reader } = outcome;
      result.rows?.push(rowView(habits, row, outcome));
      const isRejected = judged.outcome === 'rejected';
      texts.add(row.line, isRejected ? reader.unread.filter(({ asks }) => asks) : reader.unread);
      if (!isRejected) cells.see(row, reader.unread);
      countRow(run, row, outcome, target.write);
    },
    (row, not) => result.rows?.push(asideView(row, not)),
  );
  result.notUnderstood = texts.list();
};

/** The result, once all is taken: with what is said of the rows together. */
export const finishedResult = ({
  request: { options },
  result,
  missing,
  rowNotes,
}: ImportRun): ImportResult => {
  if (rowNotes > mostNotes)
    result.notes.push(`${rowNotes - mostNotes} more notes of this kind are not listed.`);
  const known = knownNote(options, result.duplicateLines);
  if (known !== null) result.notes.push(known);
  result.addedCastings = options.as === 'sales' && options.addReference ? missing.size : 0;
  return result;
};
