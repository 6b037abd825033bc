import { useCallback, useMemo } from 'react';
import { useLocation } from 'wouter';
import type { DecideFacts, DecisionSummary, PartStock, SeasonView } from '../../../../electron/api/views.ts';
import { partLimits } from '../../../../valuation/choice/season-offer.ts';
import type { Currency, IsoDate } from '../../../../valuation/types.ts';
import type { WorkKind } from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { showNotice } from '../../../components/notices/undo-notice.tsx';
import type { Filter } from '../filter/filter.ts';
import {
  leftOf,
  type Planned,
  placesLeft,
  type Season,
  type Standing,
  switched,
  toggled,
  totalsOf,
  waitingForBench,
  withChosen,
  withOption,
} from './season.ts';
import { useChoose } from './use-choose.ts';
import { useSeason } from './use-season.ts';
import type { SeasonCars } from './use-season-cars.ts';
import { useSeasonOutlook } from './use-season-range.ts';

/** What the collection gives to the screen, beside its cars. */
export interface Ground {
  shelf: readonly PartStock[];
  seasons: readonly SeasonView[];
  currency: Currency;
  today: IsoDate;
  dir: string;
}

/** What follows from a season and its cars: sums, limits, which cars it has, and waits with for the bench. */
const useSeasonFigures = (
  season: Season,
  { byId, parts, shelf }: { byId: SeasonCars['byId']; parts: readonly string[]; shelf: Ground['shelf'] },
) => {
  const totals = useMemo(() => totalsOf(season, [...byId.values()]), [season, byId]);
  return {
    totals,
    limits: useMemo(() => partLimits(season.parts, parts, shelf), [season.parts, parts, shelf]),
    ringed: useMemo(() => new Set(totals.cars.map(({ car }) => car.id)), [totals]),
    waiting: useMemo(() => waitingForBench(season, byId), [season, byId]),
  };
};

const within = ({ standings }: Season, word: Standing) =>
  [...standings].flatMap(([id, standing]) => (standing === word ? [id] : []));

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
      thenGo: ({ ids }) => navigate(`~/bench/${ids[0] ?? ''}`),
    },
  );
  return () => mutate();
};

/**
 * The season that cars are taken into, what follows from it, and what can be done with it; `filter` shows the
 * cars among which the best set is looked for.
 */
export const useSeasonWork = (
  { facts, filter, cars }: { facts: DecideFacts; filter: Filter; cars: SeasonCars },
  ground: Ground,
) => {
  const { byId, known, learn, know } = cars;
  const { season, saved, saving, change } = useSeason(ground.seasons, cars, ground);
  const figures = useSeasonFigures(season, { byId, parts: facts.parts, shelf: ground.shelf });
  const outlook = useSeasonOutlook({ season, saved, waiting: figures.waiting });
  const putOnBench = useBench(saved?.id ?? null, figures.waiting);
  const { state: choice, choose, cancel } = useChoose();

  /** Changes the season by those of the cars of which enough is known. */
  const changeBy = useCallback(
    (chosen: readonly DecisionSummary[], how: (season: Season, ids: number[]) => Season) => {
      const able = chosen.filter(({ offers }) => offers.length > 0);
      if (able.length < chosen.length)
        showNotice('There is not enough evidence to include that car in the season.');
      if (able.length === 0) return;
      learn(able);
      change(before =>
        how(
          before,
          able.map(({ car }) => car.id),
        ),
      );
    },
    [change, learn],
  );
  const toggle = useCallback((chosen: readonly DecisionSummary[]) => changeBy(chosen, toggled), [changeBy]);
  const toggleOne = useCallback(
    async (id: number) => {
      await know([id]);
      toggle([known.current.get(id)].flatMap(one => one ?? []));
    },
    [know, known, toggle],
  );
  const require = (chosen: readonly DecisionSummary[]) =>
    changeBy(chosen, (before, ids) => switched(before, ids, 'must'));
  const exclude = (chosen: readonly DecisionSummary[]) => {
    const ids = chosen.map(({ car }) => car.id);
    if (ids.length > 0) change(before => switched(before, ids, 'never'));
  };
  const chooseBest = async () => {
    const chosen = await choose(
      {
        filter,
        hours: leftOf(season, 'hours'),
        cash: leftOf(season, 'cash'),
        parts: Object.fromEntries(
          [...figures.limits].filter((one): one is [string, number] => one[1] !== null),
        ),
        perCasting: season.perCasting,
        cars: placesLeft(season),
        // What has just been taken in and is on the bench is begun, though that is not yet saved.
        by: figures.waiting.flatMap(({ weighed: { car, onBench }, offer }) =>
          onBench || season.standings.get(car.id) === 'must' ? [{ carId: car.id, option: offer.option }] : [],
        ),
        mustNot: [...new Set([...within(season, 'never'), ...season.begun.keys()])],
      },
      ({ taken, next }) => know([...taken, ...next].map(({ id }) => id)),
    );
    if (chosen) change(before => withChosen(before, chosen));
  };
  const setOption = (id: number, option: WorkKind) => change(before => withOption(before, id, option));
  const setColours = (colours: ReadonlyMap<number, string>) => change(before => ({ ...before, colours }));
  return {
    season,
    saved,
    saving: saving || cars.isComing,
    change,
    ...figures,
    byId,
    filter,
    /** Whether anything would be chosen. */
    canChoose: facts.offered > 0 || figures.waiting.length > 0,
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
