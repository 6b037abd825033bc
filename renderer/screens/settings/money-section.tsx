import { Button, TextInput } from '@mantine/core';
import { DateInput } from '@mantine/dates';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { CollectionSummary, ExchangeRateView } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { dateText } from '../../components/format.ts';
import { CurrencyField } from '../../components/inputs/currency-field.tsx';
import { LoadingState } from '../../components/layout/loading-state.tsx';
import { Section } from '../../components/layout/section.tsx';
import { readRate } from './read-rate.ts';
import classes from './settings.module.css';

const AddRate = ({ summary }: { summary: CollectionSummary }) => {
  const reporting = summary.reportingCurrency;
  const [currency, setCurrency] = useState('');
  const [on, setOn] = useState<string | null>(summary.today);
  const [text, setText] = useState('');
  const rate = readRate(text);
  const save = useAction(
    (input: { currency: string; on: string; rate: string }) => api.collection.saveRate(input),
    { label: input => `Rate of ${input.currency} set`, onDone: () => setText('') },
  );
  return (
    <form
      className={classes.addRate}
      onSubmit={event => {
        event.preventDefault();
        if (currency && on && rate) save.mutate({ currency, on, rate });
      }}
    >
      <CurrencyField value={currency} onChange={setCurrency} />
      <DateInput label="From" value={on} onChange={setOn} valueFormat="YYYY-MM-DD" placeholder="YYYY-MM-DD" />
      <TextInput
        label={`${reporting} for one ${currency || 'unit'}`}
        value={text}
        inputMode="decimal"
        placeholder="such as 1.16"
        error={text && !rate ? 'Enter a number of more than zero' : null}
        onChange={event => setText(event.currentTarget.value)}
      />
      <Button type="submit" disabled={!currency || !on || !rate} loading={save.isPending}>
        Set the rate
      </Button>
    </form>
  );
};

const RateTable = ({ rates, reporting }: { rates: ExchangeRateView[]; reporting: string }) => {
  const remove = useAction((rate: ExchangeRateView) => api.collection.removeRate({ id: rate.id }), {
    label: rate => `Rate of ${rate.currency} removed`,
  });
  const ordered = rates.toSorted((a, b) => a.currency.localeCompare(b.currency) || b.on.localeCompare(a.on));
  return (
    <div className={classes.tall}>
      <table className={classes.table}>
        <thead>
          <tr>
            <th scope="col">Currency</th>
            <th scope="col">From</th>
            <th scope="col">Until</th>
            <th scope="col" className="amount">
              {reporting} for one
            </th>
            <th scope="col">
              <span className="heard">Remove</span>
            </th>
          </tr>
        </thead>
        <tbody>
          {ordered.map((rate, index) => {
            const next = ordered[index - 1];
            const later = next?.currency === rate.currency ? next : null;
            return (
              <tr key={rate.id}>
                <th scope="row">{rate.currency}</th>
                <td>{dateText(rate.on)}</td>
                <td className="soft">{later ? dateText(later.on) : 'now'}</td>
                <td className="amount">{rate.rate}</td>
                <td className="amount">
                  <Button
                    variant="subtle"
                    color="brick"
                    size="compact-xs"
                    aria-label={`Remove the rate of ${rate.currency} from ${dateText(rate.on)}`}
                    onClick={() => remove.mutate(rate)}
                  >
                    Remove
                  </Button>
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
};

/** Dated exchange rates, which only the owner enters: nothing is fetched. */
export const MoneySection = ({ summary }: { summary: CollectionSummary }) => {
  const { data: rates, isPending } = useQuery({ queryKey: ['rates'], queryFn: () => api.collection.rates() });
  const reporting = summary.reportingCurrency;
  return (
    <Section id="money" title="Exchange rates" aside={`into ${reporting}`}>
      <p className={classes.lead}>
        A rate applies from its date until the next one for the same currency. A price in a currency with no
        rate for its date is set aside, never guessed; it counts as soon as you enter one. Nothing is
        downloaded.
      </p>
      <AddRate summary={summary} />
      {rates && rates.length > 0 ? (
        <RateTable rates={rates} reporting={reporting} />
      ) : isPending ? (
        <LoadingState part />
      ) : (
        <p className="soft grid-text">
          No rates yet. They are needed only for prices in a currency other than {reporting}.
        </p>
      )}
    </Section>
  );
};
