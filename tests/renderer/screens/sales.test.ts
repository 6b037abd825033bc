import { describe, expect, it } from 'vitest';
import type { SaleRow } from '../../../electron/api/views.ts';
import { logTicks, pricePoints, yearTicks } from '../../../renderer/screens/sales/price-points.ts';
import {
  emptyRecord,
  nextRecord,
  recordInput,
  whatIsMissing,
} from '../../../renderer/screens/sales/record-draft.ts';
import { parseDay, parseParts, parsePrice, saleChanges } from '../../../renderer/screens/sales/sale-edits.ts';
import { doubtPhrase, filterQuery } from '../../../renderer/screens/sales/sale-filter.ts';
import { rateFinder } from '../../../valuation/market/exchange-rate.ts';
import { saleFilterIn, servedSaleFilter } from '../../../valuation/reading/list-address.ts';

const sale = (id: number, over: Partial<SaleRow> = {}): SaleRow => ({
  id,
  soldOn: '2025-03-14',
  price: 10_000 + id,
  currency: 'USD',
  castingId: 1,
  casting: 'Dovetail',
  variationId: null,
  variation: '',
  swatch: null,
  grade: null,
  finishState: 'original',
  missingParts: [],
  reproductionParts: [],
  source: 'fair',
  reference: '',
  reliabilityPercent: null,
  excluded: false,
  excludedWhy: '',
  own: false,
  state: 'counted',
  doubt: null,
  among: null,
  notes: '',
  unread: [],
  ...over,
});

describe('cells of a sale record', () => {
  it('take a day that can be read one way only', () => {
    expect(parseDay('2025-03-04')).toEqual({ value: '2025-03-04' });
    expect(parseDay(' 4 March 2025 ')).toEqual({ value: '2025-03-04' });
    expect(parseDay('14. Sept 2025')).toEqual({ value: '2025-09-14' });
    for (const bad of ['03/04/2025', '2025-02-30', '31 Feb 2025', '4 Foo 2025', 'yesterday'])
      expect(parseDay(bad), bad).toHaveProperty('problem');
  });

  it('take parts by their beginnings, in the order of the trade, and name what is none', () => {
    expect(parseParts('glaz; wheels')).toEqual({ value: 'glazing, wheels' });
    expect(parseParts('b')).toHaveProperty('problem');
    expect(parseParts('tyres')).toEqual({ value: 'wheels' });
    expect(parseParts('engine')).toMatchObject({ problem: expect.stringContaining('"engine"') });
  });

  it('refuse a price of nothing', () => {
    expect(parsePrice('12.50', 'USD')).toEqual({ value: 1250 });
    expect(parsePrice('1250', 'JPY')).toEqual({ value: 1250 });
    expect(parsePrice('0', 'USD')).toHaveProperty('problem');
  });

  it('become patches, and leave out a cleared cell that a record cannot do without', () => {
    const cell = { rowId: '7', choice: null };
    expect(
      saleChanges([
        { ...cell, columnId: 'price', value: null },
        { ...cell, columnId: 'grade', value: null },
        { ...cell, columnId: 'missingParts', value: 'glazing, wheels' },
        { ...cell, columnId: 'casting', value: '3:9', choice: { value: '3:9', label: 'Dovetail' } },
        { ...cell, columnId: 'state', value: 'counted' },
      ]),
    ).toEqual([
      { id: 7, patch: { grade: null } },
      { id: 7, patch: { missingParts: ['glazing', 'wheels'] } },
      { id: 7, patch: { castingId: 3, variationId: 9 } },
    ]);
  });
});

describe('the list of sale records', () => {
  it('is filtered by its address, and the address follows the filter', () => {
    const filter = saleFilterIn('casting=1&show=doubtful&record=9&finish=shiny');
    expect(filterQuery({ ...filter, finish: '' })).toBe('?casting=1&show=doubtful');
    expect(servedSaleFilter(filter)).toEqual({
      castingId: 1,
      variationId: null,
      source: '',
      finish: null,
      show: 'doubtful',
    });
    expect(filterQuery(saleFilterIn('casting=x&show=nonsense'))).toBe('');
  });

  it('says among what prices a doubtful one stands, and says nothing on too few', () => {
    const wild = sale(99, { price: 1_200_000, state: 'doubtful' });
    expect(doubtPhrase({ ...wild, among: { low: 10_000, high: 12_000 } })).toBe('12,000 among 100 to 120');
    expect(doubtPhrase(wild)).toBeUndefined();
  });
});

describe('the chart of prices', () => {
  it('converts at the rate of the day, and leaves out what has none', () => {
    const rates = rateFinder('USD', [{ currency: 'EUR', on: '2025-01-01', rate: 1.2 }]);
    const rows = [sale(1, { price: 100 }), sale(2, { price: 100, currency: 'EUR' })];
    expect(pricePoints([...rows, sale(3, { currency: 'GBP' })], rates).map(point => point.amount)).toEqual([
      100,
      expect.closeTo(120, 9),
    ]);
  });

  it('is ruled at round amounts within the prices, and at the starts of years', () => {
    expect(logTicks(1800, 12_000, 'USD')).toEqual([2000, 5000, 10_000]);
    expect(logTicks(90, 2_000_000, 'USD')).toEqual([100, 1000, 10_000, 100_000, 1_000_000]);
    const times = ['2019-06-01', '2022-02-01'].map(day => ({
      row: sale(1),
      time: Date.parse(day),
      amount: 1,
    }));
    expect(yearTicks(times).map(time => new Date(time).getUTCFullYear())).toEqual([2020, 2021, 2022]);
  });
});

describe('a new record', () => {
  it('needs its casting, day, price and a grade that is one', () => {
    const draft = emptyRecord('USD', '2026-01-01');
    expect(whatIsMissing(draft)).toContain('casting');
    const whole = { ...draft, castingId: 1, price: 500, grade: 'C7.5', source: 'fair' };
    expect(whatIsMissing({ ...whole, price: 0 })).toContain('price');
    expect(whatIsMissing({ ...whole, grade: '11' })).toContain('grade');
    expect(whatIsMissing(whole)).toBeNull();
    expect(recordInput(whole)).toMatchObject({ castingId: 1, price: 500, grade: 7.5, source: 'fair' });
    expect(nextRecord(whole)).toEqual({ ...draft, source: 'fair' });
    expect(() => recordInput(draft)).toThrow(RangeError);
  });
});
