import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { SeasonView } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import type { Planned, Season } from './season.ts';
import { onBenchOf, type SeasonOutlook, seasonOutlook } from './season-outlook.ts';

/**
 * What a season has brought and what is ahead of it, with the 80 % range: what of the work is still ahead
 * varies together, by what the cars' values share.
 */
export const useSeasonOutlook = (of: {
  season: Season;
  saved: SeasonView | null;
  waiting: readonly Planned[];
}): SeasonOutlook => {
  const cars = [
    ...of.waiting.map(({ weighed, offer }) => ({ carId: weighed.car.id, option: offer.option })),
    ...onBenchOf(of.season, of.saved).map(({ carId, kind }) => ({ carId, option: kind })),
  ];
  const { data } = useQuery({
    queryKey: ['decide', 'range', cars],
    queryFn: () => api.decisions.range({ cars }),
    enabled: cars.length > 0,
    placeholderData: keepPreviousData,
  });
  return seasonOutlook(of, data ?? null);
};
