import { Button } from '@mantine/core';
import { useState } from 'react';
import type { DecideOverview } from '../../../electron/api/views.ts';
import { MostHelpful } from '../../components/evidence/helpful-answers.tsx';
import { LookUpLine } from '../../components/evidence/look-up-next.tsx';
import { KeyHint } from '../../components/keys/key-hint.tsx';
import { useKeys } from '../../components/keys/use-keys.ts';
import { PageHeader } from '../../components/layout/page-header.tsx';
import { Band } from './band.tsx';
import type { Tab } from './beside-chart.tsx';
import classes from './decide.module.css';
import { everything } from './filter/filter.ts';
import { Sentence } from './filter/sentence.tsx';
import { DecisionDrawer } from './inspector/decision-drawer.tsx';
import { DecideList } from './list/decide-list.tsx';
import { NoEvidence } from './no-evidence.tsx';
import { RecordDialog } from './season/record-dialog.tsx';
import { SeasonBar } from './season/season-bar.tsx';
import { useRecord } from './season/use-record.ts';
import { type Ground, useSeasonWork } from './season/use-season-work.ts';
import { useListedCars } from './use-listed-cars.ts';
import { useSharedCursor } from './use-shared-cursor.ts';
import { ValueOfAnHour } from './value-of-an-hour.tsx';

const Lacking = ({ count }: { count: number }) =>
  count > 0 ? (
    <p className={classes.lacking}>
      {count === 1 ? '1 car lacks evidence.' : `${count} cars lack evidence.`} <MostHelpful />
    </p>
  ) : null;

/**
 * Which cars to work on: all of them weighed in a chart and a list, and the season that they are taken into.
 */
export const DecideScreen = ({ overview, ...ground }: { overview: DecideOverview } & Ground) => {
  const { cars } = overview;
  const { currency } = ground;
  const { filter, setFilter, lots, ofSentence, listed, byId, named } = useListedCars(overview);
  const { cursor, sentTo, follow, send } = useSharedCursor(named);
  const [selected, setSelected] = useState<number[]>([]);
  const [opened, setOpened] = useState<number | null>(null);
  const [tab, setTab] = useState<Tab>('car');
  const work = useSeasonWork({ cars, listed, byId }, ground);
  const record = useRecord(byId, selected);
  const { asRecommended, recordSelected } = record;
  useKeys('Decide', [
    { keys: 'Space', does: 'Add the selected cars to the season, or remove them' },
    { keys: 'M', does: 'Require in the season (on/off)', run: () => work.require(selected) },
    { keys: 'X', does: 'Exclude from the season (on/off)', run: () => work.exclude(selected) },
    { keys: 'R', does: 'Record the selected cars as recommended', run: recordSelected },
  ]);

  const known = cars.some(({ shown }) => shown);
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
          cursor={cursor === null ? null : (byId.get(cursor) ?? null)}
          onCursor={send}
          onOpen={setOpened}
          tab={tab}
          onTab={setTab}
          work={work}
          byId={byId}
        />
      )}
      {known ? <Lacking count={cars.filter(({ shown }) => !shown).length} /> : null}
      {known ? <LookUpLine currency={currency} /> : null}
      {known ? <ValueOfAnHour /> : null}
      <DecideList
        cars={listed}
        currency={currency}
        standings={work.season.standings}
        startAt={sentTo}
        onCursor={follow}
        onSelect={setSelected}
        onOpen={setOpened}
        onToggle={work.toggle}
        onToggleOne={work.toggleOne}
        onAll={() => setFilter(everything)}
      />
      {known ? (
        <SeasonBar
          work={work}
          ground={ground}
          onChoose={() => {
            setTab('season');
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
