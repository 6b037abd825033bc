import { expect, test } from 'vitest';
import { type LexiconCasting, makeLexicon } from '../../../valuation/reading/sale-line/lexicon.ts';
import { dateOrdersOf } from '../../../valuation/reading/sale-line/price-and-day.ts';
import { readSaleLine } from '../../../valuation/reading/sale-line/read-sale-line.ts';
import { strangersLexicon, truthLines } from '../../helpers/strangers.ts';

const lexicon = strangersLexicon();
const today = '2026-11-27';

/**
 * How many fields of the lines are read right and wrong; each hand's dates are told apart
 * among its own lines.
 */
const measured = (file: string) => {
  const lines = truthLines(file);
  const counts = { fields: 0, right: 0, given: 0, wrong: 0 };
  const amiss: string[] = [];
  for (const { text, truth, hand } of lines) {
    const own = file === 'sale-lines.tsv' ? lines : lines.filter(line => line.hand === hand);
    const orders = dateOrdersOf(own.map(line => line.text));
    const { fields, not } = readSaleLine(text, lexicon, { currency: 'USD', orders, today });
    const given: Record<string, string> = { ...fields, ...(not && { not }) };
    for (const [field, value] of Object.entries(truth)) {
      counts.fields++;
      if (given[field]?.toLowerCase() === value.toLowerCase()) counts.right++;
      else if (given[field] === undefined) amiss.push(`${text}\n   ${field} not read: ${value}`);
    }
    for (const [field, value] of Object.entries(given)) {
      counts.given++;
      if (truth[field]?.toLowerCase() === value.toLowerCase()) continue;
      counts.wrong++;
      amiss.push(`${text}\n   ${field}=${value}, not ${truth[field] ?? 'known'}`);
    }
  }
  const said = `${file}: ${counts.right} of ${counts.fields} fields right, ${counts.wrong} of ${counts.given} values wrong.`;
  console.log([said, ...amiss].join('\n'));
  return { ...counts, lines: lines.length };
};

test.each(['sale-lines.tsv', 'more-sale-lines.tsv'])(
  'lines written by others (%s) are read: nine fields of ten, and hardly a wrong value',
  file => {
    const { lines, fields, right, given, wrong } = measured(file);
    expect(lines).toBeGreaterThan(40);
    expect(right / fields).toBeGreaterThanOrEqual(0.9);
    expect(wrong / given).toBeLessThan(0.02);
  },
);

const signs = [
  '.',
  '*',
  '+',
  '?',
  '^',
  '$',
  '{',
  '}',
  '(',
  ')',
  '|',
  '[',
  ']',
  '\\',
  '/',
  '-',
  '#',
  '&',
  '~',
  "'",
];
test.each(signs)(
  'names of the reference and words of the owner with %s in them are read, not taken for a pattern',
  sign => {
    const casting: LexiconCasting = {
      id: 1,
      name: 'Quern Wagon',
      maker: '',
      series: '',
      releases: [{ name: `Quern${sign}Post`, year: 1970 }],
      features: { wheels: [`five${sign}spoke`], accessory: [`tow${sign}hook`], rearEnd: [`bar${sign}lamp`] },
    };
    const words = [{ column: '*', text: `lt${sign}grn`, field: 'colour', meaning: 'Limewash' }];
    const read = readSaleLine(
      `2026-07-04 Quern Wagon lt${sign}grn C6, five${sign}spoke wheels $21.00`,
      makeLexicon([casting], words),
      { currency: 'USD', orders: dateOrdersOf([]), today },
    );
    expect(read.fields).toMatchObject({ casting: 'Quern Wagon', price: '21.00', sold_on: '2026-07-04' });
  },
);

test.each(["Carrier's Friend", 'Carrier’s Friend', 'carriers friend'])(
  'a name with an owner in it is found, written %s',
  written => {
    const carrier = { id: 7, name: 'Carrier’s Friend', maker: '', series: '', releases: [], features: {} };
    const { castingId, unread } = readSaleLine(`${written} C6, $35`, makeLexicon([carrier]), {
      currency: 'USD',
      orders: {},
      today,
    });
    expect({ castingId, unread }).toEqual({ castingId: 7, unread: [] });
  },
);

test.each([
  ['Quern Wagon red C6, asked $90, started at $15, ended $33.33 on 9 Jan 2026', '33.33', 'USD'],
  ['Quern Wagon red C6, opening bid $15, went for $40 on 9 Jan 2026', '40.00', 'USD'],
  ['a mate sold his Quern Wagon for 150 quid on 2 March 2026', '150.00', 'GBP'],
  ['sold 45 - Quern Wagon, wing missing - Feb 8 2026', '45.00', 'USD'],
  ['Quern Wagon C6, sold 2/8/26, $12', '12.00', 'USD'],
  ['Quern Wagon C6, sold 12 Feb 2026', undefined, undefined],
])('the price of “%s” is %s %s', (line, price, currency) => {
  const wagon = { id: 7, name: 'Quern Wagon', maker: '', series: '', releases: [], features: {} };
  const { fields } = readSaleLine(line, makeLexicon([wagon]), {
    currency: 'USD',
    orders: dateOrdersOf([]),
    today,
  });
  expect([fields.price, fields.currency]).toEqual([price, currency]);
});

// The figures of an amount are no day, the year behind a month is no release's, and half an amount is none.
test.each([
  ['Quern Wagon no box, went for £4.20 Nov 24', '4.20', undefined],
  ['Quern Wagon C6 £20 Nov 24', '20.00', undefined],
  ['Quern Wagon C6 USD 20 Nov 2024', '20.00', undefined],
  ['Quern Wagon C6, 61.00 USD 20 Nov 2024', '61.00', '2024-11-20'],
  ['Quern Wagon C6 61€ 20 Nov 2024', '61.00', '2024-11-20'],
  ['Quern Wagon C6, Fr. 20 Nov 2024, $4.20', '4.20', '2024-11-20'],
  ["Quern Wagon C6, May 4th '24, $4.20", '4.20', '2024-05-04'],
  ['Quern Wagon C6, 4 May 2024, 12 pounds 50', undefined, '2024-05-04'],
  ['Quern Wagon C6, 4 May 2024, 12 pounds', '12.00', '2024-05-04'],
  ['Quern Wagon C6, 4 May 2024, euro 12', '12.00', '2024-05-04'],
  ['Quern Wagon C6, 4 May 2024, £12 10s', undefined, '2024-05-04'],
  ['Quern Wagon C6, 4 May 2024, £12½', undefined, '2024-05-04'],
  ['Quern Wagon C6, 4 May 2024, £12.5k', undefined, '2024-05-04'],
  ['Quern Wagon C6, 4 May 2024, 120kr.', undefined, '2024-05-04'],
])('“%s” is of the price %s and the day %s', (line, price, day) => {
  const wagon = { id: 7, name: 'Quern Wagon', maker: '', series: '', releases: [], features: {} };
  const { fields } = readSaleLine(line, makeLexicon([wagon]), { currency: 'USD', orders: {}, today });
  expect([fields.price, fields.sold_on]).toEqual([price, day]);
  expect(fields.release_year).toBeUndefined();
});

test.each([
  ['Quern Wagon green, pair £12, 4 May 2024', 'lot'],
  ['Quern Wagon green £12, not paid, 4 May 2024', 'no price'],
  ["Quern Wagon green, bid to £12, didn't meet reserve, 4 May 2024", 'no price'],
  ['Quern Wagon green £12, a pair of lamps, 4 May 2024', null],
])('“%s” is %s', (line, not) => {
  const wagon = { id: 7, name: 'Quern Wagon', maker: '', series: '', releases: [], features: {} };
  const options = { currency: 'USD', orders: {}, today } as const;
  expect(readSaleLine(line, makeLexicon([wagon]), options).not).toBe(not);
});

// A word of condition is neither a shade nor the box's.
test.each([
  ['Quern Wagon near mint in tatty box', undefined, 'near mint'],
  ['Quern Wagon near mint green', 'green', 'near mint'],
  ['Quern Wagon mint orange', undefined, 'mint orange'],
  ['Quern Wagon mint green', 'mint green', undefined],
  ['Quern Wagon candy red', 'candy red', undefined],
])('“%s” is of the colour %s, and leaves “%s”', (line, colour, left) => {
  const wagon = { id: 7, name: 'Quern Wagon', maker: '', series: '', releases: [], features: {} };
  const options = { currency: 'USD', orders: {}, today, source: ' ' } as const;
  const { fields, unread } = readSaleLine(line, makeLexicon([wagon]), options);
  expect([fields.colour, unread[0]?.text]).toEqual([colour, left]);
});

// What is said of a part, or of half a car, is not said of its finish.
test.each([
  ['Quern Wagon green, wheels orig', undefined],
  ['Quern Wagon green, part restored', undefined],
  ['Quern Wagon green, box original', undefined],
  ['Quern Wagon green, all original', 'original'],
])('the finish of “%s” is %s', (line, finish) => {
  const wagon = { id: 7, name: 'Quern Wagon', maker: '', series: '', releases: [], features: {} };
  const options = { currency: 'USD', orders: {}, today, source: ' ' } as const;
  expect(readSaleLine(line, makeLexicon([wagon]), options).fields.finish_state).toBe(finish);
});

// What is asked is told from what was paid, and what is neither is no price.
test.each([
  ['£12 ono', '12.00', 'asking price'],
  ['VB 12 €', '12.00', 'asking price'],
  ['buy it now £12', '12.00', 'asking price'],
  ['asking £12', '12.00', 'asking'],
  ['asked £20, sold for £12', '12.00', undefined],
  ['sold £12 at auction', '12.00', 'auction'],
  ['reserve £12', undefined, undefined],
  ['£12 start price', undefined, undefined],
  ['guide price £12', undefined, undefined],
  ['current bid £12', undefined, undefined],
  ['£12 firm', '12.00', 'asking price'],
  ['£10 deposit paid, £30 to follow', undefined, undefined],
])('“%s” is the price %s and the source %s', (said, price, source) => {
  const wagon = { id: 7, name: 'Quern Wagon', maker: '', series: '', releases: [], features: {} };
  const { fields } = readSaleLine(`Quern Wagon C6, ${said}, 14 Mar 2026`, makeLexicon([wagon]), {
    currency: 'GBP',
    orders: {},
    today,
  });
  expect([fields.price, fields.source]).toEqual([price, source]);
});

test.each([
  ['Zustand 2', undefined],
  ['Note 2', undefined],
  ['Zustand 7', '7'],
  ['grade 2', '2'],
])('“%s” is the grade %s: marks of schools count otherwise', (said, grade) => {
  const wagon = { id: 7, name: 'Quern Wagon', maker: '', series: '', releases: [], features: {} };
  const options = { currency: 'EUR', orders: {}, today, source: ' ' } as const;
  expect(readSaleLine(`Quern Wagon, ${said}`, makeLexicon([wagon]), options).fields.grade).toBe(grade);
});

// When something was done with a car is no year of its release.
test.each([
  ['Quern Wagon, Dad paid 4/11 in 1970', undefined],
  ['Quern Wagon, mine since 1971', undefined],
  ['Quern Wagon, restored in 1998', undefined],
  ['restored 1969 Quern Wagon', '1969'],
  ['Quern Wagon issued in 1969', '1969'],
])('the year of “%s” is %s', (line, year) => {
  const wagon = { id: 7, name: 'Quern Wagon', maker: '', series: '', releases: [], features: {} };
  const options = { currency: 'GBP', orders: {}, today, source: ' ' } as const;
  expect(readSaleLine(line, makeLexicon([wagon]), options).fields.release_year).toBe(year);
});

// A price in doubt is none, what is still for sale is asked, and a total of several is no price of one.
test.each([
  ['Quern Wagon C6, $1,200?? typo surely, 2 Jan 2024', { price: undefined, not: 'no price' }],
  ['Quern Wagon C6, £42 (?) 2 Jan 2024', { price: undefined, not: 'no price' }],
  ['Quern Wagon red £22 (2 watchers) ends 5 May 2026', { price: '22.00', source: 'asking price', not: null }],
  ['Quern Wagon red £22 ended 5 May 2026', { price: '22.00', source: undefined, not: null }],
  ['3 Quern Wagon red £90 total 5 May 2024', { price: '90.00', not: 'lot' }],
  ['Quern Wagon red £90 total 5 May 2024', { price: '90.00', not: null }],
  ['Pair of Marl vans £30, 5 May 2024', { price: '30.00', not: 'lot' }],
  ['WTB Quern Wagon red, will pay £30, 5 May 2024', { price: undefined, not: 'no price' }],
  ['wanted: Quern Wagon red £30 5 May 2024', { price: undefined, not: 'no price' }],
  ['Quern Wagon red, much wanted, £30 5 May 2024', { price: '30.00', not: null }],
])('“%s” is read as %j', (line, expected) => {
  const wagon = { id: 7, name: 'Quern Wagon', maker: '', series: '', releases: [], features: {} };
  const { fields, not } = readSaleLine(line, makeLexicon([wagon]), { currency: 'USD', orders: {}, today });
  expect({ price: fields.price, source: fields.source, not }).toMatchObject(expected);
});

test('a maker is known by the word that it is called by, and no other word is', () => {
  const made = { maker: 'Marlow Toys of Fell', series: 'Hillmen', releases: [], features: {} };
  const lexicon = makeLexicon([{ ...made, id: 7, name: 'Quern Wagon' }]);
  const left = (line: string) =>
    readSaleLine(line, lexicon, { currency: 'USD', orders: {}, today }).unread.map(({ text }) => text);
  expect(left('Marlow Quern Wagon $5 on 2 May 2024')).toEqual([]);
  expect(left('MARLOW TOYS Quern Wagon $5 on 2 May 2024')).toEqual([]);
  expect(left('Fell Quern Wagon $5 on 2 May 2024')).toEqual(['Fell']);
  // A word of a casting's own name is that.
  const owls = makeLexicon([{ ...made, maker: 'Night Works', id: 8, name: 'Night Owl' }]);
  const { name, unread } = readSaleLine('Night Heron $5 on 2 May 2024', owls, {
    currency: 'USD',
    orders: {},
    today,
  });
  expect(`${name} ${unread.map(({ text }) => text)}`).toContain('Night Heron');
});
