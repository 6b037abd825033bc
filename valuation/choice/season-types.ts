import type { Minor } from '../types.ts';
import type { Option } from '../words.ts';
import type { CarLimits } from './choose-cars.ts';

/** One thing that can be done with a car: what it gains over leaving it, and what it takes. */
export interface SeasonOption {
  option: Exclude<Option, 'leave'>;
  gain: number;
  hours: number;
  cash: Minor;
  parts: Record<string, number>;
}

/** A car, and what may be done with it; `must` for one that is in whatever it gains. */
export interface SeasonCar {
  id: number;
  castingId: number | null;
  must?: boolean;
  options: readonly SeasonOption[];
}

/** What there is for a season; `cars` is how many there is room for on the bench in all. */
export interface SeasonLimits extends CarLimits {
  cars?: number;
}

/** A car with one of the things that can be done with it. */
export interface Pair {
  car: SeasonCar;
  option: SeasonOption;
}
