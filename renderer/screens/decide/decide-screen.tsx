import { Button } from '@mantine/core';
import { useCallback, useMemo, useState } from 'react';
import { useLocation, useSearch } from 'wouter';
import type { DecideOverview, PartStock, SeasonView } from '../../../electron/api/views.ts';
import type { IsoDate } from '../../../valuation/types.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { MostHelpful } from '../../components/evidence/helpful-answers.tsx';
import { KeyHint } from '../../components/keys/key-hint.tsx';
import { useKeys } from '../../components/keys/use-keys.ts';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { showNotice } from '../../components/notices/undo-notice.tsx';
import { Band } from './band.tsx';
import classes from './decide.module.css';
import { everything, type Filter, passes, readFilter, writeFilter } from './filter/filter.ts';
import { Sentence } from './filter/sentence.tsx';
import { DecisionDrawer } from './inspector/decision-drawer.tsx';
import { DecideList } from './list/decide-list.tsx';
import { NoEvidence } from './no-evidence.tsx';
import { RecordDialog, type ToRecord } from './season/record-dialog.tsx';
import { nextName, workKindOf } from './season/saved-season.ts';
import {
  candidatesOf,
  leftOf,
  leftOut,
  mostCandidates,
  partLimits,
  switched,
  toggled,
  totalsOf,
  waitingForBench,
  withChosen,
} from './season/season.ts';
import { SeasonBar } from './season/season-bar.tsx';
import { SeasonMenu } from './season/season-menu.tsx';
import { useChoose } from './season/use-choose.ts';
import { useSeason } from './season/use-season.ts';
import { useSharedCursor } from './use-shared-cursor.ts';
import { ValueOfAnHour } from './value-of-an-hour.tsx';

const lotsOf = ({ cars }: DecideOverview) =>
  [...new Map(cars.flatMap(({ car }) => (car.lotId === null ? [] : ([[car.lotId, car.lot ?? '']] as const))))]
    .map(([id, name]) => ({ id, name }))
    .sort((a, b) => a.name.localeCompare(b.name));

/**
 * Which cars to work on: all of them weighed in a chart and a list, and the season that they are taken into.
 */
export const DecideScreen = ({
  overview,
  shelf,
  seasons,
  dir,
  today,
}: {
  overview: DecideOverview;
  shelf: readonly PartStock[];
  seasons: readonly SeasonView[];
  dir: string;
  today: IsoDate;
}) => {
  const { cars, currency } = overview;
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
  const { cursor, sentTo, follow, send } = useSharedCursor(byId.has(asked) ? asked : null);
  const [selected, setSelected] = useState<number[]>([]);
  const [opened, setOpened] = useState<number | null>(null);
  const [recording, setRecording] = useState<ToRecord[] | null>(null);
  const [tab, setTab] = useState<'car' | 'season'>('car');

  const { season, saved, saving, change } = useSeason(seasons, byId, { currency, today, dir });
  const totals = useMemo(() => totalsOf(season, cars), [season, cars]);
  const limits = useMemo(() => partLimits(season, cars, shelf), [season, cars, shelf]);
  const out = useMemo(() => leftOut(season, listed), [season, listed]);
  const candidates = useMemo(() => candidatesOf(season, listed), [season, listed]);
  const ringed = useMemo(() => new Set(totals.cars.map(({ car }) => car.id)), [totals]);
  const waiting = useMemo(() => waitingForBench(season, byId), [season, byId]);
  const bench = useAction(
    () =>
      api.bench.add({
        seasonId: saved?.id ?? null,
        cars: waiting.map(weighed => ({ carId: weighed.car.id, kind: workKindOf(weighed) })),
      }),
    {
      label: () => `${waiting.length} ${waiting.length === 1 ? 'car' : 'cars'} put on the bench`,
      onDone: () => navigate('~/bench'),
    },
  );
  const { state: choice, choose, cancel } = useChoose();

  const plannable = useCallback(
    (ids: readonly number[]) => {
      const able = ids.filter(id => byId.get(id)?.plan);
      if (able.length < ids.length) showNotice('There is not enough evidence to plan that car in.');
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
  const chooseBest = async () => {
    const { standings } = season;
    const within = (word: string) =>
      [...standings].flatMap(([id, standing]) => (standing === word ? [id] : []));
    const must = within('must').filter(id => byId.get(id)?.plan && !season.begun.has(id));
    setTab('season');
    const portfolio = await choose({
      carIds: candidates,
      hours: leftOf(season, 'hours'),
      cash: leftOf(season, 'cash'),
      parts: Object.fromEntries([...limits].filter((one): one is [string, number] => one[1] !== null)),
      perCasting: season.perCasting,
      must,
      mustNot: within('never').filter(id => byId.has(id)),
    });
    if (portfolio) change(before => withChosen(before, portfolio));
  };
  const recommendedOf = (ids: readonly number[]): ToRecord[] =>
    ids.flatMap(id => {
      const weighed = byId.get(id);
      const word = weighed?.car.recommendation;
      return weighed && word && word !== 'not-enough-evidence' ? [{ weighed, choice: word }] : [];
    });
  const asRecommended = recommendedOf(selected).slice(0, mostCandidates);
  const recordSelected = () => {
    if (asRecommended.length > 0) setRecording(asRecommended);
  };
  useKeys('Decide', [
    { keys: 'Space', does: 'Add the selected cars to the season, or remove them' },
    {
      keys: 'M',
      does: 'Require in the season (on/off)',
      run: () => {
        const able = plannable(selected);
        if (able.length > 0) change(before => switched(before, able, 'must'));
      },
    },
    {
      keys: 'X',
      does: 'Exclude from the season (on/off)',
      run: () => selected.length > 0 && change(before => switched(before, selected, 'never')),
    },
    { keys: 'R', does: 'Record the selected cars as recommended', run: recordSelected },
  ]);

  const known = cars.some(({ shown }) => shown);
  const unknown = cars.filter(({ shown }) => !shown).length;
  return (
    <div className="fill">
      <PageHeader
        title="Decide"
        facts={<Sentence filter={filter} lots={lots} onChange={setFilter} />}
        actions={
          <Button
            onClick={recordSelected}
            disabled={asRecommended.length === 0}
            rightSection={<KeyHint keys="R" />}
          >
            {asRecommended.length > 1
              ? `Record ${asRecommended.length} as recommended`
              : 'Record as recommended'}
          </Button>
        }
      />
      {!known ? (
        <NoEvidence />
      ) : listed.length === 0 ? null : (
        <Band
          overview={overview}
          listed={listed}
          ofSentence={ofSentence}
          filter={filter}
          onFilter={setFilter}
          ringed={ringed}
          cursor={cursor === null ? null : (byId.get(cursor) ?? null)}
          onCursor={send}
          onOpen={setOpened}
          onToggle={toggleOne}
          tab={tab}
          onTab={setTab}
          season={season}
          saved={saved}
          totals={totals}
          out={out}
          choice={choice}
        />
      )}
      {known && unknown > 0 ? (
        <p className={classes.lacking}>
          {unknown === 1 ? '1 car lacks evidence.' : `${unknown} cars lack evidence.`} <MostHelpful />
        </p>
      ) : null}
      {known ? <ValueOfAnHour /> : null}
      <DecideList
        cars={listed}
        currency={currency}
        standings={season.standings}
        startAt={sentTo}
        onCursor={follow}
        onSelect={setSelected}
        onOpen={setOpened}
        onToggle={toggle}
        onToggleOne={toggleOne}
        onAll={() => setFilter(everything)}
      />
      {known ? (
        <SeasonBar
          season={season}
          totals={totals}
          limits={limits}
          currency={currency}
          running={choice.is === 'running'}
          saving={saving}
          canChoose={candidates.length > 0 || waiting.length > 0}
          menu={
            <SeasonMenu
              seasons={seasons}
              saved={saved}
              currency={currency}
              today={today}
              newName={nextName(
                seasons.map(({ name }) => name),
                today.slice(0, 4),
              )}
            />
          }
          toRecord={waiting.length}
          toBench={waiting.length}
          onSeason={change}
          onChoose={() => void chooseBest()}
          onCancel={cancel}
          onRecord={() =>
            setRecording(
              waiting.flatMap(weighed => (weighed.plan ? [{ weighed, choice: weighed.plan.option }] : [])),
            )
          }
          onBench={() => bench.mutate()}
        />
      ) : null}
      <DecisionDrawer carId={opened} currency={currency} onClose={() => setOpened(null)} />
      <RecordDialog list={recording} onClose={() => setRecording(null)} />
    </div>
  );
};
