import { Button, Checkbox } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Currency, ThreePoint } from '../../../../valuation/types.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { percentText, readerLocale, worthText } from '../../../components/format.ts';
import { useWords } from '../../../components/words.ts';
import { DoneTables } from './done-tables.tsx';
import classes from './steps.module.css';

const number = (value: number): string =>
  value.toLocaleString(readerLocale(), { maximumFractionDigits: value < 10 ? 1 : 0 });
const three = ({ low, likely, high }: ThreePoint, text: (value: number) => string = String): string =>
  [low, likely, high].map(text).join('–');

const weight = (jobs: number, credibility: number): string =>
  `your ${jobs === 1 ? 'job' : `${jobs} jobs`} ${percentText(credibility)}, the current figure ${percentText(1 - credibility)}`;

type Learned = Awaited<ReturnType<typeof api.work.learned>>;

/** A row for each figure of a step of which the jobs say something. */
const StepRows = ({
  step: { name, hands, cost, spoilChance },
  currency,
  isUsed,
  onToggle,
}: {
  step: Learned['steps'][number];
  currency: Currency;
  isUsed: boolean;
  onToggle: () => void;
}) => {
  const words = useWords();
  const rows = [
    hands && {
      what: 'minutes',
      own: number(hands.own),
      before: three(hands.before),
      after: three(hands.after),
      found: hands,
    },
    cost && {
      what: `materials, ${currency}`,
      own: worthText(Math.round(cost.own), currency),
      before: three(cost.before, minor => worthText(minor, currency)),
      after: three(cost.after, minor => worthText(minor, currency)),
      found: cost,
    },
    spoilChance && {
      what: 'spoils the car',
      own: percentText(spoilChance.own),
      before: `${number(spoilChance.before * 100)} %`,
      after: `${number(spoilChance.after * 100)} %`,
      found: spoilChance,
    },
  ].filter(row => row !== undefined);
  return (
    <>
      {rows.map(({ what, own, before, after, found }, i) => (
        <tr key={what}>
          <td>
            {i === 0 ? <Checkbox aria-label={`Use ${name}`} checked={isUsed} onChange={onToggle} /> : null}
          </td>
          <th scope="row">
            {i === 0 ? words.spell(name) : ''} <span className="soft">{what}</span>
          </th>
          <td className="amount">{own}</td>
          <td className="amount">{before}</td>
          <td className="amount">
            <strong>{after}</strong>
          </td>
          <td className="soft">{weight(found.jobs, found.credibility)}</td>
        </tr>
      ))}
    </>
  );
};

const meanShort = (chances: readonly { short: number; share: number }[]): number =>
  chances.reduce((sum, { short, share }) => sum + short * share, 0);

/** How far the grades that were reached fall short of those aimed at. */
const WorkmanshipRow = ({
  learned,
  isUsed,
  onToggle,
}: {
  learned: NonNullable<Learned['workmanship']>;
  isUsed: boolean;
  onToggle: () => void;
}) => (
  <tr>
    <td>
      <Checkbox aria-label="Use how far work falls short" checked={isUsed} onChange={onToggle} />
    </td>
    <th scope="row">
      Work falls short of the grade aimed at <span className="soft">points, on average</span>
    </th>
    <td className="amount">{number(learned.own)}</td>
    <td className="amount">{number(meanShort(learned.before))}</td>
    <td className="amount">
      <strong>{number(meanShort(learned.after))}</strong>
    </td>
    <td className="soft">{weight(learned.jobs, learned.credibility)}</td>
  </tr>
);

/** What the owner's own jobs say of the steps: shown, and taken over only when they say so. */
export const LearnedPart = ({ currency }: { currency: Currency }) => {
  const { data } = useQuery({ queryKey: ['work-learned'], queryFn: () => api.work.learned() });
  const [left, setLeft] = useState<ReadonlySet<string>>(new Set());
  const accept = useAction(
    (input: Parameters<typeof api.work.acceptLearned>[0]) => api.work.acceptLearned(input),
    { label: 'Steps learned from your jobs' },
  );
  if (!data || data.jobs === 0)
    return (
      <p className="soft">
        Once jobs are finished on the bench, what they took is shown here beside what was planned.
      </p>
    );
  const { steps, workmanship } = data;
  const grades = 'grades';
  const wanted = steps.filter(({ id }) => !left.has(id));
  const toggle = (id: string) => {
    const next = new Set(left);
    if (!next.delete(id)) next.add(id);
    setLeft(next);
  };
  return (
    <section className={classes.learned} aria-label="What your own jobs say">
      <h3>What your own jobs say</h3>
      <p className="soft">
        {data.jobs === 1 ? '1 finished job' : `${data.jobs} finished jobs`}: {number(data.planned)} hours were
        planned, {number(data.taken)} were counted.
      </p>
      <DoneTables data={data} currency={currency} />
      {steps.length === 0 && !workmanship ? (
        <p className="soft">Nothing to update: what they say is in use already.</p>
      ) : (
        <>
          <div className={classes.scroll}>
            <table className={classes.table}>
              <thead>
                <tr>
                  <th scope="col">Use</th>
                  <th scope="col">Figure</th>
                  <th scope="col">Your jobs</th>
                  <th scope="col">Current</th>
                  <th scope="col">Would be</th>
                  <th scope="col">Weight</th>
                </tr>
              </thead>
              <tbody>
                {steps.map(step => (
                  <StepRows
                    key={step.id}
                    step={step}
                    currency={currency}
                    isUsed={!left.has(step.id)}
                    onToggle={() => toggle(step.id)}
                  />
                ))}
                {workmanship ? (
                  <WorkmanshipRow
                    learned={workmanship}
                    isUsed={!left.has(grades)}
                    onToggle={() => toggle(grades)}
                  />
                ) : null}
              </tbody>
            </table>
          </div>
          <Button
            loading={accept.isPending}
            disabled={wanted.length === 0 && (!workmanship || left.has(grades))}
            onClick={() =>
              accept.mutate({
                stepIds: wanted.map(({ id }) => id),
                workmanship: workmanship !== null && !left.has(grades),
              })
            }
          >
            Use them as a new version
          </Button>
        </>
      )}
    </section>
  );
};
