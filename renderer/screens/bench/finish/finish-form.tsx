import { Button, NativeSelect, TextInput } from '@mantine/core';
import { useRef, useState } from 'react';
import { useLocation } from 'wouter';
import type { CarPage, JobView } from '../../../../electron/api/views.ts';
import type { Currency, IsoDate } from '../../../../valuation/types.ts';
import { disclosureText } from '../../../../valuation/wording/cars/disclosure-text.ts';
import {
  type FinishState,
  finishStates,
  paintsCar,
  type WorkKind,
  workKinds,
} from '../../../../valuation/words.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { readerLocale } from '../../../components/format.ts';
import { KeyHint } from '../../../components/keys/key-hint.tsx';
import { useKeys } from '../../../components/keys/use-keys.ts';
import { readerWords } from '../../../components/words.ts';
import classes from './finish.module.css';
import {
  beginFinish,
  disclosureBefore,
  type FinishDraft,
  finishInput,
  problemOf,
  withKind,
} from './finish-draft.ts';
import { FinishParts } from './finish-parts.tsx';
import { WhatItTook } from './what-it-took.tsx';
import { WhatItWears } from './what-it-wears.tsx';

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
  const disclosure = disclosureText(disclosureBefore(draft, made, car.work), readerLocale());
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
      {paintsCar(draft.kind) ? <WhatItWears draft={draft} made={made} change={change} /> : null}
      <WhatItTook draft={draft} change={change} job={job} currency={currency} />
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
