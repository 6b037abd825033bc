import { SegmentedControl } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { CarPage, CarPlanView } from '../../../../../../electron/api/views.ts';
import type { Currency } from '../../../../../../valuation/types.ts';
import { hazardsOf } from '../../../../../../valuation/wording/work/cautions.ts';
import { isWorkKind, paintsCar, workKinds } from '../../../../../../valuation/words.ts';
import { api } from '../../../../../api/client.ts';
import { CautionList } from '../../../../../components/cautions/caution-list.tsx';
import { NotesField } from '../../../../../components/inputs/notes-field.tsx';
import { useWords } from '../../../../../components/words.ts';
import planClasses from '../plan.module.css';
import { Compare } from './compare.tsx';
import { LinesTable } from './lines-table.tsx';
import { PlanDepartures, PlanParts } from './parts-and-departures.tsx';
import { PlanActions } from './plan-actions.tsx';
import { PlanAims, PlanFigures } from './plan-figures.tsx';
import classes from './steps.module.css';
import { CostText, hoursText } from './three-text.tsx';
import { usePlanDraft } from './use-plan-draft.ts';

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

/**
 * The plan of a car, made of steps: read, changed line by line, saved, compared, taken over from elsewhere.
 */
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
  const plan = usePlanDraft(car, first);
  const { view, kind, paints, wishes, notes, change } = plan;
  const [copied, setCopied] = useState<string | null>(null);
  const sources = useQuery({ queryKey: ['plan-sources'], queryFn: () => api.plans.sources() });
  const elsewhere = (sources.data ?? []).filter(({ carId }) => carId !== car.id);
  return (
    <div aria-busy={plan.isWorking || undefined}>
      <div className={classes.top}>
        <SegmentedControl
          aria-label="Kind of work"
          data={workKinds.map(one => ({ value: one, label: words.option(one).name }))}
          value={kind}
          onChange={next => plan.go(isWorkKind(next) ? next : 'restore', null)}
        />
        {elsewhere.length > 0 ? (
          <select
            className={planClasses.cell}
            aria-label="Copy another plan"
            value=""
            onChange={event => {
              const source = elsewhere[Number(event.currentTarget.value)];
              if (!source) return;
              plan.go(source.kind, source.wishes);
              setCopied(source.name);
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
        <span className={classes.copied} role="status">
          {copied === null ? '' : `“${copied}” is copied; the steps are those that this car needs.`}
        </span>
      </div>
      <p className={planClasses.what}>
        <Standing view={view} changed={plan.unsaved} currency={currency} />
      </p>
      <PlanFigures view={view} before={car.finishState} currency={currency} />
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
      <NotesField label="Notes on the work" maxRows={12} value={notes} onChange={plan.setNotes} />
      <PlanActions plan={plan} />
      <Compare carId={car.id} view={view} before={car.finishState} sources={elsewhere} currency={currency} />
    </div>
  );
};
