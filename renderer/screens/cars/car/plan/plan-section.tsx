import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useEffect, useState } from 'react';
import type { CarPage, PlanView } from '../../../../../electron/api/views.ts';
import type { Currency } from '../../../../../valuation/types.ts';
import { hazardsOf } from '../../../../../valuation/wording/work/cautions.ts';
import { api } from '../../../../api/client.ts';
import { useAction } from '../../../../components/actions/use-action.ts';
import { RangeText } from '../../../../components/amounts/amount.tsx';
import { CautionList } from '../../../../components/cautions/caution-list.tsx';
import { percentText } from '../../../../components/format.ts';
import { NotesField } from '../../../../components/inputs/notes-field.tsx';
import { ErrorState } from '../../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../../components/layout/loading-state.tsx';
import { Section } from '../../../../components/layout/section.tsx';
import classes from './plan.module.css';
import { draftOfPlan, planInput, planProblem } from './plan-draft.ts';
import { PlanLines } from './plan-lines.tsx';
import { Deviations, PartsAfter, PlanMeasures } from './plan-measures.tsx';
import { WorkPlanEditor } from './steps/work-plan.tsx';

/** Where the proposed plan comes from. */
const proposedWords = (car: CarPage): string =>
  car.decision.reasons.some(({ kind }) => kind === 'standard-plan')
    ? 'From the standard plan of the assumptions, the same for every car.'
    : 'Made from this car’s grade, parts, finish and factory specification.';

const PlanEditor = ({ car, plan, currency }: { car: CarPage; plan: PlanView; currency: Currency }) => {
  const saved = draftOfPlan(plan);
  const savedText = JSON.stringify(saved);
  const [draft, setDraft] = useState(saved);
  // biome-ignore lint/correctness/useExhaustiveDependencies: compared by what it says
  useEffect(() => setDraft(saved), [savedText]);
  const stock = useQuery({ queryKey: ['parts'], queryFn: () => api.collection.parts() });
  const keep = useAction(() => api.decisions.savePlan(planInput(car.id, draft)), { label: 'Plan saved' });
  const drop = useAction(() => api.decisions.removePlan({ id: car.id }), {
    label: 'Back to the proposed plan',
  });
  const changed = JSON.stringify(draft) !== savedText;
  const problem = planProblem(draft);
  const dangers = hazardsOf(draft.kind, [draft.notes, ...draft.lines.map(line => line.name)]);
  return (
    <>
      <div className={classes.head}>
        <p className={classes.what}>
          {plan.standard ? (
            <>
              <span className={classes.standard}>proposed</span> {proposedWords(car)} Change anything to make
              it this car’s own.
            </>
          ) : (
            <>
              <strong>This car’s own plan.</strong> It counts as {car.fidelity.grade}:{' '}
              {percentText(car.fidelity.factor)} of the value of a car restored to specification.
            </>
          )}
        </p>
        {car.worths.cost ? (
          <p className={classes.cost}>
            <span className="soft">cost, hours included</span>{' '}
            <RangeText range={car.worths.cost} currency={currency} /> <span className="soft">{currency}</span>
          </p>
        ) : null}
      </div>
      <PlanMeasures draft={draft} onChange={setDraft} />
      <PlanLines
        draft={draft}
        currency={currency}
        stock={stock.data ?? []}
        onChange={lines => setDraft({ ...draft, lines })}
      />
      <div className={classes.columns}>
        <Deviations draft={draft} onChange={setDraft} />
        <PartsAfter draft={draft} castingParts={car.castingParts} onChange={setDraft} />
        <CautionList hazards={dangers} open />
      </div>
      <NotesField
        label="Notes on the work"
        maxRows={12}
        value={draft.notes}
        onChange={text => setDraft({ ...draft, notes: text })}
      />
      <div className={classes.actions}>
        <Button
          variant={changed ? 'filled' : 'default'}
          disabled={(!changed && !plan.standard) || problem !== null}
          loading={keep.isPending}
          onClick={() => keep.mutate()}
        >
          {plan.standard ? 'Save as this car’s plan' : 'Save the plan'}
        </Button>
        {changed ? (
          <Button variant="subtle" onClick={() => setDraft(saved)}>
            Discard changes
          </Button>
        ) : null}
        {plan.standard ? null : (
          <Button variant="subtle" onClick={() => drop.mutate()}>
            Back to the proposed plan
          </Button>
        )}
        {problem ? <span className="harm">{problem}</span> : null}
        {changed && !problem ? (
          <span className="soft">Value, cost and recommendation change once it is saved.</span>
        ) : null}
      </div>
    </>
  );
};

/**
 * A plan made of steps; one that is written down in figures, and the standard plan, are edited as figures.
 */
const Plan = ({ car, plan, currency }: { car: CarPage; plan: PlanView; currency: Currency }) => {
  const view = useQuery({
    queryKey: ['car-plan', car.id, null],
    queryFn: () => api.plans.view({ carId: car.id }),
  });
  const isStandard = plan.standard && car.decision.reasons.some(({ kind }) => kind === 'standard-plan');
  if (view.error)
    return <ErrorState title="This plan could not be shown" error={view.error} retry={view.refetch} />;
  if (!view.data) return <LoadingState part />;
  return isStandard || view.data.saved === 'figures' ? (
    <PlanEditor car={car} plan={plan} currency={currency} />
  ) : (
    <WorkPlanEditor car={car} first={view.data} currency={currency} />
  );
};

/** What a restoration would do, take and risk. */
export const PlanSection = ({ car, currency }: { car: CarPage; currency: Currency }) => (
  <Section id="plan" title="Plan" aside={`amounts in ${currency}`}>
    {car.plan ? (
      <Plan car={car} plan={car.plan} currency={currency} />
    ) : (
      <p className="soft">
        A plan needs to know what the car is. Identify it above, down to its casting at least, or enter your
        own value for it.
      </p>
    )}
  </Section>
);
