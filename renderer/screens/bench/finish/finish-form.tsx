import { Button, NativeSelect, Textarea, TextInput } from '@mantine/core';
import { useRef, useState } from 'react';
import { useLocation } from 'wouter';
import type { CarPage, JobView } from '../../../../electron/api/views.ts';
import type { Currency, IsoDate } from '../../../../valuation/types.ts';
import { disclosureText } from '../../../../valuation/wording/disclosure-text.ts';
import {
  closures,
  type FidelityGrade,
  type FinishState,
  fidelityGrades,
  finishStates,
  type WorkKind,
  workKinds,
} from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { amountText, readerLocale } from '../../../components/format.ts';
import { KeyHint } from '../../../components/keys/key-hint.tsx';
import { useKeys } from '../../../components/keys/use-keys.ts';
import { readerWords } from '../../../components/words.ts';
import { Departures } from './departures.tsx';
import classes from './finish.module.css';
import {
  beginFinish,
  disclosureBefore,
  type FinishDraft,
  finishInput,
  impliedDepartures,
  paints,
  problemOf,
  withKind,
} from './finish-draft.ts';
import { FinishParts } from './finish-parts.tsx';

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

/**
 * What was done to a car, as one record: condition by part, finish, what it wears, how it was closed, what
 * departs, and what it took.
 */
export const FinishForm = ({
  car,
  job,
  currency,
  today,
}: {
  car: CarPage;
  job: JobView | null;
  currency: Currency;
  today: IsoDate;
}) => {
  const [, navigate] = useLocation();
  const [draft, setDraft] = useState(() => beginFinish(car, job, today));
  const [asked, setAsked] = useState(false);
  const heading = useRef<HTMLHeadingElement>(null);
  const made = car.variationId === null ? '' : car.features.colour;
  const change = (part: Partial<FinishDraft>) => setDraft(before => ({ ...before, ...part }));
  const problem = problemOf(draft);
  const record = useAction(() => api.cars.finishWork(finishInput(draft, car.id, job?.id ?? null)), {
    label: `Work on ${car.inventoryNumber} recorded`,
    thenGo: () => navigate(`~/cars/${car.id}`),
  });
  const finish = () => {
    setAsked(true);
    if (problem === null && !record.isPending) record.mutate();
  };
  useKeys('Finish the work', [{ keys: 'mod+Enter', does: 'Record the work', run: finish }]);
  const { spell } = readerWords();
  const text = (
    name: 'colour' | 'bodyFinish' | 'basePaint' | 'roof' | 'bearings' | 'axles' | 'who' | 'mark',
  ) => ({
    value: draft[name],
    maxLength: 200,
    onChange: (event: React.ChangeEvent<HTMLInputElement>) => change({ [name]: event.currentTarget.value }),
  });
  const long = (name: 'leftAsWas' | 'materials' | 'partsUsed' | 'notes') => ({
    value: draft[name],
    autosize: true,
    minRows: 1,
    onChange: (event: React.ChangeEvent<HTMLTextAreaElement>) =>
      change({ [name]: event.currentTarget.value }),
  });
  const disclosure = disclosureText(disclosureBefore(draft, made), readerLocale());
  return (
    <form
      className={classes.form}
      noValidate
      onSubmit={event => {
        event.preventDefault();
        finish();
      }}
    >
      <section aria-labelledby="finish-what">
        <h2 id="finish-what" ref={heading}>
          What was done
        </h2>
        <div className={classes.row}>
          <NativeSelect
            label="Work"
            value={draft.kind}
            data={workKinds.map(kind => ({ value: kind, label: spell(kind) }))}
            onChange={event =>
              setDraft(withKind(draft, event.currentTarget.value as WorkKind, car.finishState))
            }
          />
          <TextInput
            label="Finished on"
            type="date"
            value={draft.finishedOn}
            onChange={event => change({ finishedOn: event.currentTarget.value })}
          />
          <NativeSelect
            label="Finish it has now"
            value={draft.finishState}
            data={finishStates.map(state => ({ value: state, label: spell(state) }))}
            onChange={event => change({ finishState: event.currentTarget.value as FinishState })}
          />
        </div>
      </section>
      <section aria-labelledby="finish-condition">
        <h2 id="finish-condition">Condition now</h2>
        <FinishParts draft={draft.condition} onChange={condition => change({ condition })} />
      </section>
      {paints(draft.kind) ? (
        <section aria-labelledby="finish-wears">
          <h2 id="finish-wears">What it wears now</h2>
          <p className={classes.note}>
            {made === '' ? spell('Which colour it was made in is not known.') : `It was made in ${made}.`}
          </p>
          <div className={classes.row}>
            <TextInput label={spell('Colour')} {...text('colour')} placeholder={made} />
            <TextInput label="Finish of the body" {...text('bodyFinish')} />
            <TextInput label="Paint of the base" {...text('basePaint')} />
            <TextInput label="Roof" {...text('roof')} />
          </div>
          <div className={classes.row}>
            <NativeSelect
              label="Closed with"
              value={draft.closure}
              data={[
                { value: '', label: 'not said' },
                ...closures.map(closure => ({ value: closure, label: closure })),
                { value: 'not opened', label: 'it was not opened' },
              ]}
              onChange={event => change({ closure: event.currentTarget.value as FinishDraft['closure'] })}
            />
            <TextInput label="Wheel bearings" placeholder="kept, cut, replaced" {...text('bearings')} />
            <TextInput label="Axles" placeholder="kept, straightened, cut, replaced" {...text('axles')} />
            <NativeSelect
              label="Follows the factory"
              value={draft.fidelity ?? ''}
              data={[{ value: '', label: 'not said' }, ...fidelityGrades]}
              onChange={event =>
                change({ fidelity: (event.currentTarget.value || null) as FidelityGrade | null })
              }
            />
          </div>
          <Departures
            chosen={draft.departures}
            implied={impliedDepartures(draft, made)}
            onChange={departures => change({ departures })}
          />
        </section>
      ) : null}
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
      <section className={classes.preview} aria-labelledby="finish-says">
        <h2 id="finish-says">What will be said about it</h2>
        <p>{disclosure}</p>
        <p className={classes.note}>
          It is shown on the car’s page and in every report and export, and cannot be switched off.
        </p>
      </section>
      {asked && problem !== null ? (
        <p className="harm" role="alert">
          {problem}
        </p>
      ) : null}
      <div className={classes.actions}>
        <Button variant="subtle" onClick={() => navigate(job ? `/${job.id}` : `~/cars/${car.id}`)}>
          Cancel
        </Button>
        <Button
          type="submit"
          variant="filled"
          loading={record.isPending}
          rightSection={<KeyHint keys="mod+Enter" />}
        >
          Record the work
        </Button>
      </div>
    </form>
  );
};
