import type { Database } from 'better-sqlite3';
import type { Kysely } from 'kysely';
import { type Cell, isAmountCell, shownNumber, understood } from '../../../valuation/reading/reading.ts';
import { readFinishState, readGrade, readStatus } from '../../../valuation/reading/words.ts';
import { gradeToHalf } from '../../codec.ts';
import { carInserter } from '../../records/cars-write.ts';
import { loadReference, type Match } from '../../reference/match.ts';
import type { Schema } from '../../schema.ts';
import { matchExplainer } from './explain-match.ts';
import { writtenOf } from './identity.ts';
import { type Judge, type Judged, mostMatches } from './judge.ts';
import { remembered } from './remembered.ts';

const readNumber = (cell: Cell) =>
  understood(
    typeof cell === 'number' || isAmountCell(cell)
      ? shownNumber(typeof cell === 'number' ? cell : cell.number)
      : String(cell ?? '').trim(),
  );

interface Target {
  lotId: number | null;
  /** Numbers to give to cars that bring none, in order. */
  freeNumbers: string[];
  at: string;
  /** The writing connection inside the import's action; null where rows are only looked at. */
  sqlite: Database | null;
}

/** What tells two rows of one lot apart where they bring no number. */
const contentKey = (asWritten: string, grade: number | null, finish: string, notes: string) =>
  JSON.stringify([asWritten, grade, finish, notes]);

const mostCandidates = 500;

/**
 * Judges the rows of a lot file. A number that stands in the collection already is a duplicate, and so is a row without a
 * number that equals a car of the same lot; nothing that is kept is ever overwritten.
 */
export const lotJudge = async (db: Kysely<Schema>, target: Target): Promise<Judge> => {
  const reference = await loadReference(db);
  const explain = matchExplainer(reference);
  const insert = target.sqlite && carInserter(target.sqlite, target.at);
  const numbers = new Map<string, number>();
  for (const row of await db.selectFrom('car').select('inventory_number').execute())
    numbers.set(row.inventory_number.toLowerCase(), 0);
  const sameContent = new Map<string, number>();
  const ofLot =
    target.lotId === null
      ? []
      : await db
          .selectFrom('car')
          .select(['as_written', 'grade_half', 'finish_state', 'notes'])
          .where('lot_id', '=', target.lotId)
          .execute();
  for (const row of ofLot) {
    const key = contentKey(row.as_written, row.grade_half, row.finish_state, row.notes);
    sameContent.set(key, (sameContent.get(key) ?? 0) + 1);
  }
  const gradeOf = remembered(readGrade);
  const finishOf = remembered(readFinishState);
  const statusOf = remembered(readStatus);
  const matched = new Map<string, Match>();
  let given = 0;
  const nextNumber = (): string => {
    for (;;) {
      const free = target.freeNumbers[given++];
      if (free === undefined) throw new Error('fewer free inventory numbers were set aside than cars came');
      if (!numbers.has(free.toLowerCase())) return free;
    }
  };

  return (row, line): Judged => {
    const written = writtenOf(row);
    const notes = row.takeText('notes', 20_000);
    const grade = row.take('grade', gradeOf);
    const finishState = row.take('finish_state', finishOf) ?? 'original';
    const status = row.takeOrLeave('status', statusOf) ?? 'kept';
    const location = row.takeText('location');
    const number = row.take('inventory_number', readNumber) ?? '';
    if (row.rejected() === null && Object.keys(written).length === 0 && !notes && !number)
      row.refuse(
        'casting',
        'the row says nothing about the car: give its number, a casting, one of its features or a note',
      );
    if (number.length > 60) row.refuse('inventory_number', 'an inventory number has 60 characters at most');
    const before = number ? numbers.get(number.toLowerCase()) : undefined;
    if (before)
      row.refuse(
        'inventory_number',
        `number ${number} stands on line ${before} already; give this car another`,
      );
    const rejected = row.rejected();
    if (rejected) return rejected;
    if (before === 0)
      return {
        outcome: 'duplicate',
        note: `number ${number} stands in the collection already; nothing was changed`,
      };
    const asWritten = JSON.stringify(written);
    if (number) numbers.set(number.toLowerCase(), line);
    else {
      const content = contentKey(asWritten, gradeToHalf(grade), finishState, notes);
      const same = sameContent.get(content) ?? 0;
      if (same > 0) {
        sameContent.set(content, same - 1);
        return { outcome: 'duplicate', note: 'this lot has the same car already; nothing was changed' };
      }
    }
    const match = matched.get(asWritten) ?? reference.match(written);
    if (matched.size < mostMatches) matched.set(asWritten, match);
    const why = explain(written, match);
    return {
      outcome: 'accepted',
      notes: why === null ? row.notes : [...row.notes, why],
      unidentified: match.variationId === null,
      write: () =>
        insert?.(
          {
            inventoryNumber: number || nextNumber(),
            lotId: target.lotId,
            castingId: match.castingId,
            releaseId: match.releaseId,
            variationId: match.variationId,
            asWritten: written,
            grade,
            finishState,
            status,
            location,
            notes,
          },
          match.candidates.slice(0, mostCandidates),
          row.left(),
        ),
    };
  };
};
