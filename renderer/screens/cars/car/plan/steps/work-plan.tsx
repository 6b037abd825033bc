import { Button, SegmentedControl, Textarea, TextInput } from '@mantine/core';
import { keepPreviousData, useQuery } from '@tanstack/react-query';
import { useEffect, useRef, useState } from 'react';
import type { CarPage, CarPlanView } from '../../../../../../electron/api/views.ts';
import type { Currency, PlanWishes } from '../../../../../../valuation/types.ts';
import { hazardsOf } from '../../../../../../valuation/wording/cautions.ts';
import { isWorkKind, paintsCar, type WorkKind, workKinds } from '../../../../../../valuation/words.ts';
import { api } from '../../../../../api/client.ts';
import { useAction } from '../../../../../components/actions/use-action.ts';
import { CautionList } from '../../../../../components/cautions/caution-list.tsx';
import { useWords } from '../../../../../components/words.ts';
import planClasses from '../plan.module.css';
import { Compare } from './compare.tsx';
import { LinesTable } from './lines-table.tsx';
import { PlanDepartures, PlanParts } from './parts-and-departures.tsx';
import { PlanAims, PlanFigures } from './plan-figures.tsx';
import classes from './steps.module.css';
import { CostText, hoursText } from './three-text.tsx';

type Sent = NonNullable<Parameters<typeof api.plans.view>[0]['wishes']>;

const Standing = ({
  view,
  changed,
  currency,
}: {
  view: CarPlanView;
  changed: boolean;
  currency: Currency;
}) => {
  const words = useWords();
  const toDo = paintsCar(view.kind) ? '' : ` to ${words.option(view.kind).infinitive} it`;
  if (changed) return <strong>Changed, not saved yet.</strong>;
  if (view.saved === 'steps' && view.before)
    return (
      <>
        <strong>This car’s own plan{toDo}.</strong> The car or your parts shelf has changed since it was
        saved. What was saved then still counts ({hoursText(view.before.hours)},{' '}
        <CostText cost={view.before.cost} currency={currency} />
        ); below it is worked out again. Save it to count that.
      </>
    );
  if (view.saved === 'steps')
    return (
      <>
        <strong>This car’s own plan{toDo},</strong> made of{' '}
        {view.libraryVersion === 0 ? 'the starting steps' : `version ${view.libraryVersion} of your steps`}.
      </>
    );
  return (
    <>
      <span className={planClasses.standard}>proposed</span> Made from this car’s grade, parts, finish and
      factory specification. Change anything to make it this car’s own.
    </>
  );
};

/** The plan of a car, made of steps: read, changed line by line, saved, compared, taken over from elsewhere. */
export const WorkPlanEditor = ({
  car,
  first,
  currency,
}: {
  car: CarPage;
  first: CarPlanView;
  currency: Currency;
}) => {
  const words = useWords();
  const [chosen, setChosen] = useState<WorkKind | null>(null);
  const kind = chosen ?? first.kind;
  // A change that is not saved yet.
  const [draft, setDraft] = useState<PlanWishes | null>(null);
  const kept = useQuery({
    queryKey: ['car-plan', car.id, kind, null],
    queryFn: () => api.plans.view({ carId: car.id, kind }),
    ...(kind === first.kind && { placeholderData: first }),
  });
  // What is saved of this kind of work, or is made from the car.
  const base = kept.data ?? null;
  // Wishes that were taken over from a plan of another kind, until that kind is shown.
  const waiting = useRef<PlanWishes | null>(null);
  const [notes, setNotes] = useState(first.notes);
  const [template, setTemplate] = useState('');
  const savedText = JSON.stringify(base && [base.saved, base.kind, base.wishes, base.notes]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: what is saved has changed, here or by an undo
  useEffect(() => {
    if (!base) return;
    setDraft(waiting.current);
    waiting.current = null;
    setNotes(base.notes);
  }, [savedText]);
  const asked = useQuery({
    queryKey: ['car-plan', car.id, kind, draft],
    queryFn: () => api.plans.view({ carId: car.id, kind, ...(draft && { wishes: draft as Sent }) }),
    placeholderData: keepPreviousData,
  });
  const sources = useQuery({ queryKey: ['plan-sources'], queryFn: () => api.plans.sources() });
  const view = asked.data?.kind === kind ? asked.data : (base ?? asked.data ?? first);
  const wishes = draft ?? view.wishes;
  const change = setDraft;
  const go = (to: WorkKind, wished: PlanWishes | null) => {
    if (to === kind) return setDraft(wished);
    waiting.current = wished;
    setDraft(null);
    setChosen(to);
  };
  const paints = paintsCar(kind);
  const save = useAction(() => api.plans.save({ carId: car.id, kind, wishes: wishes as Sent, notes }), {
    label: 'Plan saved',
    onDone: () => setDraft(null),
  });
  const drop = useAction(() => api.plans.remove({ carId: car.id, kind }), {
    label: 'Back to the proposed plan',
  });
  const saveTemplate = useAction(
    (name: string) => api.plans.saveTemplate({ name, kind, wishes: wishes as Sent, fromCarId: car.id }),
    { label: name => `Saved the template “${name}”`, onDone: () => setTemplate('') },
  );
  const unsaved = draft !== null && JSON.stringify(draft) !== JSON.stringify(base?.wishes);
  const changed = unsaved || notes !== (base?.notes ?? '');
  const isSaved = base?.saved === 'steps';
  const elsewhere = (sources.data ?? []).filter(({ carId }) => carId !== car.id);
  return (
    <div aria-busy={asked.isPlaceholderData || undefined}>
      <div className={classes.top}>
        <SegmentedControl
          aria-label="Kind of work"
          data={workKinds.map(one => ({ value: one, label: words.option(one).name }))}
          value={kind}
          onChange={next => go(isWorkKind(next) ? next : 'restore', null)}
        />
        {elsewhere.length > 0 ? (
          <select
            className={planClasses.cell}
            aria-label="Copy another plan"
            value=""
            onChange={event => {
              const source = elsewhere[Number(event.currentTarget.value)];
              if (source) go(source.kind, source.wishes);
            }}
          >
            <option value="">Copy a plan…</option>
            {elsewhere.map((source, i) => (
              <option key={`${source.id ?? ''} ${source.carId ?? ''}`} value={i}>
                {source.name}
              </option>
            ))}
          </select>
        ) : null}
      </div>
      <p className={planClasses.what}>
        <Standing view={view} changed={unsaved} currency={currency} />
      </p>
      <PlanFigures view={view} currency={currency} />
      {paints ? <PlanAims view={view} wishes={wishes} onChange={change} /> : null}
      <LinesTable view={view} wishes={wishes} currency={currency} onChange={change} />
      {paints ? (
        <div className={classes.halves}>
          <PlanParts view={view} wishes={wishes} currency={currency} onChange={change} />
          <PlanDepartures view={view} wishes={wishes} onChange={change} />
        </div>
      ) : null}
      <div className={classes.cautions}>
        <CautionList hazards={hazardsOf(kind, [notes], view.plan.hazards)} open />
      </div>
      <Textarea
        label="Notes on the work"
        autosize
        minRows={1}
        maxRows={12}
        value={notes}
        onChange={event => setNotes(event.currentTarget.value)}
      />
      <div className={planClasses.actions}>
        <Button
          variant={changed ? 'filled' : 'default'}
          disabled={!base || (!changed && isSaved && view.before === null)}
          loading={save.isPending}
          onClick={() => save.mutate()}
        >
          {isSaved
            ? 'Save the plan'
            : paints
              ? 'Save as this car’s plan'
              : `Save as the plan to ${words.option(kind).infinitive} it`}
        </Button>
        {changed ? (
          <Button
            variant="subtle"
            onClick={() => {
              setDraft(null);
              setNotes(base?.notes ?? '');
            }}
          >
            Discard changes
          </Button>
        ) : null}
        {isSaved ? (
          <Button variant="subtle" onClick={() => drop.mutate()}>
            Back to the proposed plan
          </Button>
        ) : null}
        <form
          className={classes.template}
          onSubmit={event => {
            event.preventDefault();
            if (template.trim() !== '') saveTemplate.mutate(template.trim());
          }}
        >
          <TextInput
            aria-label="Name of a template"
            placeholder="name of a template"
            maxLength={200}
            value={template}
            onChange={event => setTemplate(event.currentTarget.value)}
          />
          <Button type="submit" variant="subtle" disabled={template.trim() === ''}>
            Save as a template
          </Button>
        </form>
      </div>
      <Compare carId={car.id} view={view} sources={elsewhere} currency={currency} />
    </div>
  );
};
