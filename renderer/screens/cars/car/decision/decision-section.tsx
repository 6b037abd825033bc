import { Button } from '@mantine/core';
import type { CarPage } from '../../../../../electron/api/views.ts';
import type { Option } from '../../../../../valuation/words.ts';
import { api } from '../../../../api/client.ts';
import { useAction } from '../../../../components/actions/use-action.ts';
import { DecideForm } from '../../../../components/decision/decide-form.tsx';
import { dateText } from '../../../../components/format.ts';
import { Section } from '../../../../components/layout/section.tsx';
import { RecommendationMark } from '../../../../components/marks/recommendation-mark.tsx';
import { readerWords } from '../../../../components/words.ts';
import classes from './decision.module.css';

const Recorded = ({ car, onChange }: { car: CarPage; onChange: (option: Option) => void }) => {
  const { recorded } = car.decision;
  const clear = useAction(() => api.decisions.clear({ id: car.id }), { label: 'Decision undone' });
  if (!recorded) return null;
  return (
    <div className={classes.recorded}>
      <p className={classes.choice}>
        <RecommendationMark recommendation={recorded.choice} />
        <span className="soft">
          decided {dateText(recorded.decidedOn)}
          {recorded.recommended === recorded.choice
            ? ', as recommended then'
            : `; recommended then: ${readerWords().recommendation(recorded.recommended)}`}
        </span>
      </p>
      {recorded.reason ? <blockquote className={classes.reason}>{recorded.reason}</blockquote> : null}
      {recorded.overruled.length > 0 ? (
        <p className="caution">This overruled a caution against painting it; the reason stays on record.</p>
      ) : null}
      <div className={classes.actions}>
        <Button onClick={() => onChange(recorded.choice)}>Change the decision</Button>
        <Button variant="subtle" onClick={() => clear.mutate()}>
          Undo it
        </Button>
      </div>
    </div>
  );
};

/** What the owner chose for the car, beside what was recommended then; against a guard only with a reason. */
export const DecisionSection = ({
  car,
  choice,
  onChoice,
}: {
  car: CarPage;
  choice: Option | null;
  onChoice: (option: Option | null) => void;
}) => (
  <Section id="decision" title="Decision" aside={car.decision.recorded ? undefined : 'none yet'}>
    {car.decision.recorded && choice === null ? (
      <Recorded car={car} onChange={onChoice} />
    ) : (
      <DecideForm
        carId={car.id}
        decision={car.decision}
        choice={choice}
        // The reason of another choice does not speak for this one.
        reason={car.decision.recorded?.choice === choice ? car.decision.recorded?.reason : undefined}
        onChoice={onChoice}
        onCancel={car.decision.recorded ? () => onChoice(null) : undefined}
      />
    )}
  </Section>
);
