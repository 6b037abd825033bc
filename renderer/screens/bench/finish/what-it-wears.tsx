import { NativeSelect, TextInput } from '@mantine/core';
import { closures, type FidelityGrade, fidelityGrades } from '../../../../valuation/words.ts';
import { readerWords } from '../../../components/words.ts';
import { Departures } from './departures.tsx';
import classes from './finish.module.css';
import { type FinishDraft, impliedDepartures } from './finish-draft.ts';
import { type FinishPart, lineField } from './finish-fields.ts';

/** Finish, closure and axles of a car that was painted, and what of that departs; `made` is the colour of its variation. */
export const WhatItWears = ({ draft, made, change }: FinishPart & { made: string }) => {
  const { spell } = readerWords();
  const text = lineField(draft, change);
  return (
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
  );
};
