import { describe, expect, test } from 'vitest';
import { newCollection } from '../../helpers/collections.ts';
import { fileOf, lookAt, take } from './importing.ts';

const reference =
  'maker,series,casting,year,release,colour,rear_end,roof,interior,wheels,accessory\n' +
  'Quillon Toys,Lane,Otter Wagon,1968,First Run,Plum,2 lamps,black,white,deep dish,canopy\n' +
  'Quillon Toys,Lane,Otter Wagon,1973,Afterglow,Butter Enamel,3 lamps,body colour,brown,deep dish,canopy\n' +
  'Quillon Toys,Lane,Tern Coupe,1969,,Ember Red,fins,black,tan,small cap,\n' +
  'Quillon Toys,Lane,Tern Coupe,1969,,Limewash,no fins,black,tan,small cap,\n';

const read = async (list: string) => {
  const collection = await newCollection();
  await take(collection, fileOf(reference), { as: 'reference' });
  const { rows = [] } = await take(collection, fileOf(list), { as: 'lot', rows: true, dryRun: true });
  return rows.map(({ line, fields, not }) => (not === null ? { line, ...fields } : { line, not }));
};

describe('remarks', () => {
  test('give the features that have no column of their own, and stay as they are', async () => {
    const [, first, second, third] = await read(
      'Car,Colour,Cond,Notes\nOtter Wagon,Plum,C8,"with canopy, black roof, white int."\n' +
        'Otter Wagon,Butter Enamel,C7,"Afterglow, made in Hong Kong, canopy gone"\nTern Coupe,red,C5,"without fins, small caps"\n',
    );
    expect(first).toMatchObject({
      accessory: 'canopy',
      roof: 'black',
      interior: 'white',
      notes: 'with canopy, black roof, white int.',
    });
    expect(second).toMatchObject({
      release_name: 'Afterglow',
      country: 'Hong Kong',
      missing_parts: 'accessory',
    });
    expect(third).toMatchObject({ colour: 'Ember Red', rear_end: 'no fins', wheels: 'small cap' });
  });

  test('in several columns are all read and saved, one below the other; a dash says nothing', async () => {
    const [, first, second] = await read(
      'Car,Colour,Comments,Details,Faults\nOtter Wagon,Plum,from a loft,black roof,-\nTern Coupe,Limewash,,,axle bent\n',
    );
    expect(first).toMatchObject({ roof: 'black', notes: 'from a loft\nblack roof' });
    expect(second).toMatchObject({ notes: 'axle bent' });
  });
});

test('other spellings of a casting’s own features are known by it', async () => {
  const rows = await read(
    'Car,Colour,Rear\nOtter Wagon,Plum,two lamp\nOtter Wagon,Plm,2-lamps\nTern Coupe,Limewash,with fins\n',
  );
  expect(rows.slice(1).map(row => 'rear_end' in row && row.rear_end)).toEqual(['2 lamps', '2 lamps', 'fins']);
});

test('names that stand alone above their rows name the cars of those, where no heading does', async () => {
  const rows = await read(
    'STOCK SHEET,,,\nColour,Details,Grade,Qty\nOTTER WAGON (1968),,,\nPlum,black roof,C8,2\n,,,\n' +
      'TERN COUPES,,,\nEmber Red,no fins,C6,1\nsubtotal,,,3\n',
  );
  expect(rows).toMatchObject([
    { line: 1, not: 'a title' },
    { line: 2, not: 'headings' },
    { line: 3, not: 'a sub-heading' },
    { line: 4, casting: 'Otter Wagon', release_year: 1968, roof: 'black', quantity: 2 },
    { line: 6, not: 'a sub-heading' },
    { line: 7, casting: 'Tern Coupe', colour: 'Ember Red', rear_end: 'no fins' },
    { line: 8, not: 'a total' },
  ]);
});

test('columns without headings: where the cars are kept, and the remarks behind', async () => {
  const collection = await newCollection();
  await take(collection, fileOf(reference), { as: 'reference' });
  const list =
    'Otter Wagon,Plum,7.5,£35.00,23/05/2021,"loft, tin 2",canopy missing\n' +
    'Tern Coupe,Ember Red,8,£48.50,04/06/2021,cabinet,"back quarter painted, black roof"\n' +
    'Otter Wagon,Plum,6,£14.00,30/10/2021,"loft, tin 3",white interior\n';
  const { columns } = await lookAt(collection, fileOf(list), { as: 'lot' });
  expect(columns.slice(5).map(({ ours }) => ours)).toEqual(['location', 'notes']);
});

test('a heading that was mapped is found where it stands alone on a line further down', async () => {
  const list = 'Car,Paid\nOtter Wagon,3\n\nWhich one it is\nTern Coupe\n';
  const { rows = [] } = await take(await newCollection(), fileOf(list), {
    as: 'lot',
    map: { 'Which one it is': 'notes' },
    rows: true,
    dryRun: true,
  });
  expect(rows.map(({ line, not, fields }) => [line, not ?? fields.casting ?? fields.notes])).toEqual([
    [1, 'headings'],
    [2, 'Otter Wagon'],
    [4, 'headings'],
    [5, 'Tern Coupe'],
  ]);
});

test('a place that stands alone above the cars in it is no car; a car whose name begins like one is', async () => {
  const list =
    'Garage shelf - top row\n1 otter wagon plum ok\n\nGarage shelf - bottom\n2 tern coupe ember red, no fins\n3 Box Lorry\nDrawer 3, left\n';
  const rows = await read(list);
  expect(rows.map(row => ('not' in row ? row.not : 'a car'))).toEqual([
    'a title',
    'a car',
    'a sub-heading',
    'a car',
    'a car',
    'a sub-heading',
  ]);
});
