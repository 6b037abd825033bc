import type { SeasonOffer } from '../../../electron/api/views.ts';
import { weighed } from './weighed-car.ts';

/** Cars of which a season is made: two of one casting, one that loses, one behind a guard, one without a value. */
export const cars = [
  weighed(
    1,
    { casting: 'Dovetail' },
    { takes: { hours: 1.5, cash: 150, parts: { Hub: 4 } }, plan: { expectedGain: 900 } },
  ),
  weighed(
    2,
    { casting: 'Dovetail' },
    { takes: { hours: 2.5, cash: 250, parts: { Hub: 2, Glazing: 1 } }, plan: { expectedGain: 1200 } },
  ),
  weighed(3, { casting: 'Oxbow' }, { takes: { hours: 4, cash: 0 }, plan: { expectedGain: -300 } }),
  weighed(4, { casting: 'Oxbow' }, { plan: { expectedGain: 5000, guarded: true } }),
  weighed(5, { casting: null }, { shown: null, plan: null }),
];

/** A car taken into a season by an option that takes and gains nothing. */
export const taken = (id: number, option: SeasonOffer['option']) => ({
  id,
  option,
  gain: 0,
  hours: 0,
  cash: 0,
  parts: {},
});
