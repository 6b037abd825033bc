import { expect, test } from 'vitest';
import type { Collection } from '../../../db/collection.ts';
import { newCollection } from '../../helpers/collections.ts';
import { fileOf, lookAt, take } from './importing.ts';

const partsOf = (collection: Collection, number: string): Record<string, string> => {
  const rows = collection.write.sqlite
    .prepare(
      `SELECT part, part_grade.grade_half, originality, note FROM part_grade JOIN condition_check c ON c.id = check_id
       JOIN car ON car.id = c.car_id WHERE car.inventory_number = ? ORDER BY part`,
    )
    .all(number) as { part: string; grade_half: number | null; originality: string; note: string }[];
  return Object.fromEntries(
    rows.map(({ part, grade_half, originality, note }) => [
      part,
      [grade_half === null ? '' : `C${grade_half / 2}`, originality === 'original' ? '' : originality, note]
        .filter(Boolean)
        .join(', '),
    ]),
  );
};

test('a list says of metal, single wheels, opening parts, bumpers, lamps and packaging how they are', async () => {
  const collection = await newCollection();
  const { notUnderstood } = await take(
    collection,
    fileOf(
      'No,Car,Cond,Metal,FL wheel,RR wheel,Axles,Doors,Bumper,Headlights,Stickers,Box,Box condition,Mark\n' +
        'K1,Lantern Van,6,"dented, C4",8,missing,bent,6,repro,C5,gone,yes,7,\n' +
        'K2,Lantern Van,5,,,,,,no,,,reproduction card,,R.T. inside\n' +
        'K3,Lantern Van,5,,,,,,,,,no,,\n',
    ),
    { as: 'lot' },
  );
  expect(partsOf(collection, 'K1')).toEqual({
    'casting metal': 'C4, dented',
    'front left wheel': 'C8',
    'rear right wheel': 'missing',
    axles: 'bent',
    'opening parts': 'C6',
    bumpers: 'reproduction',
    lamps: 'C5',
    labels: 'missing',
    packaging: 'C7',
  });
  expect(partsOf(collection, 'K2')).toEqual({ packaging: 'reproduction, card' });
  expect(partsOf(collection, 'K3')).toEqual({});
  // Missing, or never there: it is asked.
  expect(notUnderstood.map(({ text }) => text)).toEqual(['no']);
  const notes = collection.write.sqlite
    .prepare("SELECT notes FROM car WHERE inventory_number = 'K2'")
    .pluck();
  expect(notes.get()).toBe('R.T. inside');
});

test('a box with numbers is a place, one with yes and no is what the car comes in', async () => {
  const collection = await newCollection();
  const meant = async (list: string) =>
    (await lookAt(collection, fileOf(list), { as: 'lot' })).columns.map(({ ours }) => ours);
  expect(await meant('Car,Box\nLantern Van,12\nTern Coupe,3\n')).toEqual(['casting', 'location']);
  expect(await meant('Car,Box\nLantern Van,yes\nTern Coupe,no\n')).toEqual(['casting', 'packaging']);
});

test('states of parts in one cell are read as the export writes them, and go before what a remark says', async () => {
  const collection = await newCollection();
  await take(
    collection,
    fileOf(
      'inventory_number,casting,parts,notes\n' +
        'K1,Lantern Van,"axles: C3; wheels: C8, reproduction; bumpers: missing; roof: original; packaging: C6, blister card",in its box\n' +
        'K2,Lantern Van,"fins: C3",\n',
    ),
    { as: 'lot' },
  );
  expect(partsOf(collection, 'K1')).toEqual({
    axles: 'C3',
    wheels: 'C8, reproduction',
    bumpers: 'missing',
    roof: '',
    packaging: 'C6, blister card',
  });
  expect(partsOf(collection, 'K2')).toEqual({});
});
