import { expect, test } from 'vitest';
import { newCollection } from '../../helpers/collections.ts';
import { fileOf, newLot, take } from './importing.ts';
import { knowing, rowsOf } from './strangers.ts';

test('what an owner wants is none of their cars, and a name with a known colour behind it is both', async () => {
  const collection = await knowing({
    Ashlock: 'Ember',
    Kelderwick: 'Rosehip',
    Pellbrook: 'Honeycomb',
    Osmerry: 'Harebell',
  });
  const { rows } = await rowsOf(collection, 'strangers/have-want.csv');
  expect(rows.filter(({ outcome }) => outcome === 'accepted').map(({ fields }) => fields)).toMatchObject([
    { casting: 'Ashlock', colour: 'Ember', grade: 7, own_estimate: 30 },
    { casting: 'Kelderwick', colour: 'Rosehip', quantity: 2 },
    { casting: 'Pellbrook', colour: 'Honeycomb' },
    { casting: 'Osmerry', colour: 'Harebell' },
  ]);
});

test('a condition that is told in sentences is remarks, and is read for what is certain in it', async () => {
  const collection = await knowing({ Ashlock: 'Ember', Kelderwick: 'Rosehip', 'Night Parcel': 'Damson' });
  const { rows } = await rowsOf(collection, 'strangers/in-sentences.csv');
  const [first, , third, fourth] = rows.filter(({ outcome }) => outcome === 'accepted');
  expect(first?.fields).toMatchObject({
    casting: 'Ashlock',
    colour: 'Ember',
    notes: 'body 7, wheels 8, glass cracked, base 9',
  });
  expect(first?.fields).not.toHaveProperty('grade');
  expect(third?.fields).toMatchObject({ packaging: 'box', packaging_grade: 5 });
  expect(fourth?.unread.map(({ text }) => text)).toContain('repainted green');
});

test('rooms and the title of an inventory are no cars', async () => {
  const collection = await knowing({ Ashlock: 'Ember', Larkhythe: 'Harebell' });
  const { rows } = await rowsOf(collection, 'strangers/estate.txt');
  expect(rows.flatMap(({ line, not }) => (not === null ? [] : [[line, not]]))).toEqual([
    [1, 'a title'],
    [3, 'a sub-heading'],
    [9, 'a sub-heading'],
    [13, 'not a car'],
    [15, 'a total'],
  ]);
  expect(rows.find(({ line }) => line === 10)?.fields).toEqual({
    casting: 'Larkhythe',
    colour: 'Harebell',
    packaging: 'box',
  });
});

test('short headings are known, and what they leave open is not guessed', async () => {
  const { rows } = await rowsOf(await newCollection(), 'strangers/short-forms.csv');
  const cars = rows.filter(({ outcome }) => outcome === 'accepted').map(({ fields }) => fields);
  expect(cars[1]).toMatchObject({ release_year: 1969, bought_on: '2004-12-15', seller: 'mail order' });
  expect(cars.map(({ packaging }) => packaging ?? null)).toEqual([
    null,
    'MOC',
    'MIP',
    null,
    'custom box',
    null,
  ]);
  for (const car of cars) expect(car).not.toHaveProperty('wheels');
  const swiss = await rowsOf(await newCollection(), 'strangers/swiss.csv');
  expect(
    swiss.rows.filter(({ outcome }) => outcome === 'accepted').map(({ fields }) => fields),
  ).toMatchObject([
    { release_year: 1969, price_paid: 12, price_paid_currency: 'CHF', seller: 'Börse Wil', packaging: 'ja' },
    { price_paid: 5, missing_parts: 'glazing' },
    { price_paid: 1150, packaging: 'OVP' },
    { seller: 'Götti' },
    { release_year: 1971, seller: 'Tausch' },
  ]);
});

test('the order of dates that a heading gives holds, unless its own cells speak against it', async () => {
  const given = async (heading: string, days: string[]) => {
    const list = fileOf(`Car,${heading}\n${days.map(day => `Osmerry,${day}`).join('\n')}\n`);
    const {
      rows = [],
      questions,
      learned,
    } = await take(await newCollection(), list, {
      as: 'lot',
      lot: newLot('Fair'),
      dryRun: true,
      rows: true,
    });
    const bought = rows.slice(1).map(({ fields }) => fields.bought_on ?? null);
    return { bought, asked: questions.length, from: learned[0]?.from };
  };
  expect(await given('Date bought (MM/DD/YYYY)', ['04/05/2019'])).toEqual({
    bought: ['2019-04-05'],
    asked: 0,
    from: 'its heading',
  });
  expect(await given('Date bought dd.mm.yy', ['04.05.19'])).toMatchObject({
    bought: ['2019-05-04'],
    asked: 0,
  });
  expect(await given('Date bought (MM/DD/YYYY)', ['04/05/2019', '13/05/2019'])).toMatchObject({
    bought: [null, '2019-05-13'],
    asked: 1,
  });
  expect(await given('Date bought', ['04/05/2019', '13/05/2019'])).toMatchObject({
    bought: ['2019-05-04', '2019-05-13'],
    asked: 0,
    from: 'its cells',
  });
});

test('headings that say much are known, and where a part sits is no other part', async () => {
  const { rows } = await rowsOf(await newCollection(), 'strangers/long-headings.csv');
  const cars = rows.filter(({ outcome }) => outcome === 'accepted').map(({ fields }) => fields);
  expect(cars).toMatchObject([
    {
      casting: 'Ashlock',
      finish_state: 'original',
      price_paid: 12,
      own_estimate: '25-35',
      location: 'Cabinet A',
    },
    { casting: 'Kelderwick', notes: 'stripped 2020, repaint planned', missing_parts: 'glazing' },
    { casting: 'Night Parcel', finish_state: 'original' },
    { casting: 'Marram', missing_parts: 'wheels,axles' },
  ]);
});

test('the number of a line is none of its words', async () => {
  const collection = await knowing({ Ashlock: 'Ember', Kelderwick: 'Honeycomb', Vanewright: 'Rosehip' });
  const { rows } = await rowsOf(collection, 'strangers/numbered.txt');
  expect(rows.find(({ line }) => line === 1)?.unread.map(({ text }) => text)).toEqual(['good']);
  expect(rows.find(({ line }) => line === 10)?.fields).toMatchObject({ quantity: 3 });
});

test('parts and their colours are read in German', async () => {
  const collection = await knowing({ Ashlock: 'Ember', Kelderwick: 'Rosehip', Drystone: 'Harebell' });
  const { rows } = await rowsOf(collection, 'strangers/german-parts.csv');
  const [first, second, third] = rows
    .filter(({ outcome }) => outcome === 'accepted')
    .map(({ fields }) => fields);
  expect(first).toMatchObject({
    casting: 'Ashlock',
    interior: 'elfenbein',
    glazing: 'klar',
    finish_state: 'original',
  });
  expect(second).not.toHaveProperty('glazing');
  expect(second).toMatchObject({ price_paid: 9.5, price_paid_currency: 'EUR' });
  expect(third).toMatchObject({ missing_parts: 'glazing', reproduction_parts: 'wheels' });
});
