import { describe, expect, it } from 'vitest';
import type { CastingRow, VariationRow } from '../../../electron/api/views.ts';
import { narrow, sharedFeatures } from '../../../renderer/screens/reference/casting/narrow.ts';
import { whatFallsBack } from '../../../renderer/screens/reference/forms/falls-back.ts';
import { groupCastings } from '../../../renderer/screens/reference/group-castings.ts';
import { type VariationFeature, variationFeatures } from '../../../valuation/words.ts';

const casting = (id: number, name: string, series: string, seriesId: number): CastingRow => ({
  id,
  maker: 'Quillon Toys',
  series,
  seriesId,
  name,
  bodyType: 'coupé',
  firstYear: null,
  releases: 1,
  variations: 0,
  cars: 0,
  saleRecords: 0,
});

const variation = (id: number, features: Partial<Record<VariationFeature, string>>): VariationRow => ({
  id,
  castingId: 1,
  casting: 'Dovetail',
  series: 'Slipwinds',
  releaseId: 1,
  releaseName: 'Dovetail',
  releaseYear: null,
  features: {
    ...(Object.fromEntries(variationFeatures.map(feature => [feature, ''])) as VariationRow['features']),
    ...features,
  },
  swatch: null,
  rarity: null,
  label: '',
  beyondColour: '',
  factorySpecification: '',
  cars: 0,
  saleRecords: 0,
});

describe('the list of castings', () => {
  const castings = [
    casting(1, 'Oxbow 12', 'Slipwinds', 7),
    casting(2, 'Oxbow 2', 'Slipwinds', 7),
    casting(3, 'Émeraude', 'Lamplighters', 8),
  ];

  it('stands by series, its numbers in their order', () => {
    expect(
      groupCastings(castings, '').map(group => [group.series, group.castings.map(({ id }) => id)]),
    ).toEqual([
      ['Lamplighters', [3]],
      ['Slipwinds', [2, 1]],
    ]);
  });

  it('is searched by words in any order, accents aside', () => {
    const found = (text: string) =>
      groupCastings(castings, text).flatMap(group => group.castings.map(c => c.id));
    expect(found('emer')).toEqual([3]);
    expect(found('slip 12')).toEqual([1]);
    expect(found('coupe')).toEqual([3, 2, 1]);
    expect(found('nothing')).toEqual([]);
  });
});

describe('identifying by features', () => {
  const rows = [
    variation(1, { colour: 'Ember', rearEnd: 'bar lamp', wheels: 'wire' }),
    variation(2, { colour: 'Ember', rearEnd: '', wheels: 'wire' }),
    variation(3, { colour: 'Moss', rearEnd: 'bar lamp', wheels: 'wire' }),
  ];

  it('asks only for what tells them apart, with what each answer would leave', () => {
    const { remaining, choices } = narrow(rows, {});
    expect(remaining).toHaveLength(3);
    expect(choices.map(({ feature }) => feature)).toEqual(['colour', 'rearEnd']);
    expect(sharedFeatures(rows)).toEqual([{ feature: 'wheels', value: 'wire' }]);
    expect(sharedFeatures(rows.slice(0, 1))).toEqual([]);
  });

  it('leaves the variations that have all that was seen, “none” being an answer', () => {
    expect(narrow(rows, { colour: 'Ember', rearEnd: '' }).remaining.map(({ id }) => id)).toEqual([2]);
    expect(narrow(rows, { colour: 'Moss', rearEnd: '' }).remaining).toEqual([]);
    const { choices } = narrow(rows, { colour: 'Ember' });
    expect(choices.find(({ feature }) => feature === 'rearEnd')?.values).toEqual([
      { value: '', variations: 1 },
      { value: 'bar lamp', variations: 1 },
    ]);
    // A feature that is answered can be answered otherwise.
    expect(choices.find(({ feature }) => feature === 'colour')?.values).toHaveLength(2);
  });
});

describe('removing a variation', () => {
  it('says what falls back to the casting', () => {
    expect(whatFallsBack({ cars: 0, saleRecords: 0 })).toBeNull();
    expect(whatFallsBack({ cars: 1, saleRecords: 0 })).toBe(
      '1 car is identified as this variation, and would be known by the casting only.',
    );
    expect(whatFallsBack({ cars: 2, saleRecords: 1 })).toContain('2 cars and 1 sale record are');
  });
});
