import type { ReactNode } from 'react';
import { Link } from 'wouter';
import type { LearnedView } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { sentenceCase } from '../../../../valuation/wording/reader.ts';
import { conditionLabel, gradeLabel } from '../../../../valuation/words.ts';
import { readerLocale, worthText } from '../../../components/format.ts';
import { useWords } from '../../../components/words.ts';
import classes from './steps.module.css';

const number = (value: number | null): string =>
  value === null
    ? 'not counted'
    : value.toLocaleString(readerLocale(), { maximumFractionDigits: value < 10 ? 1 : 0 });

/** A table that is opened by a press, named after what stands beside what it lists one by one. */
const Table = ({
  each,
  heads,
  children,
}: {
  each: 'job by job' | 'step by step';
  heads: readonly string[];
  children: ReactNode;
}) => (
  <details>
    <summary>{sentenceCase(each)}</summary>
    <div className={classes.scroll}>
      <table className={`${classes.table} ${classes.doneTable}`} aria-label={`Planned and done, ${each}`}>
        <thead>
          <tr>
            {heads.map(head => (
              <th key={head} scope="col">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>{children}</tbody>
      </table>
    </div>
  </details>
);

/**
 * What was planned and what was done, job by job and step by step: hours, cost, grade reached, spoiled or
 * not.
 */
export const DoneTables = ({ data, currency }: { data: LearnedView; currency: Currency }) => {
  const { spell } = useWords();
  const money = (minor: number | null) =>
    minor === null ? 'not known' : worthText(Math.round(minor), currency);
  return (
    <>
      <Table
        each="job by job"
        heads={[
          'Car',
          'Hours planned',
          'Counted',
          `Cost planned, ${currency}`,
          'Spent',
          'Aimed at',
          'Reached',
          'Went wrong',
        ]}
      >
        {data.byJob.map(job => (
          <tr key={`${job.carId} ${job.endedAt}`}>
            <th scope="row">
              <Link href={`~/cars/${job.carId}`}>{job.inventoryNumber}</Link>
            </th>
            <td className="amount">{number(job.plannedHours)}</td>
            <td className="amount">{number(job.takenHours)}</td>
            <td className="amount">{money(job.plannedCost)}</td>
            <td className="amount">{money(job.takenCost)}</td>
            <td>{job.aim === null ? '' : gradeLabel(job.aim)}</td>
            <td>{spell(conditionLabel(job.reached, job.finishState))}</td>
            <td>{job.spoiledAt.length === 0 ? 'no' : job.spoiledAt.map(spell).join('; ')}</td>
          </tr>
        ))}
      </Table>
      <Table
        each="step by step"
        heads={[
          'Step',
          'Done',
          'Minutes planned',
          'Counted',
          `Materials planned, ${currency}`,
          'Spent',
          'Went wrong',
        ]}
      >
        {data.byStep.map(step => (
          <tr key={step.id}>
            <th scope="row">{spell(step.name)}</th>
            <td className="amount">{step.done}</td>
            <td className="amount">{number(step.plannedMinutes)}</td>
            <td className="amount">
              {number(step.takenMinutes)}
              {step.timed > 0 && step.timed < step.done ? (
                <span className="soft"> of {step.timed}</span>
              ) : null}
            </td>
            <td className="amount">{money(step.plannedCost)}</td>
            <td className="amount">{step.takenCost === null ? 'not noted' : money(step.takenCost)}</td>
            <td className="amount">{step.spoiled}</td>
          </tr>
        ))}
      </Table>
    </>
  );
};
