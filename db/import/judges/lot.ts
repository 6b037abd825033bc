import type { Kysely, Transaction } from 'kysely';
import { gradeToHalf } from '../../codec.ts';
import type { Collection } from '../../collection.ts';
import { featureColumns, loadMatcher, type Match } from '../../reference/match.ts';
import type { Schema } from '../../schema.ts';
import { parsed } from '../cells/parse-date.ts';
import { parseBasePaint, parseFinishState, parseGrade, parseYear } from '../cells/parse-words.ts';
import type { Cell } from '../types.ts';
import { matchExplainer } from './explain-match.ts';
import { BadCell, type Judge, mostMatches, take, takeText, type Values } from './judge.ts';
import { remembered } from './remembered.ts';

/** The columns that say what a car is; their text is kept as it was written. */
const identityColumns = ['casting', 'release_name', 'release_year', ...Object.values(featureColumns)];

const readBasePaint = remembered(parseBasePaint);
const readYear = remembered(parseYear);

/** What stands in the file of a car's identity; base paint and year in our words where they are readable. */
export const writtenOf = (values: Values): Record<string, string> => {
  const written: Record<string, string> = {};
  for (const column of identityColumns) {
    const text = takeText(values, column);
    if (text) written[column] = text;
  }
  const basePaint = take(values, 'base_paint', readBasePaint);
  if (basePaint) written.base_paint = basePaint;
  const year = take(values, 'release_year', readYear);
  if (year) written.release_year = String(year);
  return written;
};

const parseNumber = (cell: Cell) =>
  parsed(typeof cell === 'number' ? String(cell) : String(cell ?? '').trim());

interface Target {
  lotId: number | null;
  /** Numbers to give to cars that bring none, in order. */
  freeNumbers: string[];
  at: string;
}

/** What tells two rows of one lot apart where they bring no number. */
const contentKey = (asWritten: string, grade: number | null, finish: string, notes: string) =>
  JSON.stringify([asWritten, grade, finish, notes]);

/**
 * Judges the rows of a lot file. A number that stands in the collection already is a duplicate, and so is a row without a
 * number that equals a car of the same lot; nothing that is kept is ever overwritten.
 */
export const lotJudge = async (
  collection: Collection,
  db: Kysely<Schema> | Transaction<Schema>,
  target: Target,
): Promise<Judge> => {
  const matcher = await loadMatcher(db);
  const explain = matchExplainer(collection.sqlite);
  const numbers = new Map<string, number>();
  const sameContent = new Map<string, number>();
  const rows = await db
    .selectFrom('car')
    .select(['inventory_number', 'lot_id', 'as_written', 'grade_half', 'finish_state', 'notes'])
    .execute();
  for (const row of rows) {
    numbers.set(row.inventory_number.toLowerCase(), 0);
    if (row.lot_id !== target.lotId || target.lotId === null) continue;
    const key = contentKey(row.as_written, row.grade_half, row.finish_state, row.notes);
    sameContent.set(key, (sameContent.get(key) ?? 0) + 1);
  }
  const { sqlite } = collection;
  const insert = sqlite.prepare(
    `INSERT INTO car (inventory_number, lot_id, casting_id, release_id, variation_id, as_written, grade_half, finish_state,
      location, notes, created_at, updated_at) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const insertCandidate = sqlite.prepare('INSERT INTO car_candidate (car_id, variation_id) VALUES (?, ?)');
  const readGrade = remembered(parseGrade);
  const readFinish = remembered(parseFinishState);
  const matched = new Map<string, Match>();
  let given = 0;

  return (values, line) => {
    const written = writtenOf(values);
    const notes = takeText(values, 'notes', 20_000);
    if (Object.keys(written).length === 0 && !notes)
      throw new BadCell('casting', 'the row says nothing about the car: give a casting, a colour or a note');
    const grade = gradeToHalf(take(values, 'grade', readGrade));
    const finishState = take(values, 'finish_state', readFinish) ?? 'original';
    const location = takeText(values, 'location');
    const number = take(values, 'inventory_number', parseNumber) ?? '';
    if (number.length > 60)
      throw new BadCell('inventory_number', 'an inventory number has 60 characters at most');
    const asWritten = JSON.stringify(written);
    const content = contentKey(asWritten, grade, finishState, notes);
    if (number) {
      const before = numbers.get(number.toLowerCase());
      if (before === 0)
        return {
          outcome: 'duplicate',
          note: `number ${number} stands in the collection already; nothing was changed`,
        };
      if (before !== undefined)
        throw new BadCell(
          'inventory_number',
          `number ${number} stands on line ${before} already; give this car another`,
        );
      numbers.set(number.toLowerCase(), line);
    } else {
      const same = sameContent.get(content) ?? 0;
      if (same > 0) {
        sameContent.set(content, same - 1);
        return { outcome: 'duplicate', note: 'this lot has the same car already; nothing was changed' };
      }
    }
    const match = matched.get(asWritten) ?? matcher(written);
    if (matched.size < mostMatches) matched.set(asWritten, match);
    return {
      outcome: 'accepted',
      note: explain(written, match),
      unidentified: match.variationId === null,
      write: () => {
        let own = number;
        while (!own) {
          const free = target.freeNumbers[given++];
          if (free === undefined)
            throw new Error('fewer free inventory numbers were set aside than cars came');
          if (!numbers.has(free.toLowerCase())) own = free;
        }
        const { lastInsertRowid } = insert.run(
          own,
          target.lotId,
          match.castingId,
          match.releaseId,
          match.variationId,
          asWritten,
          grade,
          finishState,
          location,
          notes,
          target.at,
          target.at,
        );
        for (const variationId of match.candidates.slice(0, 500))
          insertCandidate.run(lastInsertRowid, variationId);
      },
    };
  };
};
