import { Button, TextInput } from '@mantine/core';
import { DateInput } from '@mantine/dates';
import { useState } from 'react';
import type { CarPage } from '../../../../../electron/api/views.ts';
import { netGain } from '../../../../../valuation/lots/net-gain.ts';
import type { Currency, IsoDate, Minor } from '../../../../../valuation/types.ts';
import { api } from '../../../../api/client.ts';
import { useAction } from '../../../../components/actions/use-action.ts';
import { AmountDelta } from '../../../../components/amounts/amount.tsx';
import { CurrencyField } from '../../../../components/inputs/currency-field.tsx';
import { MoneyInput } from '../../../../components/inputs/money-input.tsx';
import { readerWords } from '../../../../components/words.ts';
import { finishRecord } from '../car-names.ts';
import classes from './books.module.css';
import { spentOn } from './spending.ts';

/** What the sale would gain, where all that was spent is in the sale's currency. */
const gainOf = (car: CarPage, proceeds: Minor, fees: Minor, currency: Currency): Minor | null => {
  const spent = spentOn(car);
  if (car.cost === null || spent.some(sum => sum.currency !== currency)) return null;
  const improvements = car.expenses.reduce((sum, expense) => sum + expense.minor, 0);
  return netGain({ proceeds, fees, cost: car.cost, improvements });
};

/** Enters a sale; says how the car is to be described, and what is gained. */
export const SellForm = ({
  car,
  currency: reporting,
  today,
  onDone,
}: {
  car: CarPage;
  currency: Currency;
  today: IsoDate;
  onDone: () => void;
}) => {
  const [currency, setCurrency] = useState(car.costCurrency ?? reporting);
  const [soldOn, setSoldOn] = useState<IsoDate>(today);
  const [proceeds, setProceeds] = useState<Minor | null>(null);
  const [fees, setFees] = useState<Minor | null>(0);
  const [buyer, setBuyer] = useState('');
  const [venue, setVenue] = useState('');
  const sell = useAction(
    (brought: Minor) =>
      api.cars.dispose({
        carId: car.id,
        soldOn,
        proceeds: brought,
        fees: fees ?? 0,
        currency,
        buyer: buyer.trim(),
        venue: venue.trim(),
      }),
    { label: `${car.inventoryNumber} sold`, onDone },
  );
  const record = finishRecord(car.finishState);
  const gain = proceeds === null ? null : gainOf(car, proceeds, fees ?? 0, currency);
  return (
    <form
      className={classes.sell}
      onSubmit={event => {
        event.preventDefault();
        if (proceeds !== null) sell.mutate(proceeds);
      }}
    >
      {record ? (
        <p className={classes.record}>
          Sell it as {readerWords().spell(car.finishState)}: the record goes with the car.
        </p>
      ) : null}
      <div className={classes.fields}>
        <MoneyInput
          label="Proceeds"
          currency={currency}
          value={proceeds}
          onChange={setProceeds}
          asTyped
          autoFocus
          required
        />
        <MoneyInput label="Fees" currency={currency} value={fees} onChange={setFees} asTyped />
        <CurrencyField value={currency} onChange={setCurrency} />
        <DateInput label="Sold on" value={soldOn} onChange={value => setSoldOn(value ?? today)} />
        <TextInput
          label="Buyer"
          value={buyer}
          maxLength={200}
          onChange={event => setBuyer(event.currentTarget.value)}
        />
        <TextInput
          label="Where"
          placeholder="fair, auction, dealer …"
          value={venue}
          maxLength={200}
          onChange={event => setVenue(event.currentTarget.value)}
        />
      </div>
      <p className={classes.gainLine} aria-live="polite">
        {proceeds === null ? (
          <span className="soft">The gain follows from the proceeds.</span>
        ) : gain === null ? (
          <span className="soft">The gain is not known: its cost is not known in {currency}.</span>
        ) : (
          <>
            Gain <AmountDelta minor={gain} currency={currency} /> {currency}
          </>
        )}
      </p>
      <div className={classes.actions}>
        <Button type="submit" variant="filled" disabled={proceeds === null} loading={sell.isPending}>
          Sell it
        </Button>
        <Button variant="subtle" onClick={onDone}>
          Cancel
        </Button>
      </div>
    </form>
  );
};
