import fc from 'fast-check';
import { expect, test } from 'vitest';
import { byTheirNumbers, placesInOrder, rankedTexts } from '../../../../electron/api/session/ranks.ts';

const pieces = ['Q', 'q', '-', ' ', '.', '0', '00', '1', '9', '10', '007', 'é', 'ch', 'ß', '𝟙', '٣', '/'];
const texts = fc.array(fc.constantFrom(...pieces), { maxLength: 6 }).map(parts => parts.join(''));

test.each(['en', 'de', 'sv', 'cs', 'ja', 'ar', 'th'])(
  'numbers order texts as the collator of %s has them',
  locale => {
    const { compare } = new Intl.Collator(locale, { numeric: true, sensitivity: 'base' });
    fc.assert(
      fc.property(texts, texts, (a, b) => {
        const order = byTheirNumbers(a, b);
        if (order !== undefined) expect(Math.sign(order), `${a} and ${b}`).toBe(Math.sign(compare(a, b)));
      }),
    );
  },
);

test('numbers of one value are left to the collator, also where one has more noughts', () => {
  expect(byTheirNumbers('Q-01', 'Q-001')).toBeUndefined();
  expect(byTheirNumbers('Q-9', 'Q-10')).toBeLessThan(0);
  expect(byTheirNumbers('Q-100', 'Q-0099')).toBeGreaterThan(0);
  expect(byTheirNumbers('Q-1', 'Q-a')).toBeUndefined();
  const { rankOf } = rankedTexts(['Q-10', 'q-9', 'Q-09', 'Q-9'], 'en');
  expect([...rankOf.values()]).toEqual([0, 0, 0, 1]);
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
