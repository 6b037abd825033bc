import { useMemo } from 'react';
import { useLocation, useSearch } from 'wouter';
import type { DecideOverview } from '../../../electron/api/views.ts';
import { type Filter, passes, readFilter, writeFilter } from './filter/filter.ts';

const lotsOf = ({ cars }: DecideOverview) =>
  [...new Map(cars.flatMap(({ car }) => (car.lotId === null ? [] : ([[car.lotId, car.lot ?? '']] as const))))]
    .map(([id, name]) => ({ id, name }))
    .sort((a, b) => a.name.localeCompare(b.name));

/**
 * What the address asks for: the filter, the cars that pass it, those that pass all of it but for the
 * recommendation (`ofSentence`), and the car that the address names, if it is weighed here.
 */
export const useListedCars = (overview: DecideOverview) => {
  const { cars } = overview;
  const query = useSearch();
  const [, navigate] = useLocation();
  const filter = useMemo(() => readFilter(query), [query]);
  const setFilter = (next: Filter) => {
    const text = writeFilter(next);
    navigate(text === '' ? '~/decide' : `~/decide?${text}`, { replace: true });
  };
  const lots = useMemo(() => lotsOf(overview), [overview]);
  const ofSentence = useMemo(
    () => cars.filter(weighed => passes({ ...filter, recommendation: [] }, weighed)),
    [cars, filter],
  );
  const listed = useMemo(() => ofSentence.filter(weighed => passes(filter, weighed)), [ofSentence, filter]);
  const byId = useMemo(() => new Map(cars.map(weighed => [weighed.car.id, weighed])), [cars]);
  const asked = Number(new URLSearchParams(query).get('car'));
  return { filter, setFilter, lots, ofSentence, listed, byId, named: byId.has(asked) ? asked : null };
};
