import { Button, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { CarPage } from '../../../../../electron/api/views.ts';
import type { IsoDate } from '../../../../../valuation/types.ts';
import { api } from '../../../../api/client.ts';
import { useAction } from '../../../../components/actions/use-action.ts';
import { readGrade } from '../../../../components/condition/condition-draft.ts';
import classes from './work.module.css';

const usual = ['dropped', 'scuffed', 'repaired', 'cleaned', 'damaged in transit'];

/** Something that happened to the car: saved as a check with its cause, with its value before and after. */
export const EventForm = ({ car, today }: { car: CarPage; today: IsoDate }) => {
  const [open, setOpen] = useState(false);
  const [happenedOn, setHappenedOn] = useState(today);
  const [cause, setCause] = useState('');
  const [note, setNote] = useState('');
  const [grade, setGrade] = useState('');
  const after = readGrade(grade);
  const save = useAction(
    () =>
      api.cars.recordEvent({
        carId: car.id,
        happenedOn,
        cause: cause.trim(),
        note: note.trim(),
        grade: after ?? null,
      }),
    {
      label: `Noted for ${car.inventoryNumber}: ${cause.trim()}`,
      onDone: () => {
        setOpen(false);
        setCause('');
        setNote('');
        setGrade('');
      },
    },
  );
  const ready = cause.trim() !== '' && after !== undefined && /^\d{4}-\d{2}-\d{2}$/.test(happenedOn);
  if (!open)
    return (
      <Button variant="subtle" onClick={() => setOpen(true)}>
        Something happened to it…
      </Button>
    );
  return (
    <form
      className={classes.form}
      onSubmit={event => {
        event.preventDefault();
        if (ready) save.mutate();
      }}
    >
      <TextInput
        label="What happened"
        list="usual-events"
        value={cause}
        maxLength={200}
        onChange={event => setCause(event.currentTarget.value)}
      />
      <datalist id="usual-events">
        {usual.map(one => (
          <option key={one} value={one} />
        ))}
      </datalist>
      <TextInput
        label="On"
        type="date"
        value={happenedOn}
        onChange={event => setHappenedOn(event.currentTarget.value)}
      />
      <TextInput
        label="Grade afterwards"
        placeholder="as before, or C6.5"
        value={grade}
        error={after === undefined ? 'Grades go from C1 to C10 in half points.' : null}
        onChange={event => setGrade(event.currentTarget.value)}
      />
      <TextInput label="Note" value={note} onChange={event => setNote(event.currentTarget.value)} />
      <div className={classes.actions}>
        <Button variant="subtle" onClick={() => setOpen(false)}>
          Cancel
        </Button>
        <Button type="submit" variant="filled" disabled={!ready} loading={save.isPending}>
          Save the event
        </Button>
      </div>
    </form>
  );
};
