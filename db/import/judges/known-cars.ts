import type { Database } from 'better-sqlite3';
import { readTexts } from '../../codec.ts';
import { plain } from '../../reference/plain.ts';

interface Named {
  written: Record<string, string>;
  castingId: number | null;
}

interface NumberedRow {
  as_written: string;
  casting_id: number | null;
  lot_id: number | null;
}

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
    'SELECT as_written, casting_id, lot_id FROM car WHERE inventory_number = ?',
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
    take(number: string, line: number): void {
      lines.set(number.toLowerCase(), line);
    },
    /**
     * Null where nothing has this number; the line on which it stands already; or whose it is
     * in the collection.
     */
    numbered(number: string, { written, castingId }: Named): number | 'same' | 'other' | null {
      const line = lines.get(number.toLowerCase());
      if (line !== undefined) return line;
      const row = (isEmpty ? undefined : byNumber.get(number)) as NumberedRow | undefined;
      if (!row) return null;
      const before = readTexts(row.as_written);
      const isSame =
        (lotId !== null && row.lot_id === lotId) ||
        (castingId !== null && row.casting_id === castingId) ||
        plain(before.casting ?? '') === plain(written.casting ?? '');
      return isSame ? 'same' : 'other';
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
