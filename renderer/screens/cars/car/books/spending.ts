import type { CarPage } from '../../../../../electron/api/views.ts';
import type { Currency, Minor } from '../../../../../valuation/types.ts';

/**
 * All that a car has cost: its share of its lot and the spending on it, one sum for each
 * currency, none converted.
 */
export const spentOn = (
  car: Pick<CarPage, 'cost' | 'costCurrency' | 'expenses'>,
): { currency: Currency; minor: Minor }[] => {
  const sums = new Map<Currency, Minor>();
  const add = (currency: Currency, minor: Minor) => sums.set(currency, (sums.get(currency) ?? 0) + minor);
  if (car.cost !== null && car.costCurrency !== null) add(car.costCurrency, car.cost);
  for (const { currency, minor } of car.expenses) add(currency, minor);
  return [...sums].map(([currency, minor]) => ({ currency, minor }));
};
