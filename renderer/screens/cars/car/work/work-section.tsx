import { Button } from '@mantine/core';
import { Link, useLocation } from 'wouter';
import type { CarPage } from '../../../../../electron/api/views.ts';
import type { IsoDate } from '../../../../../valuation/types.ts';
import {
  carGradeLabel,
  type FinishState,
  type Grade,
  type WorkKind,
} from '../../../../../valuation/words.ts';
import { api } from '../../../../api/client.ts';
import { useAction } from '../../../../components/actions/use-action.ts';
import { dateText, worthText } from '../../../../components/format.ts';
import { Section } from '../../../../components/layout/section.tsx';
import { readerWords } from '../../../../components/words.ts';
import { EventForm } from './event-form.tsx';
import classes from './work.module.css';

type Event = CarPage['events'][number];

const changeText = (
  { before, after, worthBefore, worthAfter, currency }: Event,
  finish: FinishState,
): string => {
  const label = (grade: Grade) => readerWords().spell(carGradeLabel(grade, finish));
  const grades = before === null || after === null ? '' : `${label(before)} before, ${label(after)} after`;
  const worths =
    worthBefore === null || worthAfter === null || currency === null
      ? ''
      : `value ${worthText(worthBefore, currency)} before, ${worthText(worthAfter, currency)} after, ${currency}`;
  return [grades, worths].filter(Boolean).join('; ');
};

const workKind = (car: CarPage): WorkKind => {
  const choice = car.decision.recorded?.choice;
  return choice !== undefined && choice !== 'leave' ? choice : 'restore';
};

/** What was done to a car, which parts went where, and what happened to it since. */
export const WorkSection = ({ car, today }: { car: CarPage; today: IsoDate }) => {
  const [, navigate] = useLocation();
  const { spell } = readerWords();
  const bench = useAction(() => api.bench.add({ cars: [{ carId: car.id, kind: workKind(car) }] }), {
    label: `${car.inventoryNumber} put on the bench`,
    thenGo: ({ ids }) => navigate(`~/bench/${ids[0] ?? ''}`),
  });
  const finishOf = ({ checkId }: Event) =>
    car.checks.find(({ id }) => id === checkId)?.finishState ?? car.finishState;
  const nothing =
    car.work.length + car.fitted.length + car.gave.length + car.events.length + car.givenUp.length === 0;
  return (
    <Section
      id="work"
      title="Work and events"
      aside={
        car.status === 'sold' ? null : (
          <span className={classes.actions}>
            {car.status === 'on the bench' ? (
              <Link href="~/bench">It is on the bench</Link>
            ) : (
              <Button loading={bench.isPending} onClick={() => bench.mutate()}>
                Put on the bench
              </Button>
            )}
            <Button component={Link} href={`~/bench/finish/${car.id}`}>
              Record finished work
            </Button>
          </span>
        )
      }
    >
      {nothing ? <p className="soft">No work is recorded.</p> : null}
      <ul className={classes.list}>
        {car.work.map(work => (
          <li key={`work-${work.id}`}>
            <span className={classes.day}>{dateText(work.finishedOn)}</span>
            <span>
              {spell(`${work.kind}: ${work.finishState}`)}
              {work.minutes === null ? '' : `, ${work.minutes} min`}
              {work.who === '' ? '' : `, by ${work.who}`}
              {work.notes === '' ? '' : `. ${work.notes}`}
            </span>
          </li>
        ))}
        {car.givenUp.map(({ jobId, kind, endedAt, reason, minutes }) => (
          <li key={`given-up-${jobId}`}>
            <span className={classes.day}>{endedAt === '' ? '' : dateText(endedAt.slice(0, 10))}</span>
            <span>
              <Link href={`~/bench/${jobId}`}>{spell(`${kind}: given up`)}</Link>
              {minutes === 0 ? '' : `, ${minutes} min`}. {reason}
            </span>
          </li>
        ))}
        {car.fitted.map((part, at) => (
          <li key={`fitted-${at}`}>
            <span className={classes.day}>{dateText(part.usedOn)}</span>
            <span>
              Fitted: {part.quantity > 1 ? `${part.quantity} × ` : ''}
              {part.name}, {spell(part.originality)}
              {part.donorCarId === null ? null : (
                <>
                  , from <Link href={`/${part.donorCarId}`}>{part.donorNumber}</Link>
                </>
              )}
            </span>
          </li>
        ))}
        {car.gave.map((part, at) => (
          <li key={`gave-${at}`}>
            <span className={classes.day}>{dateText(part.usedOn)}</span>
            <span>
              Taken from it: {part.name}, now on <Link href={`/${part.carId}`}>{part.inventoryNumber}</Link>
            </span>
          </li>
        ))}
        {car.events.map(event => (
          <li key={`event-${event.id}`}>
            <span className={classes.day}>{dateText(event.happenedOn)}</span>
            <span>
              {event.cause}
              {event.note === '' ? '' : `: ${event.note}`}{' '}
              <span className="soft">{changeText(event, finishOf(event))}</span>
            </span>
          </li>
        ))}
      </ul>
      {car.status === 'sold' ? null : <EventForm car={car} today={today} />}
    </Section>
  );
};
