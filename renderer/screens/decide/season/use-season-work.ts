import { useCallback, useMemo } from 'react';
import { useLocation } from 'wouter';
import type { DecisionSummary, PartStock, SeasonView } from '../../../../electron/api/views.ts';
import type { Currency, IsoDate } from '../../../../valuation/types.ts';
import type { WorkKind } from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { showNotice } from '../../../components/notices/undo-notice.tsx';
import {
  candidatesOf,
  leftOf,
  leftOut,
  type Planned,
  partLimits,
  placesLeft,
  type Season,
  switched,
  toggled,
  totalsOf,
  waitingForBench,
  withChosen,
  withOption,
} from './season.ts';
import { useChoose } from './use-choose.ts';
import { useSeason } from './use-season.ts';
import { useSeasonOutlook } from './use-season-range.ts';

/** What the collection gives to the screen, beside its cars. */
export interface Ground {
  shelf: readonly PartStock[];
  seasons: readonly SeasonView[];
  currency: Currency;
  today: IsoDate;
  dir: string;
}

/**
 * What follows from a season and the cars: sums, limits, which cars it has, lacks, could take, and waits with
 * for the bench.
 */
const useSeasonFigures = (
  season: Season,
  {
    cars,
    listed,
    byId,
    shelf,
  }: {
    cars: readonly DecisionSummary[];
    listed: readonly DecisionSummary[];
    byId: ReadonlyMap<number, DecisionSummary>;
    shelf: readonly PartStock[];
  },
) => {
  const totals = useMemo(() => totalsOf(season, cars), [season, cars]);
  return {
    totals,
    limits: useMemo(() => partLimits(season, cars, shelf), [season, cars, shelf]),
    out: useMemo(() => leftOut(season, listed), [season, listed]),
    candidates: useMemo(() => candidatesOf(season, listed), [season, listed]),
    ringed: useMemo(() => new Set(totals.cars.map(({ car }) => car.id)), [totals]),
    waiting: useMemo(() => waitingForBench(season, byId), [season, byId]),
  };
};

/** Puts the cars that wait for it on the bench, and goes there. */
const useBench = (seasonId: number | null, waiting: readonly Planned[]) => {
  const [, navigate] = useLocation();
  const { mutate } = useAction(
    () =>
      api.bench.add({
        seasonId,
        cars: waiting.map(({ weighed, offer }) => ({ carId: weighed.car.id, kind: offer.option })),
      }),
    {
      label: () => `${waiting.length} ${waiting.length === 1 ? 'car' : 'cars'} put on the bench`,
      onDone: () => navigate('~/bench'),
    },
  );
  return () => mutate();
};

/** The season that cars are taken into, what follows from it, and what can be done with it. */
export const useSeasonWork = (
  of: {
    cars: readonly DecisionSummary[];
    listed: readonly DecisionSummary[];
    byId: ReadonlyMap<number, DecisionSummary>;
  },
  ground: Ground,
) => {
  const { byId } = of;
  const { season, saved, saving, change } = useSeason(ground.seasons, byId, ground);
  const figures = useSeasonFigures(season, { ...of, shelf: ground.shelf });
  const outlook = useSeasonOutlook({ season, saved, waiting: figures.waiting });
  const putOnBench = useBench(saved?.id ?? null, figures.waiting);
  const { state: choice, choose, cancel } = useChoose();

  const plannable = useCallback(
    (ids: readonly number[]) => {
      const able = ids.filter(id => (byId.get(id)?.offers.length ?? 0) > 0);
      if (able.length < ids.length)
        showNotice('There is not enough evidence to include that car in the season.');
      return able;
    },
    [byId],
  );
  const toggle = useCallback(
    (ids: readonly number[]) => {
      const able = plannable(ids);
      if (able.length > 0) change(before => toggled(before, able));
    },
    [plannable, change],
  );
  const toggleOne = useCallback((id: number) => toggle([id]), [toggle]);
  const require = (ids: readonly number[]) => {
    const able = plannable(ids);
    if (able.length > 0) change(before => switched(before, able, 'must'));
  };
  const exclude = (ids: readonly number[]) => {
    if (ids.length > 0) change(before => switched(before, ids, 'never'));
  };
  const chooseBest = async () => {
    const within = (word: string) =>
      [...season.standings].flatMap(([id, standing]) => (standing === word ? [id] : []));
    const chosen = await choose({
      carIds: figures.candidates,
      hours: leftOf(season, 'hours'),
      cash: leftOf(season, 'cash'),
      parts: Object.fromEntries(
        [...figures.limits].filter((one): one is [string, number] => one[1] !== null),
      ),
      perCasting: season.perCasting,
      cars: placesLeft(season),
      by: figures.waiting.flatMap(({ weighed: { car }, offer }) =>
        season.standings.get(car.id) === 'must' ? [{ carId: car.id, option: offer.option }] : [],
      ),
      mustNot: within('never').filter(id => byId.has(id)),
    });
    if (chosen) change(before => withChosen(before, chosen));
  };
  const setOption = (id: number, option: WorkKind) => change(before => withOption(before, id, option));
  const setColours = (colours: ReadonlyMap<number, string>) => change(before => ({ ...before, colours }));
  return {
    season,
    saved,
    saving,
    change,
    ...figures,
    outlook,
    toggle,
    toggleOne,
    require,
    exclude,
    choice,
    setOption,
    setColours,
    chooseBest,
    cancel,
    putOnBench,
  };
};

export type SeasonWork = ReturnType<typeof useSeasonWork>;
