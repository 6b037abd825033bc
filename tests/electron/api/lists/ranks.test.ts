import fc from 'fast-check';
import { expect, test } from 'vitest';
import { placesInOrder, rankedTexts } from '../../../../electron/api/session/ranks.ts';

test('texts that a reader takes for the same have one rank, whatever was known before', () => {
  for (const known of [[], ['A', 'Q-9', 'Q-11']]) {
    const { ranks, texts } = rankedTexts(['Q-10', 'q-9', 'Q-09', 'Q-9', 'Q-10'], known, 'en');
    expect(ranks[0]).toBe(ranks[4]);
    expect(ranks[0]).toBeGreaterThan(ranks[1]!);
    expect([ranks[2], ranks[3]]).toEqual([ranks[1], ranks[1]]);
    expect(texts.toSorted()).toEqual([...new Set(['Q-10', 'q-9', 'Q-09', 'Q-9', ...known])].sort());
    expect(rankedTexts(texts, texts, 'en').texts).toEqual(texts);
  }
});

test('places are in the order of their keys, equal ones as they stand and unknown ones last', () => {
  fc.assert(
    fc.property(
      fc.array(fc.constantFrom(Number.NaN, -5, -0, 0, 0.25, 1, 3, 1e9)),
      fc.boolean(),
      (keys, descending) => {
        const known = keys.flatMap((key, place) => (Number.isNaN(key) ? [] : [{ key, place }]));
        known.sort((a, b) => (descending ? b.key - a.key : a.key - b.key) || a.place - b.place);
        const unknown = keys.flatMap((key, place) => (Number.isNaN(key) ? [place] : []));
        expect(placesInOrder(Float64Array.from(keys), descending)).toEqual([
          ...known.map(({ place }) => place),
          ...unknown,
        ]);
      },
    ),
  );
});
