import { checkFinite } from '../statistics/check-input.ts';
import type { SeasonCar, SeasonLimits, SeasonOption } from './season-types.ts';

/** One thing of which there is only so much, and what a car takes of it by one of its options. */
export interface Limit {
  name: string;
  limit: number;
  use: (car: SeasonCar, option: SeasonOption) => number;
}

/** What an option takes of a part. */
export const partsOf = ({ parts }: SeasonOption, part: string): number =>
  Object.hasOwn(parts, part) ? parts[part]! : 0;

/** The limits that these cars can come up against. Throws RangeError on one that is no amount. */
export const limitsOf = (cars: readonly SeasonCar[], limits: SeasonLimits): Limit[] => {
  const list: Limit[] = [];
  const add = (name: string, limit: number, use: Limit['use']) => {
    checkFinite(limit, `limit of ${name}`);
    if (limit < 0) throw new RangeError(`limit of ${name} must not be below zero, and is ${limit}`);
    list.push({ name, limit, use });
  };
  if (limits.hours !== undefined) add('hours', limits.hours, (_, { hours }) => hours);
  if (limits.cash !== undefined) add('cash', limits.cash, (_, { cash }) => cash);
  if (limits.cars !== undefined && limits.cars < cars.length) add('cars', limits.cars, () => 1);
  for (const part of Object.keys(limits.parts).sort())
    add(`part ${part}`, limits.parts[part]!, (_, option) => partsOf(option, part));
  const { perCasting } = limits;
  if (perCasting !== undefined) {
    const counts = new Map<number, number>();
    for (const { castingId } of cars)
      if (castingId !== null) counts.set(castingId, (counts.get(castingId) ?? 0) + 1);
    for (const [id, count] of [...counts].sort(([a], [b]) => a - b))
      if (count > perCasting) add(`casting ${id}`, perCasting, car => (car.castingId === id ? 1 : 0));
  }
  return list;
};
