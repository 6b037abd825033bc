import { Button } from '@mantine/core';
import { useState } from 'react';
import type { CarPage } from '../../../../../electron/api/views.ts';
import type { Currency, Minor, Range } from '../../../../../valuation/types.ts';
import { api } from '../../../../api/client.ts';
import { useAction } from '../../../../components/actions/use-action.ts';
import { RangeText } from '../../../../components/amounts/amount.tsx';
import { MoneyInput } from '../../../../components/inputs/money-input.tsx';
import classes from './worth.module.css';

type Draft = { [Bound in keyof Range]: Minor | null };

const problemOf = ({ low, mid, high }: Draft): string | null => {
  if (low === null || mid === null || high === null) return 'A low, a middle and a high figure are needed.';
  if (low < 1) return 'Enter more than zero.';
  return low <= mid && mid <= high ? null : 'The three figures must rise from low to high.';
};

const Form = ({ car, currency, onDone }: { car: CarPage; currency: Currency; onDone: () => void }) => {
  const [draft, setDraft] = useState<Draft>(car.ownWorth ?? { low: null, mid: null, high: null });
  const save = useAction(
    (ownWorth: Range | null) => api.cars.update({ changes: [{ id: car.id, patch: { ownWorth } }] }),
    { label: 'Your figure saved', onDone },
  );
  const problem = problemOf(draft);
  const { low, mid, high } = draft;
  return (
    <form
      className={classes.ownForm}
      onSubmit={event => {
        event.preventDefault();
        if (low !== null && mid !== null && high !== null && !problem) save.mutate({ low, mid, high });
      }}
    >
      {(['low', 'mid', 'high'] as const).map(bound => (
        <MoneyInput
          key={bound}
          label={bound === 'mid' ? 'Middle' : bound === 'low' ? 'Low' : 'High'}
          currency={currency}
          value={draft[bound]}
          autoFocus={bound === 'low'}
          onChange={minor => setDraft(before => ({ ...before, [bound]: minor }))}
          asTyped
        />
      ))}
      <Button type="submit" variant="filled" disabled={problem !== null} title={problem ?? undefined}>
        Save
      </Button>
      {car.ownWorth ? <Button onClick={() => save.mutate(null)}>Remove it</Button> : null}
      <Button variant="subtle" onClick={onDone}>
        Cancel
      </Button>
    </form>
  );
};

/** The owner's own figure: it stands in where there is no evidence, and is marked as what it is. */
export const OwnWorth = ({ car, currency }: { car: CarPage; currency: Currency }) => {
  const [open, setOpen] = useState(false);
  if (open) return <Form car={car} currency={currency} onDone={() => setOpen(false)} />;
  if (!car.ownWorth) return <Button onClick={() => setOpen(true)}>Enter your own figure</Button>;
  return (
    <div className={classes.own}>
      <span className={classes.ownMark}>own figure</span>
      <RangeText range={car.ownWorth} currency={currency} />
      <span className="soft">
        {car.worths.asFound?.own
          ? 'used because there is too little evidence'
          : 'saved, but not used while there is evidence'}
      </span>
      <Button onClick={() => setOpen(true)}>Change</Button>
    </div>
  );
};
