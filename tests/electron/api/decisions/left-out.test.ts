import { expect, it } from 'vitest';
import { whyLeftOut } from '../../../../electron/api/decisions/left-out.ts';
import type { SeasonOffer } from '../../../../electron/api/views.ts';
import { taken } from '../../../helpers/decide/season-cars.ts';

const offer = (
  option: SeasonOffer['option'],
  gain: number,
  rest: Partial<SeasonOffer> = {},
): SeasonOffer => ({
  ...taken(0, option),
  gain,
  passes: gain > 0,
  guarded: false,
  ...rest,
});

const free = { isExcluded: false, isOnBench: false };

it('says of a car that is not in a season why, by the best that is open to it', () => {
  const guarded = offer('restore', 900, { guarded: true });
  const conserve = offer('conserve', 400);
  expect(whyLeftOut([conserve, guarded], free)).toEqual({ offer: conserve, why: 'no room' });
  expect(whyLeftOut([conserve, guarded], { isExcluded: true, isOnBench: true })).toEqual({
    offer: conserve,
    why: 'never',
  });
  const onBench = { isExcluded: false, isOnBench: true };
  expect(whyLeftOut([conserve, guarded], onBench)).toEqual({ offer: conserve, why: 'on the bench' });
  expect(whyLeftOut([guarded], free)).toEqual({ offer: guarded, why: 'guarded' });
  const low = offer('conserve', 90, { passes: false });
  expect(whyLeftOut([low, offer('restore', -3)], free)).toEqual({ offer: low, why: 'under the floors' });
  expect(whyLeftOut([offer('restore', -3)], free)).toBeNull();
  expect(whyLeftOut([], free)).toBeNull();
});
