import { beforeEach, describe, expect, it } from 'vitest';
import type { Collection } from '../../../db/collection.ts';
import { listCars } from '../../../db/records/cars/cars.ts';
import { newCollection } from '../../helpers/collections.ts';
import { countOf, fileOf, fixture, lookAt, newLot, rejections, take } from './importing.ts';

let collection: Collection;
beforeEach(async () => {
  collection = await newCollection();
  await take(collection, fixture('club-list.csv'), { as: 'reference' });
});

const lot = newLot('Barn tin');

describe.each(['csv', 'xlsx'])('a lot kept by hand as %s', format => {
  const file = fixture(`barn-tin.${format}`);

  it('gives its cars, each with what is understood of it, and tells its line of totals', async () => {
    const result = await take(collection, file, { as: 'lot', lot });
    expect(result).toMatchObject({ accepted: 9, duplicates: 0, lot: { name: 'Barn tin' } });
    expect(rejections(result)).toEqual([[15, null, expect.stringContaining('totals')]]);
    const cars = await listCars(collection.read.db);
    expect(
      cars.map(car => [car.inventoryNumber, car.grade, car.location, car.notes, car.variationId !== null]),
    ).toEqual([
      ['1', 7.5, 'A1', '“as good as it gets”', true],
      ['2', 7, 'A1', 'axle bent', true],
      ['3', 7, '', 'café find – cheap', true],
      ['4', 6.5, 'A2', 'grade as the seller wrote it', false],
      ['5', 6.5, 'A2', '', false],
      ['6', null, '', 'no idea what this is', false],
      ['7', null, '', '', true],
      ['0001', 4, '', '', true],
      ['0002', 5, '', 'same number as another', false],
    ]);
    expect(
      result.notUnderstood.map(({ column, text, field, meaning, lines }) => [
        column,
        text,
        field,
        meaning,
        lines,
      ]),
    ).toEqual([
      ['Color', 'green?', 'colour', 'green', [10]],
      ['Condition', 'C11', 'grade', '', [11]],
    ]);
    const unread = collection.read.sqlite
      .prepare("SELECT unread FROM car WHERE unread <> '[]' ORDER BY id")
      .pluck()
      .all();
    expect(unread[1]).toBe('[{"column":"Condition","text":"C11","field":"grade"}]');
    expect(cars[0]?.asWritten).toEqual({
      casting: 'Bellmarsh Sweep',
      colour: 'Damson',
      base_paint: 'rear quarter',
    });
    expect(cars[5]).toMatchObject({
      castingId: null,
      asWritten: { casting: 'some estate car', colour: 'green?' },
    });
  });

  it('knows a colour that is shortened, and says which name the reference lacks', async () => {
    const { notes, unidentified } = await take(collection, file, { as: 'lot', lot });
    expect(unidentified).toBe(4);
    expect(notes.join('\n')).toContain('"some estate car" is not in the reference');
  });

  it('is known when it is imported again', async () => {
    await take(collection, file, { as: 'lot', lot });
    const again = await take(collection, file, { as: 'lot', lot });
    expect(again).toMatchObject({ accepted: 0, duplicates: 9 });
    expect(countOf(collection, 'car')).toBe(9);
    expect(countOf(collection, 'lot')).toBe(1);
  });

  it('is looked at with the same outcome, and nothing is taken by that', async () => {
    const preview = await lookAt(collection, file, { as: 'lot' });
    expect(preview).toMatchObject({
      headingLine: 3,
      rows: 10,
      counts: { accepted: 9, rejected: 1, duplicates: 0, unidentified: 4 },
    });
    expect(preview.columns.map(({ heading, ours, how }) => [heading, ours, how])).toEqual([
      ['No.', 'inventory_number', 'recognised'],
      ['Car', 'casting', 'recognised'],
      ['Color', 'colour', 'recognised'],
      ['Base', 'base_paint', 'recognised'],
      ['Condition', 'grade', 'recognised'],
      ['Shelf', 'location', 'recognised'],
      ['Notes', 'notes', 'same name'],
      ['Notes (2)', 'notes', 'same name'],
    ]);
    expect(preview.sample.find(row => row.line === 11)).toMatchObject({
      outcome: 'accepted',
      unread: [{ column: 'Condition', text: 'C11' }],
      values: { grade: 'C11', inventory_number: '7' },
    });
    expect(countOf(collection, 'car')).toBe(0);
  });
});

describe('a lot', () => {
  it('whose cars bring no numbers gives them the next free ones, and knows equal rows apart from doubles', async () => {
    const rows = 'casting,grade\nOsmerry,5\nOsmerry,5\nHalcyard,6\n';
    const first = await take(collection, fileOf(rows), { as: 'lot', lot });
    expect(first).toMatchObject({ accepted: 3, duplicates: 0 });
    const numbers = (await listCars(collection.read.db)).map(car => car.inventoryNumber);
    expect(new Set(numbers).size).toBe(3);
    const more = await take(collection, fileOf(`${rows}Osmerry,5\n`), { as: 'lot', lot });
    expect(more).toMatchObject({ accepted: 1, duplicates: 3 });
  });

  it('mixes rows with and without numbers without giving one twice', async () => {
    await take(collection, fileOf('casting,no\nOsmerry,Q-1\n'), { as: 'lot', lot });
    const mixed = await take(collection, fileOf('casting,no\nHalcyard,\nIsobar,Q-2\nAshlock,\n'), {
      as: 'lot',
      lot,
    });
    expect(mixed.accepted).toBe(3);
    const numbers = (await listCars(collection.read.db)).map(car => car.inventoryNumber);
    expect(new Set(numbers).size).toBe(4);
  });

  it('has cells that run on beyond its headings joined to a last remark, and missing ones read as blank', async () => {
    const ragged = 'casting,colour,notes\nOsmerry\nHalcyard,Copperleaf,a,b\nIsobar,,c,,\n';
    const result = await take(collection, fileOf(ragged), { as: 'lot', lot });
    expect(result).toMatchObject({ accepted: 3, rejected: [], notUnderstood: [] });
    expect((await listCars(collection.read.db))[1]).toMatchObject({
      notes: 'a, b',
      asWritten: { colour: 'Copperleaf' },
    });
    // Where a number may have been cut in two, what stands behind the car's name is not told by its place.
    const cut = 'casting,price paid,notes\nIsobar,1,250,boxed\n';
    await take(collection, fileOf(cut), { as: 'lot', lot });
    const saved = collection.read.sqlite
      .prepare('SELECT cost_minor, notes, unread FROM car ORDER BY id DESC LIMIT 1')
      .get();
    expect(saved).toEqual({
      cost_minor: null,
      notes: '',
      unread: JSON.stringify([
        { column: 'price paid', text: '1', field: '' },
        { column: 'notes', text: '250', field: '' },
        { column: 'column 4', text: 'boxed', field: '' },
      ]),
    });
  });

  it('is refused whole where a quotation mark is never closed', async () => {
    const broken = `casting,notes\nOsmerry,"open\n${'Halcyard,x\n'.repeat(30_000)}`;
    const refusal = take(collection, fileOf(broken), { as: 'lot', lot });
    await expect(refusal).rejects.toThrow(/Line 2: a quotation mark is opened and not closed/);
    expect(countOf(collection, 'lot')).toBe(0);
  });

  it('has even a short unclosed quotation mark named, not swallowed', async () => {
    const broken = 'casting,notes\nOsmerry,"open\nHalcyard,x\nIsobar,y\n';
    await expect(take(collection, fileOf(broken), { as: 'lot', lot })).rejects.toThrow(/quotation mark/);
    expect(countOf(collection, 'car')).toBe(0);
  });

  it('takes a car whose status a list cannot give, and saves the cell as written', async () => {
    const rows = 'casting,status\nOsmerry,on loan\nHalcyard,donor\n,lent\n';
    const result = await take(collection, fileOf(rows), { as: 'lot', lot });
    expect(result.accepted).toBe(2);
    expect(rejections(result)).toEqual([
      [4, 'casting', expect.stringContaining('says nothing about the car')],
    ]);
    expect(result.notUnderstood).toMatchObject([{ column: 'status', text: 'on loan', lines: [2] }]);
    const saved = collection.write.sqlite.prepare('SELECT status, unread FROM car ORDER BY id').all();
    expect(saved).toEqual([
      { status: 'kept', unread: JSON.stringify([{ column: 'status', text: 'on loan', field: 'status' }]) },
      { status: 'donor', unread: '[]' },
    ]);
    const preview = await lookAt(collection, fileOf(rows), { as: 'lot' });
    expect(preview.sample[0]).toMatchObject({ unread: [{ column: 'status', text: 'on loan' }] });
  });

  it('of which no row can be read is not made', async () => {
    const result = await take(collection, fileOf('casting,grade\n,twelve\n'), { as: 'lot', lot });
    expect(result).toMatchObject({ accepted: 0 });
    expect(result.lot).toBeUndefined();
    expect(countOf(collection, 'lot')).toBe(0);
  });

  it('needs a casting column, and shows its columns to be mapped where there is none', async () => {
    const file = fileOf('Tag,Which\nB-1,44\n');
    await expect(take(collection, file, { as: 'lot', lot })).rejects.toThrow(/No column gives casting/);
    const preview = await lookAt(collection, file, { as: 'lot' });
    expect(preview.warnings[0]).toContain('No column gives casting');
    expect(preview.columns.map(column => column.samples)).toEqual([['B-1'], ['44']]);
    const mapped = await lookAt(collection, file, {
      as: 'lot',
      map: { Tag: 'inventory_number', which: 'casting' },
    });
    expect(mapped.counts.accepted).toBe(1);
    await expect(lookAt(collection, file, { as: 'lot', map: { Nothing: 'casting' } })).rejects.toThrow(
      'no heading "Nothing"',
    );
    await expect(lookAt(collection, file, { as: 'lot', map: { Tag: 'casing' } })).rejects.toThrow(
      'not one of our columns',
    );
    await expect(
      lookAt(collection, file, { as: 'lot', map: { Tag: 'casting', Which: 'casting' } }),
    ).rejects.toThrow('same column of ours');
  });

  it('says once that a second column of the same meaning is not read', async () => {
    const { warnings } = await lookAt(collection, fileOf('Car,Color,Colour\nOsmerry,a,b\n'), { as: 'lot' });
    expect(warnings.filter(warning => warning.includes('is not read'))).toHaveLength(1);
  });

  it('shows its columns while they are only half mapped', async () => {
    const file = fileOf('Tag,Which\nB-1,44\n');
    const preview = await lookAt(collection, file, { as: 'lot', map: { Tag: 'inventory_number' } });
    expect(preview.warnings[0]).toContain('No column gives casting');
    expect(preview.columns[0]).toMatchObject({ ours: 'inventory_number', how: 'chosen' });
  });

  it('keeps hostile text as text', async () => {
    const hostile =
      'casting,notes,__proto__,constructor\n"Robert\'); DROP TABLE car;--",<script>1</script>,x,y\n';
    const result = await take(collection, fileOf(hostile), { as: 'lot', lot });
    expect(result.accepted).toBe(1);
    const [car] = await listCars(collection.read.db);
    expect(car).toMatchObject({
      notes: '<script>1</script>',
      asWritten: { casting: "Robert'); DROP TABLE car;--" },
    });
    expect(({} as Record<string, unknown>).x).toBeUndefined();
  });
});
