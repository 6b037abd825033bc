import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { makeLexicon } from '../../../valuation/reading/sale-line/lexicon.ts';
import { dateOrdersOf } from '../../../valuation/reading/sale-line/price-and-day.ts';
import { readSaleLine } from '../../../valuation/reading/sale-line/read-sale-line.ts';
import { strangersLexicon, truthLines } from '../../helpers/strangers.ts';

const lexicon = strangersLexicon();
const habits = { currency: 'USD', orders: {}, today: '2026-11-27' };
const read = (text: string) => readSaleLine(text, lexicon, habits);

describe('any order of words', () => {
  const remarks = [
    '2026-05-01',
    '$40.50',
    'Corriemuir Coupe',
    'inkwell',
    'C7.5',
    'bar lamp',
    'repro wheels',
    'interior missing',
    'black textured roof',
    'Portugal base',
    'touched up',
    'rear quarter painted',
    '1969',
    'something else',
  ];
  test('says the same', () => {
    const all = read(remarks.join(', '));
    expect(Object.keys(all.fields)).toHaveLength(14);
    fc.assert(
      fc.property(
        fc.shuffledSubarray(remarks, { minLength: remarks.length }),
        fc.constantFrom(', ', '; ', ' | '),
        (order, between) => {
          const shuffled = read(order.join(between));
          expect(shuffled.fields).toEqual(all.fields);
          expect(shuffled.unread).toEqual(all.unread);
        },
      ),
    );
  });

  /** Whole lines as several hands write them: each fact in its writer's words. */
  const hands = [
    [
      '3 May 2026',
      'sold for $61.50',
      '1968 Brackenhall Van',
      'purple',
      'C8',
      'all original',
      'front quarter painted',
    ],
    ['2026-05-01', '£22', 'Sluice Rcr', 'embr', '7.5/10', 'repro whls', 'windscreen missing'],
    ['May 3/26', 'C$40.00', 'Corriemuir Coupe', 'inkwell', 'blk rf', 'C6.5', 'resto'],
    ['23.05.2026', '41,50 EUR', 'Pennyfeather', 'Zustand 7', 'Achsen fehlen', 'restauriert'],
  ];
  test.each(hands)('says the same, in all orders of the facts of a whole line: %s, %s, %s …', (...facts) => {
    const all = read(facts.join(', '));
    expect(all.not).toBeNull();
    expect(all.castingId).not.toBeNull();
    fc.assert(
      fc.property(
        fc.shuffledSubarray(facts, { minLength: facts.length }),
        fc.constantFrom(', ', '; ', ' | '),
        (order, between) => {
          const { fields, unread } = read(order.join(between));
          expect({ fields, unread: unread.map(({ text }) => text).sort() }).toEqual({
            fields: all.fields,
            unread: all.unread.map(({ text }) => text).sort(),
          });
        },
      ),
      { numRuns: 300 },
    );
  });

  test('never finds a value that the line does not have, whatever is written', () => {
    const pieces = truthLines().flatMap(({ text }) => text.split(/[,|;]/));
    fc.assert(
      fc.property(fc.array(fc.oneof(fc.constantFrom(...pieces), fc.string()), { maxLength: 8 }), parts => {
        const text = parts.join(', ');
        const { fields, spans, castingId } = read(text);
        expect(fields.casting === undefined).toBe(castingId === null);
        for (const { start, end } of spans)
          expect(0 <= start && start < end && end <= text.length).toBe(true);
      }),
    );
  });
});

test('without a reference the casting is not known, and everything else is read', () => {
  const empty = makeLexicon([]);
  const { fields, castingId } = readSaleLine(
    '2026-05-01 Silver Kite purple, two lamps, tan interior, full paint base, C7, restored, $40',
    empty,
    habits,
  );
  expect(castingId).toBeNull();
  expect(fields).toEqual({
    sold_on: '2026-05-01',
    price: '40.00',
    currency: 'USD',
    colour: 'purple',
    rear_end: 'two lamps',
    interior: 'tan',
    base_paint: 'full',
    grade: '7',
    finish_state: 'restored',
  });
});

test('the months of a file are told by the one line that proves them, for each sign by itself', () => {
  expect(dateOrdersOf(['3/14/26 x', '4.5.2026', '25.5.2026'])).toEqual({ '/': 'mdy', '.': 'dmy' });
  expect(dateOrdersOf(['3/14/26', '14/3/26'])).toEqual({});
  expect(dateOrdersOf(['4/5/26'])).toEqual({});
  expect(read('4/5/26 Silver Kite $40')).toMatchObject({ not: 'no date', unread: [{ text: '4/5/26' }] });
});

test.each([
  ['2026-05-01 Silver Kite $40 + $5 shipping', { price: '40.00' }],
  ['2026-05-01 Silver Kite hammer $30, est. $40-60', { price: '30.00' }],
  ['2026-05-01 Silver Kite 1970 $44', { price: '44.00', release_year: '1970' }],
  ['2026-05-01 Silver Kite 8.5/10 GBP 48', { grade: '8.5', price: '48.00', currency: 'GBP' }],
])('%s: one price', (text, fields) => {
  expect(read(text).fields).toMatchObject(fields);
});

test.each([
  ['2026-05-01 Silver Kite C8+ $40', 'grade', 'C8+'],
  ['2026-05-01 Silver Kite C7-8 $40', 'grade', 'C7-8'],
  ['2026-05-01 Silver Kite mint $40', 'grade', 'mint'],
  ['2026-05-01 Silver Kite not restored $40', 'finish_state', 'not restored'],
  ['2026-05-01 Silver Kite repaint $40', 'finish_state', 'repaint'],
  ['2026-05-01 Silver Kite plain base $40', 'base_paint', 'plain base'],
  ['2026-05-01 Silver Kite no repro parts $40', 'reproduction_parts', 'no repro parts'],
  ['2026-05-01 Silver Kite blue and red $40', 'colour', 'blue and red'],
  ['2026-05-01 Thornwick Coupe $40', 'casting', 'Thornwick Coupe'],
])('%s: %s is not guessed', (text, field, unread) => {
  const line = read(text);
  expect(line.fields).not.toHaveProperty(field);
  expect(line.unread).toEqual([{ column: 'line', text: unread }]);
});

test.each([
  ['Silver Kite, hood missing', { missing_parts: 'opening parts' }],
  ['Silver Kite, repro bumpers, no headlights', { reproduction_parts: 'bumpers', missing_parts: 'lamps' }],
  ['Brackenhall Van one lamp missing', { missing_parts: 'lamps' }],
  ['Silver Kite, windscreen replaced with a repro', { reproduction_parts: 'glazing' }],
  ['Silver Kite blue tinted glass', {}],
  ['Sluice Rcr ember', { casting: 'Sluice Racer', colour: 'Ember' }],
  ['Thornwick Saloon w/o fin lamps', { rear_end: undefined }],
])('%s: parts and shortened words are read', (text, fields) => {
  const line = read(`2026-05-01 ${text} $40`);
  expect(line.not).toBeNull();
  for (const [field, value] of Object.entries(fields))
    expect(line.fields[field as keyof typeof line.fields], field).toBe(value);
});

test.each([
  ['at Wobbleden', 'Wobbleden'],
  ['on Gavelbay', 'Gavelbay'],
  ['at the Oudveld toy fair', 'Oudveld toy fair'],
  ['from Germany', undefined],
])('the place of a sale by its name: %s', (text, source) => {
  expect(read(`2026-05-01 Silver Kite C7 $40 ${text}`).fields.source).toBe(source);
});

test('the words of the owner are used, and the column that they belong to is regarded', () => {
  const own = strangersLexicon([
    { column: '*', text: 'mint', field: 'grade', meaning: 'C9.5' },
    { column: '*', text: 'the kite', field: 'casting', meaning: 'Silver Kite' },
    { column: '*', text: 'as seen', field: '', meaning: '' },
    { column: 'title', text: 'plain base', field: 'base_paint', meaning: 'none' },
  ]);
  const line = readSaleLine('2026-05-01 the kite, mint, plain base, as seen $40', own, habits);
  expect(line.fields).toMatchObject({ casting: 'Silver Kite', grade: '9.5' });
  expect(line.unread).toEqual([{ column: 'line', text: 'plain base' }]);
});

test.each([
  ['2026-05-01 3 x Sluice Racer $30', 'lot'],
  ['2026-05-01 Sluice Racer and Silver Kite $30', 'lot'],
  ['2026-05-01 box of 3 Marlpit Haulers $40', 'lot'],
  ['2026-05-01 Wheels for Silver Kite $4', 'not a car'],
  ['2026-05-01 Marlpit Hauler (body only) $4', 'not a car'],
  ['2026-05-01 Silver Kite about $40', 'no price'],
  ['2026-05-01 Silver Kite unsold at $40', 'no price'],
  ['Silver Kite $40', 'no date'],
  ['2026-05-01 Lot 45: Silver Kite with dealer poster $40', null],
])('%s: %s', (text, not) => {
  expect(read(text).not).toBe(not);
});
