import { expect, test } from 'vitest';
import { sourceColumn } from '../../../valuation/market/market-columns.ts';
import { sourceKind, trustIn } from '../../../valuation/market/source-kind.ts';

test('what is asked is trusted as a listing is, and may lie off sales as one does, unless its owner says otherwise', () => {
  const trust = { auction: 1, listing: 0.4, other: 0.7 };
  expect(
    ['asking', 'asking price', 'listing', 'auction', 'a neighbour'].map(source => trustIn(source, trust)),
  ).toEqual([0.4, 0.4, 0.4, 1, 0.7]);
  expect(trustIn('asking', { ...trust, asking: 0.9 })).toBe(0.9);
  expect(sourceColumn('Asking price')).toBe(sourceColumn('listing'));
  expect(sourceColumn('a neighbour')).toBe(-1);
});

test('a source may be called like a thing of the language', () => {
  expect(sourceKind('constructor')).toBe('constructor');
  expect(trustIn('constructor', { other: 0.7 })).toBe(0.7);
  expect(trustIn('toString', {})).toBe(1);
});
