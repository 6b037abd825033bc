import { Button } from '@mantine/core';
import { Link } from 'wouter';
import type { CarPage } from '../../../../../electron/api/views.ts';
import { purchaseText } from '../../../../../valuation/wording/values/purchase-text.ts';
import { api } from '../../../../api/client.ts';
import { useAction } from '../../../../components/actions/use-action.ts';
import { amountText, dateText, readerLocale } from '../../../../components/format.ts';
import classes from './evidence.module.css';

/**
 * Whether what was paid for the car counts as evidence; one that was bought alone is left out here, a lot on
 * its own page.
 */
export const PaidFor = ({
  purchase,
  carId,
  number,
}: {
  purchase: NonNullable<CarPage['purchase']>;
  carId: number;
  number: string;
}) => {
  const { car, aside, boughtOn, total, currency, lotId, lot } = purchase;
  const isOut = aside?.kind === 'left-out';
  const say = useAction(() => api.lots.leaveOut({ of: 'car', id: carId, leftOut: !isOut }), {
    label: () => `What was paid for ${number} ${isOut ? 'counts again in' : 'left out of'} estimates`,
  });
  const paid = `${amountText(total, currency)} ${currency} on ${dateText(boughtOn)}`;
  return (
    <div className={classes.paid}>
      <p>
        {car ? (
          `Bought alone for ${paid}. `
        ) : (
          <>
            Bought in <Link href={`~/lots/${lotId}`}>{lot}</Link> for {paid}
            {purchase.cars > 1 ? `, with ${purchase.cars - 1} more` : ''}.{' '}
          </>
        )}
        {purchaseText(purchase, readerLocale())}
      </p>
      {car ? (
        <Button size="xs" onClick={() => say.mutate()} loading={say.isPending}>
          {isOut ? 'Count it again' : 'Leave it out of estimates'}
        </Button>
      ) : null}
    </div>
  );
};
