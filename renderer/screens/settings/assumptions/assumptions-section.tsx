import { SegmentedControl } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { type ReactNode, useEffect, useState } from 'react';
import type { AssumptionsView } from '../../../../electron/api/views.ts';
import { defaultAssumptions } from '../../../../valuation/default-assumptions.ts';
import type { AssumptionSet, Currency } from '../../../../valuation/types.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { Section } from '../../../components/layout/section.tsx';
import { Asking } from './asking.tsx';
import classes from './assumptions.module.css';
import { IndexChoice, Sources, Weights } from './counting.tsx';
import { countChanges, type PartOfDraft } from './draft.ts';
import { Grades } from './grades.tsx';
import { KeepBar } from './keep-bar.tsx';
import { DeviationLosses, PartLosses, RarityFactors } from './losses.tsx';
import { Spreads } from './spreads.tsx';
import { StandardPlan } from './standard-plan.tsx';
import { Versions } from './versions.tsx';
import { Workmanship } from './workmanship.tsx';

const Group = ({ title, lead, children }: { title: string; lead: string; children: ReactNode }) => (
  <div className={classes.group}>
    <h3>{title}</h3>
    <p className={classes.note}>{lead}</p>
    {children}
  </div>
);

const Groups = (part: PartOfDraft) => (
  <>
    <Group
      title="Grade and finish"
      lead="How much of the price is left with a lower grade or a changed finish. A factory finish can only be lost once, which is why it counts highest."
    >
      <Grades {...part} />
    </Group>
    <div className={classes.columns}>
      <Group title="Parts" lead="For a car or a sale with a part missing or replaced.">
        <PartLosses {...part} />
      </Group>
      <Group
        title="Departures of a restoration"
        lead="From the factory specification of the variation; each is taken once."
      >
        <DeviationLosses {...part} />
      </Group>
    </div>
    <div className={classes.columns}>
      <Group title="When work is recommended" lead="Nothing is recommended that does not pass all of these.">
        <Asking {...part} />
      </Group>
      <div>
        <Group title="How sales count" lead="Newer, nearer and better documented sales count more.">
          <Weights {...part} />
        </Group>
        <Group
          title="Rarity"
          lead="Compared with a common variation of the same casting, before its own sales are counted. Where the rarity is not known, a variation that was never seen sold, though others of its casting were, is likelier rare."
        >
          <RarityFactors {...part} />
        </Group>
      </div>
    </div>
    <div className={classes.columns}>
      <Group title="Sources" lead="A sale known from hearsay counts less than a documented one.">
        <Sources {...part} />
      </Group>
      <Group title="Old prices" lead="How an old price is adjusted to today.">
        <IndexChoice {...part} />
      </Group>
    </div>
    <Group
      title="Cars with no plan of their own"
      lead="They are compared by a plan made from each car (its grades, parts, finish and specification), or by one standard plan for all. Of the figures below, a plan made from the car takes the grade aimed at, what a reproduction part costs, and what conserving gains."
    >
      <SegmentedControl
        aria-label="Plans for cars with none of their own"
        data={[
          { value: 'car', label: 'Made from each car' },
          { value: 'standard', label: 'Standard plan' },
        ]}
        value={part.draft.work.plansFrom}
        onChange={plansFrom =>
          part.set({
            work: { ...part.draft.work, plansFrom: plansFrom === 'standard' ? 'standard' : 'car' },
          })
        }
      />
      <StandardPlan {...part} />
    </Group>
    <Group
      title="Workmanship"
      lead="How often your work ends below the grade that it aims at. A share that you change takes from the others in proportion."
    >
      <Workmanship {...part} />
    </Group>
    <Spreads {...part} />
  </>
);

const Editor = ({ view, currency }: { view: AssumptionsView; currency: Currency }) => {
  const [draft, setDraft] = useState<AssumptionSet>(view.body);
  // What is in force changed, by keeping it here or by an undo: the draft follows.
  useEffect(() => setDraft(view.body), [view.body]);
  const changes = countChanges(view.body, draft);
  const save = useAction(
    ({ body, note }: { body: AssumptionSet; note: string }) => api.collection.saveAssumptions({ body, note }),
    { label: (_, saved) => `Assumptions saved as version ${saved.version}` },
  );
  return (
    <>
      <p className={classes.lead}>
        These are the project’s own starting points: common practice expressed as figures. No published guide
        is behind them. Your sale records correct most of them automatically as you add them; change what your
        own experience contradicts. Every value and recommendation is updated at once, and earlier versions
        stay.
      </p>
      <Groups
        draft={draft}
        set={change => setDraft(before => ({ ...before, ...change }))}
        currency={currency}
      />
      <Group title="Versions" lead="The newest is in use; undo goes back to the one before.">
        <Versions view={view} onStartingPoints={() => setDraft(defaultAssumptions(currency))} />
      </Group>
      {changes > 0 ? (
        <KeepBar
          changes={changes}
          next={(view.versions[0]?.version ?? 0) + 1}
          saving={save.isPending}
          onKeep={note => save.mutate({ body: draft, note })}
          onDiscard={() => setDraft(view.body)}
        />
      ) : null}
    </>
  );
};

/** What the estimates assume where the records do not say, in plain words, to be changed as a whole. */
export const AssumptionsSection = ({ currency }: { currency: Currency }) => {
  const { data: view, isPending } = useQuery({
    queryKey: ['assumptions'],
    queryFn: () => api.collection.assumptions(),
  });
  const standing = view
    ? view.untouched
      ? 'the starting points, unchanged'
      : `version ${view.version}${view.note ? `: ${view.note}` : ''}`
    : null;
  return (
    <Section id="assumptions" title="Assumptions" aside={standing}>
      {view ? <Editor view={view} currency={currency} /> : isPending ? <LoadingState part /> : null}
    </Section>
  );
};
