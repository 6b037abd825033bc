import { Button, Popover, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { ChosenSales, SaleRow } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { amountText, dateText } from '../../components/format.ts';
import { doubtText } from './doubt-text.ts';
import { saleName } from './sale-edits.ts';
import { doubtPhrase } from './sale-filter.ts';
import classes from './sales.module.css';

const records = (count: number) => (count === 1 ? 'Sale record' : `${count} sale records`);

const LeaveOut = ({ ids }: { ids: number[] }) => {
  const [open, setOpen] = useState(false);
  const [why, setWhy] = useState('');
  const exclude = useAction((reason: string) => api.sales.exclude({ ids, excluded: true, why: reason }), {
    label: `${records(ids.length)} left out`,
    onDone: () => {
      setOpen(false);
      setWhy('');
    },
  });
  return (
    <Popover opened={open} onChange={setOpen} position="top-end" trapFocus withRoles={false}>
      <Popover.Target>
        <Button aria-expanded={open} onClick={() => setOpen(!open)}>
          Leave out …
        </Button>
      </Popover.Target>
      <Popover.Dropdown>
        <form
          className={classes.why}
          onSubmit={event => {
            event.preventDefault();
            exclude.mutate(why.trim());
          }}
        >
          <TextInput
            label="Why it should not count"
            placeholder="such as: sold to a friend, box included"
            value={why}
            maxLength={200}
            data-autofocus
            onChange={event => setWhy(event.currentTarget.value)}
          />
          <Button type="submit" variant="filled" loading={exclude.isPending}>
            Leave out
          </Button>
        </form>
      </Popover.Dropdown>
    </Popover>
  );
};

const Facts = ({ row }: { row: SaleRow }) => {
  const phrase = doubtPhrase(row);
  const reason =
    row.state === 'left out'
      ? row.excludedWhy
        ? `Left out: ${row.excludedWhy}.`
        : 'Left out of every estimate; no reason given.'
      : row.state === 'doubtful'
        ? `Doubtful: ${[phrase && `${phrase} for this casting`, doubtText(row)].filter(Boolean).join('; ')}.`
        : row.state === 'set aside'
          ? `Set aside: ${doubtText(row)}.`
          : null;
  return (
    <span className={classes.facts}>
      <strong>{saleName(row)}</strong>
      <span>
        {amountText(row.price, row.currency)} {row.currency}, {dateText(row.soldOn)}
      </span>
      {row.reliabilityPercent !== null ? <span>trusted {row.reliabilityPercent} %</span> : null}
      {reason ? <span className={row.state === 'left out' ? 'soft' : 'caution'}>{reason}</span> : null}
      {row.own ? <span className="soft">Your own sale: change it on the car’s page.</span> : null}
      {row.notes ? <span className="soft">{row.notes}</span> : null}
    </span>
  );
};

/**
 * What stands under the cursor in full, why it counts little or not, and what can be done with
 * the chosen records.
 */
export const RecordFoot = ({ row, chosen }: { row: SaleRow; chosen: ChosenSales }) => {
  const include = useAction((ids: number[]) => api.sales.exclude({ ids, excluded: false }), {
    label: ids => `${records(ids.length)} included again`,
  });
  const remove = useAction((ids: number[]) => api.sales.remove({ ids }), {
    label: ids => `${records(ids.length)} removed`,
  });
  const { ids } = chosen;
  return (
    <div className={classes.foot}>
      {ids.length > 1 ? (
        <span className={classes.facts}>
          <strong>{ids.length.toLocaleString()} records chosen</strong>
        </span>
      ) : (
        <Facts row={row} />
      )}
      <span className={classes.footActions}>
        {chosen.leftOut === ids.length ? (
          <Button loading={include.isPending} onClick={() => include.mutate(ids)}>
            Include again
          </Button>
        ) : (
          <LeaveOut ids={ids} />
        )}
        <Button
          variant="subtle"
          color="brick"
          loading={remove.isPending}
          disabled={chosen.own > 0}
          onClick={() => remove.mutate(ids)}
        >
          Remove
        </Button>
      </span>
    </div>
  );
};
