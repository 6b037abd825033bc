import { Button, Radio, Textarea } from '@mantine/core';
import { useState } from 'react';
import type { CarPage } from '../../../../../electron/api/views.ts';
import { type Option, options } from '../../../../../valuation/words.ts';
import { api } from '../../../../api/client.ts';
import { useAction } from '../../../../api/use-action.ts';
import { dateText } from '../../../../components/format.ts';
import { Section } from '../../../../components/layout/section.tsx';
import {
  RecommendationGlyph,
  RecommendationMark,
  recommendationWord,
} from '../../../../components/marks/recommendation-mark.tsx';
import classes from './decision.module.css';
import { guardsAgainst } from './guards-against.ts';

const verbs: Record<Option, string> = {
  leave: 'Leave it',
  conserve: 'Conserve it',
  restore: 'Restore it',
  customise: 'Customise it',
  donor: 'Use it for parts',
};

const Recorded = ({ car, onChange }: { car: CarPage; onChange: (option: Option) => void }) => {
  const { recorded } = car.decision;
  const clear = useAction(() => api.decisions.clear({ id: car.id }), { label: 'Decision taken back' });
  if (!recorded) return null;
  return (
    <div className={classes.recorded}>
      <p className={classes.choice}>
        <RecommendationMark recommendation={recorded.choice} />
        <span className="soft">
          decided {dateText(recorded.decidedOn)}
          {recorded.recommended === recorded.choice
            ? ', as recommended then'
            : `; recommended then: ${recommendationWord(recorded.recommended)}`}
        </span>
      </p>
      {recorded.reason ? <blockquote className={classes.reason}>{recorded.reason}</blockquote> : null}
      {recorded.overruled.length > 0 ? (
        <p className="caution">This overruled what stands against painting it; the reason stays on record.</p>
      ) : null}
      <div className={classes.actions}>
        <Button onClick={() => onChange(recorded.choice)}>Decide anew</Button>
        <Button variant="subtle" onClick={() => clear.mutate()}>
          Take it back
        </Button>
      </div>
    </div>
  );
};

const Form = ({
  car,
  choice,
  onChoice,
}: {
  car: CarPage;
  choice: Option | null;
  onChoice: (option: Option | null) => void;
}) => {
  const [reason, setReason] = useState(car.decision.recorded?.reason ?? '');
  const [asked, setAsked] = useState(false);
  const record = useAction(
    (option: Option) =>
      api.decisions.record({
        carId: car.id,
        choice: option,
        overruled: guardsAgainst(car.decision, option).map(guard => guard.kind),
        reason: reason.trim(),
      }),
    { label: option => `Decided: ${verbs[option].toLowerCase()}`, onDone: () => onChoice(null) },
  );
  const guards = choice ? guardsAgainst(car.decision, choice) : [];
  const needsReason = guards.length > 0 && reason.trim() === '';
  return (
    <form
      className={classes.form}
      onSubmit={event => {
        event.preventDefault();
        if (!choice) return;
        setAsked(true);
        if (!needsReason) record.mutate(choice);
      }}
    >
      <Radio.Group
        label="What you will do"
        value={choice}
        onChange={value => onChoice(options.find(option => option === value) ?? null)}
      >
        <div className={classes.options}>
          {options.map(option => (
            <Radio
              key={option}
              value={option}
              label={
                <span className={classes.option}>
                  <RecommendationGlyph recommendation={option} />
                  {verbs[option]}
                  {option === car.decision.recommendation ? <span className="soft">recommended</span> : null}
                </span>
              }
            />
          ))}
        </div>
      </Radio.Group>
      {guards.length > 0 ? (
        <ul className={classes.guards}>
          {guards.map(guard => (
            <li key={guard.kind}>{guard.sentence}</li>
          ))}
        </ul>
      ) : null}
      <Textarea
        label={guards.length > 0 ? 'Why, against this caution' : 'Why'}
        description={guards.length > 0 ? 'Overruling needs a reason; it stays with the car.' : undefined}
        required={guards.length > 0}
        autosize
        minRows={2}
        value={reason}
        error={asked && needsReason ? 'Say why the finish may go all the same.' : undefined}
        onChange={event => setReason(event.currentTarget.value)}
      />
      <div className={classes.actions}>
        <Button type="submit" variant="filled" disabled={!choice} loading={record.isPending}>
          {choice ? `Decide: ${verbs[choice].toLowerCase()}` : 'Decide'}
        </Button>
        {car.decision.recorded ? (
          <Button variant="subtle" onClick={() => onChoice(null)}>
            Cancel
          </Button>
        ) : null}
      </div>
    </form>
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
      <Form car={car} choice={choice} onChoice={onChoice} />
    )}
  </Section>
);
