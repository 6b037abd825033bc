import { Button } from '@mantine/core';
import { DateInput } from '@mantine/dates';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Currency, IsoDate } from '../../../../valuation/types.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { counted, dateText, worthText } from '../../../components/format.ts';
import classes from '../settings.module.css';

/** Keeps the worths of a day, so that they can be looked back on and judged by what cars bring later. */
export const KeepValuation = ({ today, currency }: { today: IsoDate; currency: Currency }) => {
  const { data: home } = useQuery({ queryKey: ['home'], queryFn: () => api.collection.home() });
  const [on, setOn] = useState<IsoDate | null>(today);
  const keep = useAction((day: IsoDate) => api.worth.takeSnapshot({ on: day }), {
    label: (day, { cars }) => `Values of ${counted(cars, 'car')} saved for ${dateText(day)}`,
  });
  const kept = home?.overTime ?? [];
  const last = kept.at(-1);
  return (
    <>
      <p className={classes.lead}>
        Save the value of every car once a month or before a sale. The curve on Home is drawn from saved
        valuations, and when you sell a car later, its estimate is checked below. An earlier date is valued
        from the sales known by then, with each car as it is now.
      </p>
      <form
        className={classes.keep}
        onSubmit={event => {
          event.preventDefault();
          if (on) keep.mutate(on);
        }}
      >
        <DateInput
          label="As of"
          value={on}
          maxDate={today}
          valueFormat="YYYY-MM-DD"
          placeholder="YYYY-MM-DD"
          onChange={setOn}
        />
        <Button type="submit" disabled={!on} loading={keep.isPending}>
          Save the values
        </Button>
        <span className="soft grid-text">
          {last
            ? `${kept.length} saved; the last, of ${dateText(last.on)}: ${worthText(last.asFound, currency)} ${currency} for ${last.cars} cars`
            : 'None saved yet'}
        </span>
      </form>
    </>
  );
};
