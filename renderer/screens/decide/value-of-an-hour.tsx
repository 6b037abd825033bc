import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import { Link } from 'wouter';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import { worthText } from '../../components/format.ts';
import classes from './value-of-an-hour.module.css';

/**
 * Asks once what an hour at the bench is worth to the owner, and says what each answer changes. On a narrow screen the
 * answers are shown when they are asked for, so that the list has room.
 */
export const ValueOfAnHour = ({ narrow }: { narrow: boolean }) => {
  const [isOpen, setOpen] = useState(false);
  const { data } = useQuery({ queryKey: ['value-of-an-hour'], queryFn: () => api.decisions.valueOfAnHour() });
  const answer = useAction((rate: number) => api.decisions.setValueOfAnHour({ rate }), {
    label: 'Value of an hour saved',
  });
  if (!data) return null;
  if (narrow && !isOpen)
    return (
      <section className={classes.ask} aria-label="Value of an hour">
        <button type="button" className="as-link" aria-expanded={false} onClick={() => setOpen(true)}>
          What is an hour of yours at the bench worth to you?
        </button>
      </section>
    );
  return (
    <section className={classes.ask} aria-label="Value of an hour">
      <p>
        <strong>What is an hour of yours at the bench worth to you?</strong> Work counts as a pleasure, and
        costs nothing, until you say otherwise. You are asked once; it can be changed in{' '}
        <Link href="~/settings?part=assumptions">Settings</Link>.
      </p>
      <div className={classes.answers}>
        {data.rates.map(({ rate, cars }) => (
          <Button key={rate} variant="default" loading={answer.isPending} onClick={() => answer.mutate(rate)}>
            {rate === 0 ? 'Nothing' : `${worthText(rate, data.currency)} ${data.currency}`}: {cars}{' '}
            {cars === 1 ? 'car pays' : 'cars pay'} for work
          </Button>
        ))}
      </div>
    </section>
  );
};
