import fc from 'fast-check';
import { expect, it } from 'vitest';
import { groupFeatures, type SeenFeatures } from '../../../valuation/reading/names/group-features.ts';

const seen = fc.uniqueArray(
  fc.dictionary(fc.constantFrom('colour', 'rearEnd', 'year'), fc.constantFrom('a', 'b'), { minKeys: 1 }),
  { maxLength: 12, selector: one => JSON.stringify(Object.entries(one).sort()) },
);

const within = (one: SeenFeatures, other: SeenFeatures) =>
  Object.entries(one).every(([feature, text]) => other[feature] === text);

it('what says less goes with the one that tells all of it, or with none where several do', () => {
  expect(
    groupFeatures([{ colour: 'a' }, { colour: 'a', rearEnd: 'b' }, { colour: 'b' }, { rearEnd: 'b' }]),
  ).toEqual([
    { fullest: 1, lesser: [0, 3] },
    { fullest: 2, lesser: [] },
  ]);
  expect(groupFeatures([{ colour: 'a' }, { colour: 'a', year: 'a' }, { colour: 'a', year: 'b' }])).toEqual([
    { fullest: 1, lesser: [] },
    { fullest: 2, lesser: [] },
  ]);
});

it('is the same whatever the order, and never puts one thing in two groups', () => {
  fc.assert(
    fc.property(
      seen.chain(all => fc.tuple(fc.constant(all), fc.shuffledSubarray(all, { minLength: all.length }))),
      ([all, shuffled]) => {
        const named = (list: SeenFeatures[]) =>
          groupFeatures(list)
            .map(({ fullest, lesser }) => [list[fullest], lesser.map(at => JSON.stringify(list[at])).sort()])
            .map(group => JSON.stringify(group))
            .sort();
        expect(named(shuffled)).toEqual(named(all));
        const groups = groupFeatures(all);
        const places = groups.flatMap(({ fullest, lesser }) => [fullest, ...lesser]);
        expect(new Set(places).size).toBe(places.length);
        for (const { fullest, lesser } of groups)
          for (const at of lesser) expect(within(all[at]!, all[fullest]!)).toBe(true);
        for (const [at, one] of all.entries())
          if (!places.includes(at))
            expect(groups.filter(group => within(one, all[group.fullest]!)).length).toBeGreaterThan(1);
      },
    ),
  );
});
