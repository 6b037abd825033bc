import { describe, expect, test } from 'vitest';
import { onlyColourWith } from '../../../valuation/reading/plain-colour.ts';
import { makeLexicon } from '../../../valuation/reading/sale-line/lexicon.ts';
import { readSaleLine } from '../../../valuation/reading/sale-line/read-sale-line.ts';
import { shownByLines } from '../../../valuation/reading/sale-line/shown-by-lines.ts';
import { readParts } from '../../../valuation/reading/words.ts';

const casting = (id: number, name: string, features: Record<string, string[]>) => ({
  id,
  name,
  maker: 'Quillon Toys',
  series: 'Lane',
  releases: [{ name: '', year: 1970 }],
  features,
});
const lexicon = makeLexicon([
  casting(1, 'Otter Buggy', {
    colour: ['Plum', 'Ember Red'],
    accessory: ['surfboards'],
    wheels: ['deep dish', 'small cap'],
    interior: ['white', 'champagne'],
    glazing: ['clear', 'blue tint'],
    country: ['Hong Kong', 'USA'],
    rearEnd: ['louvres', '2 lamps', 'no fins'],
    roof: ['body colour', 'black'],
  }),
  casting(2, 'Tern Coupe', { colour: ['Barn Red', 'Lime'] }),
]);
const lineOf = (text: string, shown = {}) =>
  readSaleLine(text, lexicon, {
    currency: 'USD',
    orders: {},
    today: '2026-11-27',
    day: null,
    price: null,
    ...shown,
  });
const read = (text: string, shown = {}) => {
  const { fields, unread } = lineOf(text, shown);
  return { ...fields, unread: unread.map(({ text: left }) => left) };
};

test('a line is read the same however often it is read', () => {
  const texts = ['Otter Buggy, small cap wheels, surfboards are repro', 'Otter Buggy, surfboards repro'];
  const first = texts.map(text => read(text));
  for (let time = 0; time < 3; time++) expect(texts.map(text => read(text))).toEqual(first);
  expect(first[1]).toMatchObject({ reproduction_parts: 'accessory', unread: [] });
});

describe('packaging', () => {
  test.each([
    ['Otter Buggy boxed C8', { packaging: 'box', grade: '8' }],
    ['Otter Buggy C8 box C6', { packaging: 'box', packaging_grade: '6', grade: '8' }],
    ['Otter Buggy C8 (box C6.5)', { packaging: 'box', packaging_grade: '6.5', grade: '8' }],
    ['Otter Buggy, C7, in original box', { packaging: 'box', grade: '7' }],
    ['Otter Buggy on its card, C9', { packaging: 'card', grade: '9' }],
    ['Otter Buggy C8 repro box', { packaging: 'reproduction box', grade: '8' }],
  ])('%s', (text, fields) => {
    const line = read(text);
    expect(line).toMatchObject(fields);
    if (!('packaging_grade' in fields)) expect(line).not.toHaveProperty('packaging_grade');
  });
  test.each(['Otter Buggy C8, no box', 'Otter Buggy kept in box 4', 'Otter Buggy needs a box'])(
    '%s: none is there',
    text => expect(read(text)).not.toHaveProperty('packaging'),
  );
});

describe('metal', () => {
  test.each([
    ['Otter Buggy, small dent in roof, C6', 'small dent in roof'],
    ['Otter Buggy cracked post', 'cracked post'],
    ['Otter Buggy, metal rot on base', 'metal rot on base'],
  ])('%s', (text, metal) => expect(read(text)).toMatchObject({ metal }));
  test.each(['Otter Buggy, crack in windscreen', 'Otter Buggy, no dents', 'Otter Buggy cracked glass'])(
    '%s: nothing of the metal',
    text => expect(read(text)).not.toHaveProperty('metal'),
  );
});

test('single parts are counted with their part', () => {
  expect(read('Otter Buggy, 1 repro wheel')).toMatchObject({ reproduction_parts: 'wheels', unread: [] });
  expect(read('Otter Buggy, two of the four wheels missing')).toMatchObject({ missing_parts: 'wheels' });
  // What became of the fourth is not said.
  expect(read('Otter Buggy, three wheels original')).toEqual({
    casting: 'Otter Buggy',
    unread: ['three wheels original'],
  });
});

test.each([
  ['front left wheel missing', 'missing_parts', 'front left wheel'],
  ['missing left rear wheel', 'missing_parts', 'rear left wheel'],
  ['both front wheels repro', 'reproduction_parts', 'front left wheel,front right wheel'],
  ['rear wheels repro', 'reproduction_parts', 'rear left wheel,rear right wheel'],
  // Which of the two is not said.
  ['one front wheel missing', 'missing_parts', 'wheels'],
  ['2 repro wheels', 'reproduction_parts', 'wheels'],
])('wheels that are told by their places are those: %s', (text, field, parts) => {
  expect(read(`Otter Buggy, ${text}`)).toMatchObject({ [field]: parts, unread: [] });
  const cell = text.replace(/ ?(?:missing|repro) ?/, ' ').trim();
  expect(readParts(cell)).toMatchObject({ ok: true, value: parts.split(',') });
});

test.each([
  ['Otter Buggy C nine', '9'],
  ['Otter Buggy condition eight', '8'],
  ['Otter Buggy seven and a half out of ten', '7.5'],
  ['Otter Buggy VIII/X', '8'],
])('a grade in words is one where a grade stands: %s', (text, grade) =>
  expect(read(text)).toMatchObject({ grade }),
);
test('a number in words alone is no grade', () =>
  expect(read('Otter Buggy nine')).not.toHaveProperty('grade'));

test('a colour’s bare word is the casting’s colour only where the whole reference has no other with it', () => {
  expect(onlyColourWith('red', ['Plum', 'Ember Red'], new Set(['plum', 'ember red', 'lime']))).toBe(
    'Ember Red',
  );
  expect(onlyColourWith('rot', ['Plum', 'Ember Red'], new Set(['plum', 'ember red']))).toBe('Ember Red');
  expect(onlyColourWith('red', ['Ember Red'], new Set(['ember red', 'barn red']))).toBeUndefined();
  expect(read('Otter Buggy red')).toMatchObject({ colour: 'red' });
});

test('features are known in other languages, spellings and short forms of their own', () => {
  expect(read('Otter Buggy, Dach in Wagenfarbe, Glas klar')).toMatchObject({
    roof: 'body colour',
    glazing: 'clear',
  });
  expect(read('Otter Buggy louvers, champ int, clr glass, HK')).toMatchObject({
    rear_end: 'louvres',
    interior: 'champagne',
    glazing: 'clear',
    country: 'Hong Kong',
  });
  expect(read('Otter Buggy, blue tint, two tail lamps, zwart dak')).toMatchObject({
    glazing: 'blue tint',
    rear_end: '2 lamps',
    roof: 'black',
  });
  expect(read('Otter Buggy, sold in Hong Kong')).not.toHaveProperty('country');
});

describe('lines show of each other', () => {
  const bare = ['Otter Buggy plum, 7.5', 'Otter Buggy plum - 6', 'Tern Coupe lime 8'];
  test('that a figure alone is a grade, where three have one and one is a half', () => {
    const shown = shownByLines(
      bare.map(text => lineOf(text)),
      [],
    );
    expect(shown.bareGrades).toBe(true);
    expect(bare.map(text => read(text, shown).grade)).toEqual(['7.5', '6', '8']);
    expect(read('Otter Buggy plum, drawer 4', shown)).not.toHaveProperty('grade');
    expect(read('Otter Buggy plum 7, 8', shown)).not.toHaveProperty('grade');
  });
  test('and nothing of it where they are few, or may be of five', () => {
    expect(
      shownByLines(
        bare.slice(0, 2).map(text => lineOf(text)),
        [],
      ).bareGrades,
    ).toBe(false);
    const low = ['Otter Buggy plum, 3', 'Otter Buggy plum, 4', 'Tern Coupe lime, 5', 'Tern Coupe C4'];
    expect(
      shownByLines(
        low.map(text => lineOf(text)),
        [],
      ).bareGrades,
    ).toBe(false);
  });
  test('which texts are places, since another line says “at” before them', () => {
    const lines = ['Otter Buggy plum C7 at Gavelby', 'Gavelby | Tern Coupe lime C6'];
    const shown = shownByLines(
      lines.map(text => lineOf(text)),
      [],
    );
    expect(lines.map(text => read(text, shown))).toMatchObject([
      { source: 'Gavelby' },
      { source: 'Gavelby', unread: [] },
    ]);
    expect(read('Otherby | Tern Coupe lime C6', shown)).not.toHaveProperty('source');
  });
});

test('a word of the owner’s is not looked for in the name of a place', () => {
  const fair = { column: '*', text: 'fair', field: 'grade', meaning: 'C4' };
  const own = makeLexicon([...lexicon.castings.values()], [fair]);
  const said = (text: string) =>
    readSaleLine(text, own, { currency: 'USD', orders: {}, today: '2026-11-27' }).fields;
  expect(said('Otter Buggy plum C7 - £34, Penford fair 2025-10-12')).toMatchObject({
    grade: '7',
    source: 'Penford fair',
  });
  expect(said('Otter Buggy plum £34 Penford Toy Fair 2025-10-12')).not.toHaveProperty('grade');
  expect(said('Otter Buggy plum, fair, £14.00, 2025-12-20')).toMatchObject({ grade: '4' });
  expect(said('Otter Buggy fair, £14.00, 2025-12-20')).toMatchObject({ grade: '4' });
});

test.each(['Otter Buggy II', 'Otter Buggy Mk 2', 'Otter Buggy Mk IV, C7'])(
  'a name that goes on with a number is that of another car: %s',
  text => expect(read(text)).not.toHaveProperty('casting'),
);
test('a mark of ten behind a name is a grade', () =>
  expect(read('Otter Buggy VIII/X')).toMatchObject({ casting: 'Otter Buggy', grade: '8' }));
