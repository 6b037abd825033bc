import { Button, Popover, TextInput } from '@mantine/core';
import { useState } from 'react';
import type { LotPage, PurchaseView } from '../../../../electron/api/views.ts';
import {
  lacksText,
  purchasesText,
  purchaseText,
} from '../../../../valuation/wording/values/purchase-text.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { amountText, dateText, readerLocale } from '../../../components/format.ts';
import classes from './lot-evidence.module.css';

interface Said {
  leftOut: boolean;
  why: string;
}

/** One purchase of the lot: whether it counts, and the switch. */
const Purchase = ({ lot, purchase }: { lot: LotPage; purchase: PurchaseView }) => {
  const [why, setWhy] = useState('');
  const { car, aside, boughtOn, total } = purchase;
  const what = car ? `Car ${car.inventoryNumber}` : lot.name;
  const say = useAction(
    (said: Said) => api.lots.leaveOut({ of: car ? 'car' : 'lot', id: car?.id ?? lot.id, ...said }),
    { label: ({ leftOut }) => `${what} ${leftOut ? 'left out of' : 'counts again in'} estimates` },
  );
  const isOut = aside?.kind === 'left-out';
  return (
    <li className={classes.purchase} data-out={aside ? true : undefined}>
      <p className={classes.what}>
        <strong>{what}</strong>
        <span>
          {dateText(boughtOn)} · {amountText(total, lot.currency)} {lot.currency}
        </span>
      </p>
      <p className={classes.counts}>{purchaseText(purchase, readerLocale())}</p>
      {isOut ? (
        <Button size="xs" onClick={() => say.mutate({ leftOut: false, why: '' })}>
          Count it again
        </Button>
      ) : (
        <form
          className={classes.leave}
          onSubmit={event => {
            event.preventDefault();
            say.mutate({ leftOut: true, why: why.trim() });
          }}
        >
          <TextInput
            aria-label={`Why ${what} says nothing about prices`}
            placeholder="Why (a gift, a friend’s price, …)"
            maxLength={200}
            value={why}
            onChange={event => setWhy(event.currentTarget.value)}
          />
          <Button size="xs" type="submit">
            Leave it out
          </Button>
        </form>
      )}
    </li>
  );
};

/**
 * Whether what was paid for the lot counts as evidence of what such cars bring, why not, and the way to leave
 * it out.
 */
export const LotEvidence = ({ lot, onDetails }: { lot: LotPage; onDetails: () => void }) => {
  const [open, setOpen] = useState(false);
  const { purchases, lacks } = lot.evidence;
  if (lacks === 'cars') return null;
  if (lacks)
    return (
      <p className={classes.line}>
        {lacksText(lacks)}{' '}
        <button type="button" className="as-link" onClick={onDetails}>
          {lacks === 'cost' ? 'Enter what it cost' : 'Enter the day'}
        </button>
      </p>
    );
  return (
    <p className={classes.line}>
      {purchasesText(purchases, readerLocale())}{' '}
      <Popover opened={open} onChange={setOpen} position="bottom-start" width={380} trapFocus returnFocus>
        <Popover.Target>
          <button type="button" className="as-link" aria-expanded={open} onClick={() => setOpen(!open)}>
            What was paid, as evidence
          </button>
        </Popover.Target>
        <Popover.Dropdown aria-label="What was paid, as evidence">
          <p className={classes.lead}>
            A price that was paid shows what such cars sell for, like a sale that you saw. It counts at the
            grades at which the cars were bought: changing a grade here changes what it says of every car like
            them.
          </p>
          <ul className={classes.purchases}>
            {purchases.map(purchase => (
              <Purchase key={purchase.car?.id ?? 'lot'} lot={lot} purchase={purchase} />
            ))}
          </ul>
        </Popover.Dropdown>
      </Popover>
    </p>
  );
};
