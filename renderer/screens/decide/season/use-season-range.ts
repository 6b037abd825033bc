import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { SeasonView } from '../../../../electron/api/views.ts';
import type { Minor } from '../../../../valuation/types.ts';
import { api } from '../../../api/client.ts';
import { isIn, type Planned, type Season } from './season.ts';

/**
 * The 80 % range of what a season gains, about the sum of what is expected of its cars: what of the work is
 * still ahead varies together, by what the cars' values share. Null while it is not known.
 */
export const useSeasonRange = (
  gain: Minor,
  { season, saved, waiting }: { season: Season; saved: SeasonView | null; waiting: readonly Planned[] },
): { low: Minor; high: Minor } | null => {
  const onBench = (saved?.cars ?? []).filter(
    ({ carId, onBench: running, finishedOn }) =>
      running && finishedOn === null && isIn(season.standings.get(carId)),
  );
  const cars = [
    ...waiting.map(({ weighed, offer }) => ({ carId: weighed.car.id, option: offer.option })),
    ...onBench.map(({ carId, kind }) => ({ carId, option: kind })),
  ];
  const { data } = useQuery({
    queryKey: ['decide', 'range', cars],
    queryFn: () => api.decisions.range({ cars }),
    enabled: cars.length > 0,
    placeholderData: keepPreviousData,
  });
  if (cars.length === 0 || !data) return null;
  return { low: gain + data.low - data.mid, high: gain + data.high - data.mid };
};
