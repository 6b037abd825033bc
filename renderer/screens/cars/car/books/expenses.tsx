import { ActionIcon, Button, TextInput } from '@mantine/core';
import { DateInput } from '@mantine/dates';
import { IconTrash } from '@tabler/icons-react';
import { useState } from 'react';
import { Link } from 'wouter';
import type { CarPage } from '../../../../../electron/api/views.ts';
import type { Currency, IsoDate, Minor } from '../../../../../valuation/types.ts';
import { api } from '../../../../api/client.ts';
import { useAction } from '../../../../components/actions/use-action.ts';
import { amountText, dateText } from '../../../../components/format.ts';
import { MoneyInput } from '../../../../components/inputs/money-input.tsx';
import { ExportMenu } from '../../../../components/saved-views/export-menu.tsx';
import classes from './books.module.css';
import { spentOn } from './spending.ts';

const AddExpense = ({
  car,
  currency,
  today,
  onDone,
}: {
  car: CarPage;
  currency: Currency;
  today: IsoDate;
  onDone: () => void;
}) => {
  const [on, setOn] = useState<IsoDate>(today);
  const [what, setWhat] = useState('');
  const [minor, setMinor] = useState<Minor | null>(null);
  const add = useAction(
    (amount: Minor) =>
      api.cars.addExpense({ carId: car.id, spentOn: on, what: what.trim(), minor: amount, currency }),
    { label: 'Expense added', onDone },
  );
  return (
    <form
      className={classes.add}
      onSubmit={event => {
        event.preventDefault();
        if (minor !== null && what.trim()) add.mutate(minor);
      }}
    >
      <TextInput
        label="What for"
        value={what}
        autoFocus
        onChange={event => setWhat(event.currentTarget.value)}
      />
      <MoneyInput label="Amount" currency={currency} value={minor} onChange={setMinor} asTyped />
      <DateInput label="Spent on" value={on} onChange={value => setOn(value ?? today)} />
      <div className={classes.actions}>
        <Button type="submit" variant="filled" disabled={minor === null || !what.trim()}>
          Add
        </Button>
        <Button variant="subtle" onClick={onDone}>
          Cancel
        </Button>
      </div>
    </form>
  );
};

/** The car's share of its lot's cost and each expense on it, summed by currency. */
export const Expenses = ({ car, currency, today }: { car: CarPage; currency: Currency; today: IsoDate }) => {
  const [adding, setAdding] = useState(false);
  const remove = useAction((id: number) => api.cars.removeExpense({ id }), { label: 'Expense removed' });
  const sums = spentOn(car);
  const spendCurrency = car.costCurrency ?? currency;
  return (
    <div>
      <table className={classes.ledger}>
        <thead>
          <tr>
            <th scope="col">Spent on</th>
            <th scope="col">What for</th>
            <th scope="col" className={classes.end}>
              Amount
            </th>
            <th scope="col">
              <span className="heard">Remove</span>
            </th>
          </tr>
        </thead>
        <tbody>
          <tr>
            <td className="soft">{car.lot ? 'with its lot' : '–'}</td>
            <td>
              {car.lotId === null ? (
                'bought by itself; no cost is known'
              ) : (
                <>
                  share of <Link href={`~/lots/${car.lotId}`}>{car.lot}</Link>
                  {car.costFixed ? <span className="soft"> fixed by hand</span> : null}
                </>
              )}
            </td>
            <td className="amount">
              {car.cost === null || car.costCurrency === null
                ? '–'
                : `${amountText(car.cost, car.costCurrency)} ${car.costCurrency}`}
            </td>
            <td />
          </tr>
          {car.expenses.map(expense => (
            <tr key={expense.id}>
              <td>{dateText(expense.spentOn)}</td>
              <td>{expense.what}</td>
              <td className="amount">
                {amountText(expense.minor, expense.currency)} {expense.currency}
              </td>
              <td className={classes.remove}>
                <ActionIcon
                  aria-label={`Remove ${expense.what}`}
                  size={24}
                  onClick={() => remove.mutate(expense.id)}
                >
                  <IconTrash size={14} stroke={1.75} />
                </ActionIcon>
              </td>
            </tr>
          ))}
        </tbody>
        <tfoot>
          <tr>
            <th scope="row" colSpan={2}>
              total cost
            </th>
            <td className="amount">
              {sums.length === 0
                ? '–'
                : sums.map(sum => `${amountText(sum.minor, sum.currency)} ${sum.currency}`).join(' + ')}
            </td>
            <td />
          </tr>
        </tfoot>
      </table>
      {adding ? (
        <AddExpense car={car} currency={spendCurrency} today={today} onDone={() => setAdding(false)} />
      ) : (
        <div className={classes.actions}>
          <Button onClick={() => setAdding(true)}>Add an expense</Button>
          {car.expenses.length > 0 ? (
            <ExportMenu
              list="expenses"
              rows={() => ({ ids: car.expenses.map(({ id }) => id) })}
              parts={{ shown: 'Of this car', whole: 'Of all cars' }}
            />
          ) : null}
        </div>
      )}
    </div>
  );
};
