import { Button, Textarea, TextInput } from '@mantine/core';
import { useEffect, useState } from 'react';
import type { CarRow, LotPage } from '../../../../electron/api/views.ts';
import { MoneyInput } from '../../../components/inputs/money-input.tsx';
import type { LotWrites } from '../lot/use-lot-writes.ts';
import classes from './inspector.module.css';

/**
 * The rest of a car: its share of the lot's cost, where it lies, and notes. Each is kept when
 * its field is left.
 */
export const CarFields = ({ row, lot, writes }: { row: CarRow; lot: LotPage; writes: LotWrites }) => {
  const [location, setLocation] = useState(row.location);
  const [notes, setNotes] = useState(row.notes);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another car begins with its own words
  useEffect(() => {
    setLocation(row.location);
    setNotes(row.notes);
  }, [row.id, row.location, row.notes]);
  return (
    <section className={classes.part} aria-label="Share, location and notes">
      <h3>Cost and location</h3>
      <div className={classes.share}>
        <MoneyInput
          label="Share of the lot's cost"
          currency={lot.currency}
          value={row.cost}
          onChange={minor => void writes.fixShare(row.id, minor)}
          description={
            row.costFixed
              ? 'Fixed by hand'
              : 'In proportion to its value in the lot; an amount typed here is fixed'
          }
        />
        {row.costFixed ? (
          <Button onClick={() => void writes.fixShare(row.id, null)}>Unfix share</Button>
        ) : null}
      </div>
      <TextInput
        label="Location"
        value={location}
        maxLength={200}
        onChange={event => setLocation(event.currentTarget.value)}
        onBlur={() => location.trim() !== row.location && void writes.update(row.id, { location })}
      />
      <Textarea
        label="Notes"
        autosize
        minRows={2}
        maxRows={6}
        value={notes}
        onChange={event => setNotes(event.currentTarget.value)}
        onBlur={() => notes !== row.notes && void writes.update(row.id, { notes })}
      />
    </section>
  );
};
