import type { CarRow } from '../../../../electron/api/views.ts';
import type { Currency, Minor } from '../../../../valuation/types.ts';

export interface CarTotals {
  cars: number;
  /** Those that are not sold; the sums are theirs. */
  here: number;
  valued: number;
  asFound: Minor;
  /** Cost by currency, none converted, the greatest number of cars first. */
  costs: { currency: Currency; minor: Minor; cars: number }[];
  withoutCost: number;
  /** Expected gain where some work is recommended, and on how many cars. */
  gain: Minor;
  gaining: number;
}

/** What the cars in view come to. */
export const totalsOf = (cars: readonly CarRow[]): CarTotals => {
  const here = cars.filter(car => car.status !== 'sold');
  const costs = new Map<Currency, { minor: Minor; cars: number }>();
  const totals = { valued: 0, asFound: 0, withoutCost: 0, gain: 0, gaining: 0 };
  for (const car of here) {
    if (car.worths.asFound) {
      totals.valued += 1;
      totals.asFound += car.worths.asFound.mid;
    }
    if (car.cost === null || car.costCurrency === null) totals.withoutCost += 1;
    else {
      const sum = costs.get(car.costCurrency) ?? { minor: 0, cars: 0 };
      costs.set(car.costCurrency, { minor: sum.minor + car.cost, cars: sum.cars + 1 });
    }
    if (isWork(car.recommendation) && car.expectedGain !== null && car.expectedGain > 0) {
      totals.gain += car.expectedGain;
      totals.gaining += 1;
    }
  }
  return {
    cars: cars.length,
    here: here.length,
    ...totals,
    costs: [...costs]
      .map(([currency, sum]) => ({ currency, ...sum }))
      .sort((a, b) => b.cars - a.cars || a.currency.localeCompare(b.currency)),
  };
};

const isWork = (recommendation: CarRow['recommendation']): boolean =>
  recommendation !== null && recommendation !== 'leave' && recommendation !== 'not-enough-evidence';
