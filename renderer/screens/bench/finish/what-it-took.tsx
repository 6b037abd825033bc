import { Textarea, TextInput } from '@mantine/core';
import type { JobView } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { amountText } from '../../../components/format.ts';
import classes from './finish.module.css';
import { type FinishPart, lineField, textField } from './finish-fields.ts';

/** What was used on the job, which becomes cost of the car. */
const Costs = ({ job, currency }: { job: JobView; currency: Currency }) => {
  const priced = job.uses.filter(({ minor }) => minor > 0);
  if (priced.length === 0) return null;
  return (
    <p className={classes.note}>
      Added to the car’s cost:{' '}
      {priced
        .map(
          ({ name, minor, currency: of }) =>
            `${name} ${amountText(minor, of)}${of === currency ? '' : ` ${of}`}`,
        )
        .join(', ')}
      .
    </p>
  );
};

/** Time, hands, parts and materials, and what was left alone. */
export const WhatItTook = ({
  draft,
  change,
  job,
  currency,
}: FinishPart & { job: JobView | null; currency: Currency }) => {
  const text = lineField(draft, change);
  const long = textField(draft, change);
  return (
    <section aria-labelledby="finish-took">
      <h2 id="finish-took">What it took</h2>
      <Textarea
        label="Left as it was"
        placeholder="scratches in the glazing, too deep"
        {...long('leftAsWas')}
      />
      <div className={classes.row}>
        <TextInput
          label="Minutes of work"
          inputMode="numeric"
          value={draft.minutes}
          onChange={event => change({ minutes: event.currentTarget.value })}
        />
        <TextInput label="Who did it" {...text('who')} />
        <TextInput label="Restorer’s mark" {...text('mark')} />
      </div>
      <Textarea label="Parts used" {...long('partsUsed')} />
      <Textarea label="Materials used" {...long('materials')} />
      <Textarea label="Notes" {...long('notes')} />
      {job ? <Costs job={job} currency={currency} /> : null}
    </section>
  );
};
