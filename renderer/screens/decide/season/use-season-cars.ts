import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useCallback, useMemo, useRef, useState } from 'react';
import type { DecisionSummary, SeasonView } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';

/** So many cars are asked for at once. */
const together = 2000;

const weighedCars = async (ids: readonly number[]): Promise<DecisionSummary[]> => {
  const cars: DecisionSummary[] = [];
  for (let at = 0; at < ids.length; at += together)
    cars.push(...(await api.decisions.weighed({ ids: ids.slice(at, at + together) })));
  return cars;
};

const mapOf = (cars: readonly DecisionSummary[]) => new Map(cars.map(one => [one.car.id, one]));

/**
 * The cars that a season is made of, weighed: those that the saved one has, and those that are being taken
 * in. `known` always holds them, also before the screen is drawn again.
 */
export const useSeasonCars = (seasons: readonly SeasonView[] | undefined) => {
  const saved = seasons?.find(({ current }) => current) ?? null;
  const ids = useMemo(() => saved?.cars.map(({ carId }) => carId).sort((a, b) => a - b) ?? [], [saved]);
  const { data, error, refetch, isPlaceholderData } = useQuery({
    queryKey: ['decide', 'weighed', ids],
    queryFn: () => weighedCars(ids),
    enabled: seasons !== undefined,
    placeholderData: keepPreviousData,
  });
  const [added, setAdded] = useState<ReadonlyMap<number, DecisionSummary>>(new Map());
  const byId = useMemo(() => new Map([...added, ...mapOf(data ?? [])]), [added, data]);
  const known = useRef<ReadonlyMap<number, DecisionSummary>>(byId);
  known.current = byId;
  /** Takes cars that are here into those that are known. */
  const learn = useCallback((cars: readonly DecisionSummary[]) => {
    const fresh = mapOf(cars);
    known.current = new Map([...known.current, ...fresh]);
    setAdded(before => new Map([...before, ...fresh]));
  }, []);
  /** Asks for those of these cars that are not known. */
  const know = useCallback(
    async (wanted: readonly number[]) => {
      const missing = wanted.filter(id => !known.current.has(id));
      if (missing.length > 0) learn(await weighedCars(missing));
    },
    [learn],
  );
  return {
    byId,
    known,
    learn,
    know,
    isReady: data !== undefined,
    isComing: isPlaceholderData,
    error,
    refetch,
  };
};

export type SeasonCars = ReturnType<typeof useSeasonCars>;
