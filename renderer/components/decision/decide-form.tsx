import { Button, Radio, Textarea } from '@mantine/core';
import { useState } from 'react';
import type { Decision } from '../../../valuation/types.ts';
import { guardText } from '../../../valuation/wording/values/guard-text.ts';
import { type Option, options } from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../actions/use-action.ts';
import { RecommendationGlyph } from '../marks/recommendation-mark.tsx';
import { useWords } from '../words.ts';
import classes from './decide-form.module.css';
import { guardsAgainst } from './decision-parts.ts';

/** What the owner will do with a car: one of the options, and why; against a guard only with a reason. */
export const DecideForm = ({
  carId,
  decision,
  choice,
  reason: before = '',
  onChoice,
  onCancel,
}: {
  carId: number;
  decision: Pick<Decision, 'options' | 'recommendation'>;
  choice: Option | null;
  /** The reason of an earlier decision, to begin with. */
  reason?: string | undefined;
  /** Told what is picked, and null when the decision has been kept. */
  onChoice: (option: Option | null) => void;
  onCancel?: (() => void) | undefined;
}) => {
  const words = useWords();
  const [reason, setReason] = useState(before);
  const [asked, setAsked] = useState(false);
  const record = useAction(
    (option: Option) =>
      api.decisions.record({
        carId,
        choice: option,
        overruled: guardsAgainst(decision, option).map(guard => guard.kind),
        reason: reason.trim(),
      }),
    { label: option => `Decided: ${words.option(option).verb.toLowerCase()}`, onDone: () => onChoice(null) },
  );
  const guards = choice ? guardsAgainst(decision, choice) : [];
  const needsReason = guards.length > 0 && reason.trim() === '';
  return (
    <form
      className={classes.form}
      noValidate
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
                  {words.option(option).verb}
                  {option === decision.recommendation ? <span className="soft">recommended</span> : null}
                </span>
              }
            />
          ))}
        </div>
      </Radio.Group>
      {guards.length > 0 ? (
        <ul className={classes.guards}>
          {guards.map(guard => (
            <li key={guard.kind}>{guardText(guard)}</li>
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
        error={asked && needsReason ? 'Say why the finish may be removed anyway.' : undefined}
        onChange={event => setReason(event.currentTarget.value)}
      />
      <div className={classes.actions}>
        <Button type="submit" variant="filled" disabled={!choice} loading={record.isPending}>
          {choice ? `Decide: ${words.option(choice).verb.toLowerCase()}` : 'Decide'}
        </Button>
        {onCancel ? (
          <Button variant="subtle" onClick={onCancel}>
            Cancel
          </Button>
        ) : null}
      </div>
    </form>
  );
};
