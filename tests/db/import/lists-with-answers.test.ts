import { expect, test } from 'vitest';
import { fileOf, newLot, take } from './importing.ts';
import { knowing, rowsOf } from './strangers.ts';

const colours = { Ashlock: 'Ember', Kelderwick: 'Rosehip', Pellbrook: 'Damson', Thistlemere: 'Candlewick' };

const judged = async (csv: string) => {
  const { rows = [] } = await take(await knowing(colours), fileOf(csv), {
    as: 'lot',
    lot: newLot('Loft'),
    rows: true,
  });
  return rows.filter(({ not }) => not !== 'headings');
};

test('a list of ticks tells which cars are there, and what of their paint', async () => {
  const { rows } = await rowsOf(await knowing(colours), 'strangers/tick-list.csv');
  expect(rows.slice(1)).toMatchObject([
    {
      outcome: 'accepted',
      fields: { casting: 'Ashlock', finish_state: 'original', packaging: 'TRUE', own_estimate: 85 },
      unread: [],
    },
    { outcome: 'accepted', fields: { casting: 'Kelderwick', finish_state: 'restored' }, unread: [] },
    { outcome: 'rejected', not: 'not yours' },
    { outcome: 'accepted', fields: { casting: 'Thistlemere' }, unread: [{ column: 'Original paint' }] },
  ]);
  expect(rows[1]?.fields).not.toHaveProperty('wheels');
  expect(rows[4]?.fields).not.toHaveProperty('finish_state');
});

test('what was cancelled, sent back or sold is not taken as a car of theirs until they say so', async () => {
  const { rows } = await rowsOf(await knowing(colours), 'strangers/order-history.csv');
  expect(rows.slice(1)).toMatchObject([
    {
      outcome: 'accepted',
      fields: { casting: 'Ashlock', status: 'kept', bought_on: '2024-03-14' },
      unread: [],
    },
    { outcome: 'accepted', fields: { casting: 'Kelderwick', status: 'kept' } },
    { outcome: 'rejected', column: 'Status', unread: [{ column: 'Status', text: 'Refunded' }] },
    { outcome: 'rejected', not: 'not a car' },
  ]);
  const status = await judged('Car,Status,Sold for\nAshlock,Sold,\nKelderwick,Sold,$20\nPellbrook,stolen,\n');
  expect(status.map(({ outcome }) => outcome)).toEqual(['rejected', 'accepted', 'rejected']);
  const ticked = await judged(
    'Car,Sold?,Sold for,Sold on\nAshlock,yes,,\nKelderwick,yes,$20,2021-05-04\nPellbrook,no,,\n',
  );
  expect(ticked.map(({ outcome }) => outcome)).toEqual(['rejected', 'accepted', 'accepted']);
  expect(ticked[1]?.fields).toMatchObject({ sold_for: 20, sold_on: '2021-05-04' });
});

test('a row of which the list has none is no car, and one that is blank among ticks neither', async () => {
  const counts = await judged('Car,Own,Colour\nAshlock,2,Ember\nKelderwick,0,Rosehip\n');
  expect(counts).toMatchObject([
    { outcome: 'accepted', fields: { quantity: 2 } },
    { outcome: 'rejected', not: 'not yours' },
  ]);
  const ticks = await judged('Have?,Car\nx,Ashlock\n,Kelderwick\n');
  expect(ticks.map(({ outcome }) => outcome)).toEqual(['accepted', 'rejected']);
  // Under "Have" the cars themselves may stand.
  const names = await judged('Have,Colour\nAshlock,Ember\nKelderwick,Rosehip\n');
  expect(names).toMatchObject([{ fields: { casting: 'Ashlock' } }, { fields: { casting: 'Kelderwick' } }]);
});

test('numbers under "Item" are the cars’ own where another column has the names', async () => {
  const { rows } = await rowsOf(await knowing(colours), 'strangers/schedule.csv');
  const cars = rows.filter(({ outcome }) => outcome === 'accepted');
  expect(cars.map(({ fields }) => fields)).toMatchObject([
    { inventory_number: '1', casting: 'Ashlock', colour: 'Ember', bought_on: '1998-12-16' },
    { inventory_number: '2', casting: 'Kelderwick', packaging: 'box' },
    { inventory_number: '3', casting: 'Pellbrook', colour: 'Damson' },
  ]);
  // "Unknown" says as much as a blank cell.
  expect(cars.map(({ unread }) => unread)).toEqual([[], [], []]);
  expect(rows.at(-1)).toMatchObject({ outcome: 'rejected', not: 'not a car' });
  // Where nothing else says what a car is, its number may be what it is called.
  expect(await judged('Item,Colour\n101,Ember\n102,Rosehip\n')).toMatchObject([
    { fields: { casting: '101' } },
    { fields: { casting: '102' } },
  ]);
});

test('"Where" is a shop or a shelf by its cells, "For" behind a day of sale what it brought', async () => {
  const { rows } = await rowsOf(await knowing(colours), 'strangers/where-and-for.csv');
  expect(rows.slice(1)).toMatchObject([
    { fields: { seller: 'car boot', grade: 5 }, unread: [{ column: 'Grade', text: 'repaint' }] },
    { fields: { seller: 'charity shop', sold_on: '2019-06-02', sold_for: 18 }, unread: [] },
    { fields: { seller: 'a toy fair', grade: 8 }, unread: [{ column: 'Grade', text: 'small chip' }] },
  ]);
  const kept = await judged('Car,Where\nAshlock,Shelf 3\nKelderwick,loft box\n');
  expect(kept).toMatchObject([{ fields: { location: 'Shelf 3' } }, { fields: { location: 'loft box' } }]);
});

test('what a heading says of the box is no grade of the car', async () => {
  const [row] = await judged('Car,Cond. (car),Cond. (box),Loose/Carded\nAshlock,C7,C5,Carded\n');
  expect(row?.fields).toMatchObject({ grade: 7, packaging_grade: 5, packaging: 'Carded' });
});

test('a table that lies on its side is refused with what to do, and one that stands is not', async () => {
  const sideways =
    'Name,Ashlock,Kelderwick\nColour,Ember,Rosehip\nCondition,C7,C6\nPaid,$20,$15\nNotes,,axle bent\n';
  await expect(judged(sideways)).rejects.toThrow(/headings seem to be in the first column.*transposed/);
  await expect(judged('Tag,Which\nB-1,44\nB-2,45\n')).rejects.toThrow(/No column gives casting/);
});

test('a list of sales says itself what was not sold, and "Sold" is a price by its cells', async () => {
  const sales = async (csv: string) => {
    const { rows = [] } = await take(await knowing(colours), fileOf(csv), { as: 'sales', rows: true });
    return rows.filter(({ not }) => not !== 'headings');
  };
  const ticked = await sales(
    'date,title,price,sold\n2024-05-01,Ashlock Ember,$34.99,true\n2024-05-02,Kelderwick Rosehip,$22.50,false\n',
  );
  expect(ticked).toMatchObject([
    { outcome: 'accepted', fields: { casting: 'Ashlock', price: 34.99 } },
    { outcome: 'rejected', not: 'not sold' },
  ]);
  const show = await sales(
    'When,Item,Asking,Sold\n2024-01-03,Ashlock Ember C7,$60,$48\n2024-01-03,Kelderwick Rosehip C6,$45,passed\n',
  );
  expect(show).toMatchObject([
    { outcome: 'accepted', fields: { casting: 'Ashlock', price: 48, grade: 7 } },
    { outcome: 'rejected', not: 'not sold' },
  ]);
});

test('"ditto" says what stands above it, cell by cell, and names no car', async () => {
  const rows = await judged(
    'No;Car;Colour;Where kept;Paid\n1;Ashlock;Ember;Study;$5\n2;ditto;;"""";$7\n3;as above;do.;Loft;same\n4;"Ditto, but C8";Rosehip;;\n',
  );
  expect(rows.map(({ fields }) => fields)).toMatchObject([
    { inventory_number: '1', casting: 'Ashlock', colour: 'Ember', location: 'Study', price_paid: 5 },
    { inventory_number: '2', casting: 'Ashlock', location: 'Study', price_paid: 7 },
    { inventory_number: '3', casting: 'Ashlock', location: 'Loft', price_paid: 7 },
    { inventory_number: '4', colour: 'Rosehip' },
  ]);
  const estate = await judged(
    'No,Particulars,Cond’n\n1,"Ashlock saloon (ember), in box",Good\n2,"As above, but greengage",Fair\n3,"Three others, damaged",Poor\n',
  );
  expect(estate.map(({ fields }) => fields.casting)).toEqual(['Ashlock', undefined, undefined]);
  expect(estate.map(({ unread }) => unread.map(({ column }) => column))).toEqual(
    Array.from({ length: 3 }, () => expect.arrayContaining(['Cond’n'])),
  );
});

test('what one of several cost is told by its heading, and how many there are beside other words', async () => {
  const rows = await judged(
    'Item #,Description,Qty on hand,Unit cost,Base metal?\n77,Ashlock Ember grade 7,3,$6.50,no\n78,Parts - axles (bag of 50),2,$4,no\n',
  );
  expect(rows).toMatchObject([
    { fields: { inventory_number: '77', casting: 'Ashlock', quantity: 3, price_paid: 6.5 } },
    { outcome: 'rejected', not: 'not a car' },
  ]);
  expect(rows[0]?.note).toContain('was paid for each of the 3 cars');
  expect(rows[0]?.fields).not.toHaveProperty('base_paint');
});

test('a text with a label on each line is read record by record, and nothing of it is lost', async () => {
  const { rows, notes } = await rowsOf(await knowing(colours), 'strangers/labelled.txt');
  expect(notes).toContain('"My cars, June" above the first record is not read.');
  expect(rows.filter(({ outcome }) => outcome === 'accepted')).toMatchObject([
    {
      line: 3,
      fields: {
        casting: 'Ashlock',
        colour: 'Ember',
        grade: 7,
        price_paid: 20,
        notes: 'bought at the fair with Kelderwick\none axle bent',
      },
    },
    { line: 10, fields: { casting: 'Kelderwick', colour: 'Rosehip', grade: 6 } },
    { line: 13, fields: { casting: 'Pellbrook', colour: 'Damson', notes: 'needs a screen' } },
  ]);
  // A column of such texts among others is none.
  const csv = await judged('Car,Notes\nAshlock,Colour: Ember\nKelderwick,Paid: $5\n');
  expect(csv).toMatchObject([{ fields: { casting: 'Ashlock' } }, { fields: { casting: 'Kelderwick' } }]);
});

test('what a lot cost is no car’s price, a row of years and the origin of a box are no cars', async () => {
  const lots = await judged('Lot,Paid for lot,Car\nA,$50,Ashlock\nA,,Kelderwick\n');
  expect(lots.map(({ fields }) => fields.price_paid)).toEqual([undefined, undefined]);
  const years = await judged('Cars by year\n,1966,1967\nAshlock,Ember,\nKelderwick,,Rosehip\n');
  expect(years.filter(({ outcome }) => outcome === 'accepted').map(({ fields }) => fields.casting)).toEqual([
    'Ashlock',
    'Kelderwick',
  ]);
  const boxes = await judged(
    'Box 1 - from Dad\nAshlock - ember - C6\nKelderwick - rosehip\nBox 2: bought at a fair\nPellbrook - damson\n',
  );
  expect(boxes.filter(({ outcome }) => outcome === 'accepted')).toHaveLength(3);
});

test('a register of assets tells what was disposed of, and its names with colours are both', async () => {
  const rows = await judged(
    'asset_id,asset_name,acquisition_date,acquisition_cost,currency,disposed,disposal_date,disposal_proceeds\n' +
      '1,Ashlock / Ember,2019-01-01,20,GBP,N,,\n2,Kelderwick / Rosehip,2019-01-01,15,GBP,Y,2021-01-01,28\n',
  );
  expect(rows.map(({ fields }) => fields)).toMatchObject([
    {
      inventory_number: '1',
      casting: 'Ashlock',
      colour: 'Ember',
      price_paid: 20,
      price_paid_currency: 'GBP',
    },
    { inventory_number: '2', casting: 'Kelderwick', colour: 'Rosehip', sold_on: '2021-01-01', sold_for: 28 },
  ]);
});
