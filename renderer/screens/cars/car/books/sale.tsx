import { Button } from '@mantine/core';
import { useState } from 'react';
import { Link } from 'wouter';
import type { CarPage } from '../../../../../electron/api/views.ts';
import type { Currency, IsoDate } from '../../../../../valuation/types.ts';
import { conditionLabel } from '../../../../../valuation/words.ts';
import { api } from '../../../../api/client.ts';
import { useAction } from '../../../../components/actions/use-action.ts';
import { AmountDelta } from '../../../../components/amounts/amount.tsx';
import { amountText, dateText } from '../../../../components/format.ts';
import { readerWords } from '../../../../components/words.ts';
import classes from './books.module.css';
import { SellForm } from './sell-form.tsx';

/** The sale of this car: what it brought and what was gained, or the means to enter it. */
export const Sale = ({ car, currency, today }: { car: CarPage; currency: Currency; today: IsoDate }) => {
  const [selling, setSelling] = useState(false);
  const takeBack = useAction(() => api.cars.undispose({ id: car.id }), { label: 'Sale undone' });
  const { disposal } = car;
  if (disposal)
    return (
      <div>
        <dl className={classes.sale}>
          <dt>Sold</dt>
          <dd>
            {dateText(disposal.soldOn)}
            {disposal.buyer ? ` to ${disposal.buyer}` : ''}
            {disposal.venue ? `, ${disposal.venue}` : ''}
          </dd>
          <dt>Sold as</dt>
          <dd>{readerWords().spell(conditionLabel(car.grade, car.finishState))}</dd>
          <dt>Proceeds</dt>
          <dd className="tabular">
            {amountText(disposal.proceeds, disposal.currency)} {disposal.currency}
          </dd>
          <dt>Fees</dt>
          <dd className="tabular">
            {amountText(disposal.fees, disposal.currency)} {disposal.currency}
          </dd>
          <dt>Gain made</dt>
          <dd className={classes.gain}>
            {disposal.gain === null ? (
              <span className="soft">not known: its cost is not known in {disposal.currency}</span>
            ) : (
              <>
                <AmountDelta minor={disposal.gain} currency={disposal.currency} /> {disposal.currency}
              </>
            )}
          </dd>
        </dl>
        {disposal.notes ? <p className={classes.notes}>{disposal.notes}</p> : null}
        <p className="soft">
          It is listed with the <Link href="~/sales/sold">cars you sold</Link>. This sale is also one of your{' '}
          <Link href="~/sales">sale records</Link>, and the estimate learns from it.
        </p>
        <Button onClick={() => takeBack.mutate()}>Undo this sale</Button>
      </div>
    );
  if (car.isSeen)
    return (
      <p className="soft">
        This car is of a lot that was only seen. Save the lot as bought before you sell a car of it.
      </p>
    );
  if (selling)
    return <SellForm car={car} currency={currency} today={today} onDone={() => setSelling(false)} />;
  return (
    <div className={classes.offer}>
      <p className="soft">
        When you sell it, enter the sale price: Playworn works out your gain and adds your sale to the sale
        records.
      </p>
      <Button onClick={() => setSelling(true)}>Sell this car</Button>
    </div>
  );
};
