import { expect, test } from 'vitest';
import { makeLexicon } from '../../../valuation/reading/sale-line/lexicon.ts';
import { readSaleLine, type SaleLineField } from '../../../valuation/reading/sale-line/read-sale-line.ts';

/** Texts with what is true of each; '' where it says no whole day or grade. */
const amounts = [
  ...['£4.20=4.20', '£ 4.20=4.20', '4.20£=4.20', '4.20 GBP=4.20', 'GBP 4.20=4.20', '4 quid=4.00', '£4=4.00'],
  ...[
    '31 pounds=31.00',
    '£1,250=1250.00',
    '£1.250,00=1250.00',
    '12,50 £=12.50',
    '£12.5=12.50',
    '£12.-=12.00',
  ],
  ...['£20=20.00', '£1969=1969.00', '£68=68.00', 'for £24=24.00', '£2.24=2.24', '£12.24=12.24', '£7.5=7.50'],
];
const days = [
  ...['20 Nov 24=2024-11-20', '20 Nov 2024=2024-11-20', 'Nov 20 2024=2024-11-20', 'Nov 20, 2024=2024-11-20'],
  ...[
    '20th November 2024=2024-11-20',
    '20. Nov. 2024=2024-11-20',
    '20-Nov-24=2024-11-20',
    'on 4 Mar 24=2024-03-04',
  ],
  ...['20/11/24=2024-11-20', '20.11.2024=2024-11-20', '20-11-2024=2024-11-20', '2024-11-20=2024-11-20'],
  ...['Nov 24=', "Nov '24=", 'Nov 2024=', '2024=', '11/24=', '20 nov='],
];
const grades = ['C8=8', 'C7.5=7.5', 'C 6=6', 'c4=4', '8=8', '7.5=7.5', '8/10=8', '='];
const orders = [
  [0, 1, 2],
  [0, 2, 1],
  [1, 0, 2],
  [1, 2, 0],
  [2, 0, 1],
  [2, 1, 0],
] as const;
const between = [' ', ', ', ' - ', '; ', ' | '];

const pairs = (texts: readonly string[]) =>
  texts.map(text => [text.slice(0, text.lastIndexOf('=')), text.slice(text.lastIndexOf('=') + 1)] as const);

/** Every so-many-th of all lines. */
const step = 61;

test('an amount, a day and a grade beside one another, in any order: what is read of them is what they say', () => {
  const wagon = { id: 7, name: 'Quern Wagon', maker: '', series: '', releases: [], features: {} };
  const lexicon = makeLexicon([wagon]);
  const wrong: string[] = [];
  let place = 0;
  let lines = 0;
  let prices = 0;
  let whole = 0;
  let found = 0;
  for (const [amount, price] of pairs(amounts))
    for (const [day, soldOn] of pairs(days))
      for (const [said, grade] of pairs(grades))
        for (const order of orders)
          for (const sign of between) {
            if (place++ % step !== 0) continue;
            const parts = [said, amount, day];
            const text = ['Quern Wagon', ...order.map(at => parts[at] ?? '')].filter(Boolean).join(sign);
            // "8 Nov 24" is a day, whatever the eight was meant to be.
            if (/(?<!\d)8 Nov 2/.test(text)) continue;
            const { fields } = readSaleLine(text, lexicon, {
              currency: 'GBP',
              orders: { '/': 'dmy', '.': 'dmy', '-': 'dmy' },
              today: '2026-11-28',
            });
            const truth: [SaleLineField, string][] = [
              ['price', price],
              ['sold_on', soldOn],
              ['grade', grade],
              ['release_year', ''],
            ];
            for (const [field, value] of truth)
              if (fields[field] !== undefined && fields[field] !== value)
                wrong.push(`${text}: ${field} ${fields[field]}`);
            lines++;
            if (fields.price !== undefined) prices++;
            if (soldOn !== '') whole++;
            if (soldOn !== '' && fields.sold_on !== undefined) found++;
          }
  expect(wrong).toEqual([]);
  expect(lines).toBeGreaterThan(1200);
  expect(prices / lines).toBeGreaterThan(0.98);
  expect(found / whole).toBeGreaterThan(0.94);
});

/** What is said of a car, by what it is about, with what is true of it. */
const facts: Record<string, Record<string, Partial<Record<SaleLineField, string>>>> = {
  colour: { green: { colour: 'green' }, 'dark blue': { colour: 'dark blue' }, plum: { colour: 'Plum' } },
  base: {
    'bare base': { base_paint: 'none' },
    'front quarter painted': { base_paint: 'front quarter' },
    'painted base': {},
    'white base': {},
  },
  roof: {
    'no roof': { missing_parts: 'roof' },
    'roof missing': { missing_parts: 'roof' },
    'black roof': { roof: 'black' },
    'repro roof': { reproduction_parts: 'roof' },
    'roof scratched': {},
  },
  interior: { 'w/o interior': { missing_parts: 'interior' }, 'white interior': { interior: 'white' } },
  glass: {
    'windscreen gone': { missing_parts: 'glazing' },
    'blue glass': { glazing: 'blue' },
    'repro windshield': { reproduction_parts: 'glazing' },
  },
  wheels: {
    'repro wheels': { reproduction_parts: 'wheels' },
    'wheels missing': { missing_parts: 'wheels' },
    'small cap wheels': { wheels: 'small cap' },
    'wobbly wheels': {},
  },
  finish: {
    restored: { finish_state: 'restored' },
    'touched up': { finish_state: 'touched up' },
    repainted: {},
    'not original': {},
  },
  accessory: { 'with canopy': { accessory: 'canopy' }, 'canopy missing': { missing_parts: 'accessory' } },
  packaging: {
    boxed: { packaging: 'box' },
    'repro box': { packaging: 'reproduction box' },
    'box missing': {},
    'no box': {},
  },
};

test('three facts of a car beside one another, joined in any way: no part is said to be what another is', () => {
  const features = {
    colour: ['Limewash', 'Plum'],
    wheels: ['small cap', 'deep dish'],
    roof: ['black'],
    interior: ['white', 'tan'],
    accessory: ['canopy'],
  };
  const wagon = { id: 7, name: 'Quern Wagon', maker: '', series: '', releases: [], features };
  const lexicon = makeLexicon([wagon]);
  const said = Object.entries(facts).flatMap(([about, texts]) =>
    Object.entries(texts).map(([text, truth]) => ({ about, text, truth })),
  );
  const wrong: string[] = [];
  let place = 0;
  let told = 0;
  let found = 0;
  for (const first of said)
    for (const second of said)
      for (const third of said)
        for (const sign of [', ', ' - ', '; ', ' and ', ' + ', ' / ']) {
          const three = [first, second, third];
          if (new Set(three.map(({ about }) => about)).size < 3 || place++ % 127 !== 0) continue;
          const text = `Quern Wagon ${three.map(one => one.text).join(sign)}`;
          const { fields } = readSaleLine(text, lexicon, {
            currency: 'GBP',
            orders: {},
            today: '2026-11-28',
            source: ' ',
          });
          const truth = (field: SaleLineField) => three.flatMap(one => one.truth[field] ?? []);
          for (const [field, value] of Object.entries(fields) as [SaleLineField, string][])
            if (field !== 'casting' && field !== 'source')
              for (const one of value.split(','))
                if (!truth(field).includes(one)) wrong.push(`${text}: ${field} ${value}`);
          for (const { truth: values } of three)
            for (const [field, value] of Object.entries(values) as [SaleLineField, string][]) {
              told++;
              if (fields[field]?.split(',').includes(value)) found++;
            }
        }
  expect(wrong).toEqual([]);
  expect(told).toBeGreaterThan(1200);
  expect(found / told).toBeGreaterThan(0.95);
});
