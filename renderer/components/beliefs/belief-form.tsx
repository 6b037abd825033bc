import { Button, Select, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { BeliefView } from '../../../electron/api/views.ts';
import type { Currency, Minor } from '../../../valuation/types.ts';
import {
  type BeliefLevel,
  type FinishState,
  finishStates,
  type Grade,
  gradeLabel,
  grades,
} from '../../../valuation/words.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../actions/use-action.ts';
import { CurrencyField } from '../inputs/currency-field.tsx';
import { MoneyInput } from '../inputs/money-input.tsx';
import { readerWords } from '../words.ts';
import classes from './beliefs.module.css';

/** What a belief can be about. */
export interface BeliefSubject {
  level: BeliefLevel;
  of: number;
  label: string;
}

/** A belief that is asked for: what about, and of which grade. */
export interface AskedBelief extends Pick<BeliefSubject, 'level' | 'of'> {
  grade: Grade;
}

const keyOf = ({ level, of }: Pick<BeliefSubject, 'level' | 'of'>) => `${level} ${of}`;

/** Says what such a car brings: what, in which grade and finish, from and to how much. One act, one undo. */
export const BeliefForm = ({
  subjects,
  reporting,
  belief,
  asked,
  onDone,
}: {
  subjects: readonly BeliefSubject[];
  reporting: Currency;
  /** The belief to change; without it, a new one. */
  belief?: BeliefView | undefined;
  /** What its reader was asked about. */
  asked?: AskedBelief | undefined;
  onDone?: () => void;
}) => {
  const first = asked ?? (subjects.length < 30 ? subjects[0] : undefined);
  const [about, setAbout] = useState<string | null>(belief ? keyOf(belief) : first ? keyOf(first) : null);
  const [grade, setGrade] = useState(belief?.grade ?? asked?.grade ?? 8);
  const [finishState, setFinishState] = useState<FinishState>(belief?.finishState ?? 'original');
  const [low, setLow] = useState<Minor | null>(belief?.low ?? null);
  const [high, setHigh] = useState<Minor | null>(belief?.high ?? null);
  const [currency, setCurrency] = useState<Currency>(belief?.currency ?? reporting);
  const [note, setNote] = useState(belief?.note ?? '');
  const subject = subjects.find(one => keyOf(one) === about);
  const wrongWay = low !== null && high !== null && low > high;
  const save = useAction((input: Parameters<typeof api.beliefs.save>[0]) => api.beliefs.save(input), {
    label: 'What you believe is saved',
    onDone: () => {
      setLow(null);
      setHigh(null);
      setNote('');
      onDone?.();
    },
  });
  return (
    <form
      className={classes.form}
      onSubmit={event => {
        event.preventDefault();
        if (subject && low && high && !wrongWay)
          save.mutate({
            ...(belief && { id: belief.id, believedOn: belief.believedOn }),
            level: subject.level,
            of: subject.of,
            grade,
            finishState,
            low,
            high,
            currency,
            note,
          });
      }}
    >
      <Select
        label="About"
        className={classes.about}
        placeholder="series or casting"
        searchable
        nothingFoundMessage="None in the reference"
        value={about}
        data={subjects.map(one => ({ value: keyOf(one), label: one.label }))}
        allowDeselect={false}
        onChange={setAbout}
      />
      <Select
        label="Grade"
        className={classes.short}
        value={String(grade)}
        data={grades.map(one => ({ value: String(one), label: gradeLabel(one) }))}
        allowDeselect={false}
        onChange={value => setGrade(Number(value))}
      />
      <Select
        label="Finish"
        className={classes.medium}
        value={finishState}
        data={finishStates.map(state => ({ value: state, label: readerWords().spell(state) }))}
        allowDeselect={false}
        onChange={value => setFinishState(value as FinishState)}
      />
      <div className={classes.medium}>
        <MoneyInput label="Brings from" currency={currency} value={low} onChange={setLow} asTyped />
      </div>
      <div className={classes.medium}>
        <MoneyInput label="Up to" currency={currency} value={high} onChange={setHigh} asTyped />
      </div>
      <div className={classes.medium}>
        <CurrencyField value={currency} onChange={setCurrency} />
      </div>
      <TextInput
        label="Note"
        className={classes.note}
        placeholder="where you know it from"
        maxLength={200}
        value={note}
        onChange={event => setNote(event.currentTarget.value)}
      />
      <Button type="submit" disabled={!subject || !low || !high || wrongWay} loading={save.isPending}>
        {belief ? 'Save' : 'Add'}
      </Button>
      {wrongWay ? (
        <p role="alert" className={`caution ${classes.wrong}`}>
          The first amount is above the second.
        </p>
      ) : null}
    </form>
  );
};
