import { Button, SegmentedControl } from '@mantine/core';
import { useMediaQuery } from '@mantine/hooks';
import { useState } from 'react';
import type { DecideFacts } from '../../../electron/api/views.ts';
import { MostHelpful } from '../../components/evidence/helpful-answers.tsx';
import { LookUpLine } from '../../components/evidence/look-up-next.tsx';
import { readerLocale } from '../../components/format.ts';
import { KeyHint } from '../../components/keys/key-hint.tsx';
import { useKeys } from '../../components/keys/use-keys.ts';
import { OfBefore } from '../../components/layout/of-before.tsx';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { ExportMenu } from '../../components/saved-views/export-menu.tsx';
import { Band } from './band.tsx';
import type { Tab } from './beside-chart.tsx';
import classes from './decide.module.css';
import { everything, type Filter, seenQuery } from './filter/filter.ts';
import { Sentence } from './filter/sentence.tsx';
import { DecisionDrawer } from './inspector/decision-drawer.tsx';
import { DecideList } from './list/decide-list.tsx';
import type { DecideListState } from './list/use-decide-list.ts';
import { NoEvidence } from './no-evidence.tsx';
import { RecordDialog } from './season/record-dialog.tsx';
import { SeasonBar } from './season/season-bar.tsx';
import { useRecord } from './season/use-record.ts';
import type { SeasonCars } from './season/use-season-cars.ts';
import { type Ground, useSeasonWork } from './season/use-season-work.ts';
import type { SharedCursor } from './use-shared-cursor.ts';
import { ValueOfAnHour } from './value-of-an-hour.tsx';

const Lacking = ({ count }: { count: number }) =>
  count > 0 ? (
    <p className={classes.lacking}>
      {count === 1 ? '1 car lacks evidence.' : `${count.toLocaleString(readerLocale())} cars lack evidence.`}{' '}
      <MostHelpful />
    </p>
  ) : null;

/** What a narrow screen shows of Decide, one at a time. */
type View = 'list' | 'chart' | 'beside';
const viewsOf = (inSeason: number): { value: View; label: string }[] => [
  { value: 'list', label: 'List' },
  { value: 'chart', label: 'Chart' },
  { value: 'beside', label: inSeason > 0 ? `Car, season (${inSeason})` : 'Car, season' },
];

/**
 * Which cars to work on: all of them weighed in a chart and a list, and the season that they are taken into.
 */
export const DecideScreen = ({
  facts,
  areOld,
  filter,
  setFilter,
  list,
  cars,
  shared,
  ...ground
}: {
  facts: DecideFacts;
  /** They are still those of the filter before. */
  areOld: boolean;
  filter: Filter;
  setFilter: (filter: Filter) => void;
  list: DecideListState;
  cars: SeasonCars;
  shared: SharedCursor;
} & Ground) => {
  const { currency } = ground;
  const { cursor, sentTo, follow, send } = shared;
  const [opened, setOpened] = useState<number | null>(null);
  const [tab, setTab] = useState<Tab>('car');
  const [view, setView] = useState<View>('list');
  const narrow = useMediaQuery('(max-width: 1000px)', undefined, { getInitialValueInEffect: false });
  const narrowest = useMediaQuery('(max-width: 760px)', undefined, { getInitialValueInEffect: false });
  const work = useSeasonWork({ facts, filter, cars }, ground);
  const record = useRecord(list);
  const { asRecommended, recordSelected } = record;
  const { windowed, withSelected } = list;
  useKeys('Decide', [
    { keys: 'Space', does: 'Add the selected cars to the season, or remove them' },
    { keys: 'M', does: 'Require in the season (on/off)', run: () => void withSelected(work.require) },
    { keys: 'X', does: 'Exclude from the season (on/off)', run: () => void withSelected(work.exclude) },
    { keys: 'R', does: 'Record the selected cars as recommended', run: recordSelected },
  ]);

  const known = facts.lacking < facts.cars;
  const inTurn = narrow && known;
  const shows = (one: View) => !inTurn || view === one;
  return (
    <div className="fill" data-view={inTurn ? view : undefined}>
      <PageHeader
        title="Decide"
        facts={<Sentence filter={filter} lots={facts.lots} onChange={setFilter} />}
        actions={
          <>
            <ExportMenu list="decisions" shown={seenQuery(filter, list.sort)} whole="" />
            <Button
              onClick={recordSelected}
              disabled={asRecommended === 0}
              rightSection={<KeyHint keys="R" />}
            >
              {asRecommended > 1
                ? `Record ${asRecommended.toLocaleString(readerLocale())} as recommended`
                : 'Record as recommended'}
            </Button>
          </>
        }
      />
      {facts.workingOut ? (
        <OfBefore what="Order, sums and chart are by the values" workingOut={facts.workingOut} />
      ) : null}
      {inTurn ? (
        <SegmentedControl
          className={classes.views}
          fullWidth
          aria-label="What to show"
          data={viewsOf(work.totals.cars.length)}
          value={view}
          onChange={value => setView(value as View)}
        />
      ) : null}
      {!known ? (
        <NoEvidence />
      ) : (inTurn && view === 'list') || windowed.rows.length === 0 ? null : (
        <Band
          facts={facts}
          areOld={areOld}
          isListOld={windowed.isComing}
          filter={filter}
          onFilter={setFilter}
          cursor={cursor}
          cursorCar={windowed.atCursor}
          onCursor={send}
          onOpen={setOpened}
          tab={tab}
          onTab={setTab}
          work={work}
        />
      )}
      {known && shows('chart') ? (
        <>
          <Lacking count={facts.lacking} />
          <LookUpLine currency={currency} />
        </>
      ) : null}
      {known && shows('list') ? <ValueOfAnHour narrow={narrow} /> : null}
      <DecideList
        list={list}
        facts={facts}
        standings={work.season.standings}
        startAt={sentTo}
        onCursor={follow}
        onOpen={setOpened}
        onToggle={() => void withSelected(work.toggle)}
        onToggleOne={work.toggleOne}
        onAll={() => setFilter(everything)}
      />
      {known && (shows('beside') || !narrowest) ? (
        <SeasonBar
          work={work}
          ground={ground}
          onChoose={() => {
            setTab('season');
            setView('beside');
            void work.chooseBest();
          }}
          onRecord={() => record.recordPlanned(work.waiting)}
        />
      ) : null}
      <DecisionDrawer carId={opened} currency={currency} onClose={() => setOpened(null)} />
      <RecordDialog list={record.recording} onClose={record.close} />
    </div>
  );
};
