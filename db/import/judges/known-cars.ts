import type { Database } from 'better-sqlite3';
import { readTexts } from '../../codec.ts';
import { plain } from '../../reference/plain.ts';

/** A row of the list as it is compared with the car of its number. */
export interface RowToKnow {
  written: Record<string, string>;
  castingId: number | null;
  variationId: number | null;
  gradeHalf: number | null;
  finishState: string;
  notes: string;
  location: string;
  boughtOn: string | null;
  seller: string;
  /** Names of the lots into which the row may go. */
  lotNames: readonly string[];
}

interface NumberedRow {
  as_written: string;
  casting_id: number | null;
  variation_id: number | null;
  grade_half: number | null;
  finish_state: string;
  notes: string;
  location: string;
  bought_on: string | null;
  seller: string;
  lot_id: number | null;
  lot_name: string | null;
  created_at: string;
  updated_at: string;
}

/** True where what is written of two cars, and what they are known to be, can be of one and the same. */
const isSameKind = (before: NumberedRow, row: RowToKnow): boolean => {
  if (before.variation_id !== null && before.variation_id === row.variationId) return true;
  if (before.casting_id !== null && row.castingId !== null && before.casting_id !== row.castingId)
    return false;
  const written = readTexts(before.as_written);
  const isOneCasting = before.casting_id !== null && before.casting_id === row.castingId;
  const texts = new Set([...Object.keys(written), ...Object.keys(row.written)]);
  for (const column of texts) {
    if (isOneCasting && (column === 'casting' || column === 'release_name')) continue;
    if (plain(written[column] ?? '') !== plain(row.written[column] ?? '')) return false;
  }
  return true;
};

const agree = <T>(before: T | null, now: T | null, blank: T | null): boolean =>
  before === blank || now === blank || before === now;

/** True where a car's own record says all that the row says. */
const isSameContent = (before: NumberedRow, row: RowToKnow): boolean =>
  before.grade_half === row.gradeHalf &&
  before.finish_state === row.finishState &&
  before.notes === row.notes &&
  agree(before.location, row.location, '') &&
  agree(before.bought_on, row.boughtOn, null) &&
  agree(before.seller, row.seller, '');

interface ContentRow {
  as_written: string;
  grade_half: number | null;
  finish_state: string;
  notes: string;
}

/**
 * What there is already of the cars that an import brings: by their numbers, and of the lots into which they
 * go, by what they are.
 */
export const knownCars = (
  sqlite: Database,
  { lotId, lotName }: { lotId: number | null; lotName: string | null },
) => {
  const lines = new Map<string, number>();
  const byNumber = sqlite.prepare(
    `SELECT car.*, lot.name AS lot_name FROM car LEFT JOIN lot ON lot.id = car.lot_id
     WHERE car.inventory_number = ?`,
  );
  const isEmpty = sqlite.prepare('SELECT 1 FROM car LIMIT 1').get() === undefined;
  const ofLot = sqlite.prepare(
    `SELECT car.as_written, car.grade_half, car.finish_state, car.notes FROM car JOIN lot ON lot.id = car.lot_id
     WHERE lot.id = ? OR lot.name = ?`,
  );
  const contents = new Map<string, Map<string, number>>();
  const contentsOf = (name: string): Map<string, number> => {
    const before = contents.get(name);
    if (before) return before;
    const counts = new Map<string, number>();
    const rows = (isEmpty ? [] : ofLot.all(name === lotName ? lotId : null, name)) as ContentRow[];
    for (const row of rows) {
      const key = JSON.stringify([row.as_written, row.grade_half, row.finish_state, row.notes]);
      counts.set(key, (counts.get(key) ?? 0) + 1);
    }
    contents.set(name, counts);
    return counts;
  };

  return {
    /**
     * Null where nothing has this number, which this line then takes; the line on which it stands already; or
     * whose it is in the collection. Lists of several hands all number from 1, so that the number makes a row
     * known only with all else that it says, read in one of these ways; of the same lot, a car that was changed
     * since may differ in what its owner changes.
     */
    numbered(number: string, line: number, ways: readonly RowToKnow[]): number | 'same' | 'other' | null {
      const key = number.toLowerCase();
      const before = lines.get(key);
      if (before !== undefined) return before;
      const row = (isEmpty ? undefined : byNumber.get(number)) as NumberedRow | undefined;
      if (!row) {
        lines.set(key, line);
        return null;
      }
      const isChanged = row.updated_at !== row.created_at;
      const isSame = (given: RowToKnow): boolean => {
        if (!isSameKind(row, given)) return false;
        const isOfLot =
          (lotId !== null && row.lot_id === lotId) || given.lotNames.some(name => name === row.lot_name);
        return isSameContent(row, given) || (isOfLot && isChanged);
      };
      return ways.some(isSame) ? 'same' : 'other';
    },
    /**
     * True where one of these lots has as many cars that equal this one, beyond those that were met already.
     */
    equal(content: unknown[], lotNames: readonly string[], quantity: number): boolean {
      const key = JSON.stringify(content);
      for (const name of lotNames.length > 0 ? lotNames : [lotName ?? '']) {
        const counts = contentsOf(name);
        const same = counts.get(key) ?? 0;
        if (same === 0) continue;
        counts.set(key, Math.max(0, same - quantity));
        return true;
      }
      return false;
    },
  };
};
