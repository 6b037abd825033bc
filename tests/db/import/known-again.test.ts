import { expect, test } from 'vitest';
import { newCollection } from '../../helpers/collections.ts';
import { countOf, fileOf, newLot, take } from './importing.ts';

const first = 'No,Car,Colour,Cond\n1,Silver Kite,aqua,C6\n2,Dovecote Estate,cream,C8\n3,Tallow,red,C5\n';

test('two lists that both number from 1 do not hide each other’s cars, though they share castings', async () => {
  const collection = await newCollection();
  await take(collection, fileOf(first), { as: 'lot', lot: newLot('Mine') });
  const other = 'No,Car,Colour,Cond\n1,Silver Kite,aqua,C9\n2,Dovecote Estate,green,C8\n3,Tallow,red,C5\n';
  const {
    accepted,
    duplicates,
    rows = [],
  } = await take(collection, fileOf(other), {
    as: 'lot',
    lot: newLot('Of my uncle'),
    rows: true,
  });
  // The third row says all that the other list's third says, number and all.
  expect([accepted, duplicates]).toEqual([2, 1]);
  expect(rows.filter(row => row.outcome === 'accepted').flatMap(row => row.unread)).toEqual([
    { column: 'No', text: '1' },
    { column: 'No', text: '2' },
  ]);
  expect(rows.find(row => row.outcome === 'duplicate')?.note).toMatch(/number 3 and what else the row says/);
  expect(countOf(collection, 'car')).toBe(5);
});

test('the same list into the same lot is known again, and one car of it that was changed since', async () => {
  const collection = await newCollection();
  await take(collection, fileOf(first), { as: 'lot', lot: newLot('Mine') });
  collection.write.sqlite
    .prepare(
      "UPDATE car SET grade_half = 12, location = 'Loft', updated_at = '2030-01-01T00:00:00Z' WHERE inventory_number = '3'",
    )
    .run();
  const again = await take(collection, fileOf(first), { as: 'lot', lot: newLot('Mine') });
  expect([again.accepted, again.duplicates]).toEqual([0, 3]);
  expect(again.notes).toContain(
    '3 rows are of cars that the collection has already, by their number and what else they say, or by all that they say where they have no number: lines 2, 3 and 4. Nothing of those was changed.',
  );
});

test('another car of the same number, casting and lot is taken, with its number told as not its own', async () => {
  const collection = await newCollection();
  await take(collection, fileOf(first), { as: 'lot', lot: newLot('Mine') });
  const more = 'No,Car,Colour,Cond\n1,Silver Kite,honey,C6\n';
  const { accepted, rows = [] } = await take(collection, fileOf(more), {
    as: 'lot',
    lot: newLot('Mine'),
    rows: true,
  });
  expect(accepted).toBe(1);
  expect(rows.at(-1)?.note).toMatch(/number 1 belongs to another car/);
});
