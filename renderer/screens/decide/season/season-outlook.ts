import type { SeasonView } from '../../../../electron/api/views.ts';
import type { Minor, Range } from '../../../../valuation/types.ts';
import { isIn, type Planned, type Season } from './season.ts';

/** What a season has reached, what is still ahead of it, and both together. */
export interface SeasonOutlook {
  /** Of the finished cars of which it is known: what they brought, and what was expected of them. */
  reached: { cars: number; known: number; brought: Minor; expected: Minor };
  /** The cars that wait or are on the bench; the 80 % range is null while it is not known. */
  ahead: { cars: number; gain: Minor; range: { low: Minor; high: Minor } | null };
  /**
   * What was brought, and what is ahead; a finished car of which it is not known what it brought counts as
   * was expected.
   */
  together: { gain: Minor; range: { low: Minor; high: Minor } | null };
}

/** The cars of a season that are being worked on. */
export const onBenchOf = (season: Season, saved: SeasonView | null): SeasonView['cars'] =>
  (saved?.cars ?? []).filter(
    ({ carId, onBench, finishedOn }) => onBench && finishedOn === null && isIn(season.standings.get(carId)),
  );

/**
 * Looks at a season whose cars are finished in part. `work`: the 80 % range of the work that is ahead by itself; what
 * was brought no longer varies.
 */
export const seasonOutlook = (
  { season, saved, waiting }: { season: Season; saved: SeasonView | null; waiting: readonly Planned[] },
  work: Range | null,
): SeasonOutlook => {
  const finished = (saved?.cars ?? []).filter(
    ({ carId, finishedOn }) => finishedOn !== null && isIn(season.standings.get(carId)),
  );
  const running = onBenchOf(season, saved);
  const known = finished.filter(({ brought, expected }) => brought !== null && expected !== null);
  const brought = known.reduce((sum, car) => sum + (car.brought ?? 0), 0);
  const unknown = finished.reduce((sum, car) => sum + (car.brought === null ? (car.expected ?? 0) : 0), 0);
  const gain =
    waiting.reduce((sum, { offer }) => sum + offer.gain, 0) +
    running.reduce((sum, { carId }) => sum + (season.begun.get(carId)?.gain ?? 0), 0);
  const cars = waiting.length + running.length;
  const about = (middle: Minor) => {
    if (cars === 0) return { low: middle, high: middle };
    return work && { low: middle + work.low - work.mid, high: middle + work.high - work.mid };
  };
  const all = brought + unknown + gain;
  return {
    reached: {
      cars: finished.length,
      known: known.length,
      brought,
      expected: known.reduce((sum, car) => sum + (car.expected ?? 0), 0),
    },
    ahead: { cars, gain, range: about(gain) },
    together: { gain: all, range: about(all) },
  };
};
