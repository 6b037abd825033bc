import { formatMinor } from '../../valuation/money.ts';
import { spell } from '../../valuation/wording/dialect.ts';
import { plainLocale } from '../../valuation/wording/reader.ts';
import { type FinishState, finishStates } from '../../valuation/words.ts';
import type { CollectionReport } from '../types.ts';

/** Columns of what cars are expected to bring by grade, each parted by finish state. */
export interface GradeChart {
  columns: {
    label: string;
    /** From the foot upwards; shares of the highest column, 0…1. */
    parts: { fill: FinishState; share: number }[];
  }[];
  /** Finish states that occur, in the order in which they are stacked. */
  legend: { fill: FinishState; name: string }[];
  /** What the highest column stands for. */
  top: string;
  alt: string;
}

/** The chart of a report's own basis; null where fewer than two cars have a worth and a grade. */
export const gradeChart = (report: CollectionReport): GradeChart | null => {
  const { currency } = report;
  const locale = report.locale ?? plainLocale;
  const cars = report.entries.filter(
    ({ status, basis, grade, worths }) =>
      status !== 'sold' &&
      (basis ?? report.basis.name) === report.basis.name &&
      grade !== null &&
      worths.asFound.expected !== null,
  );
  if (cars.length < 2) return null;
  const grades = Array.from({ length: 10 }, (_, i) => 10 - i);
  const sums = grades.map(grade =>
    finishStates.map(state =>
      cars
        .filter(car => Math.floor(car.grade!) === grade && car.finishState === state)
        .reduce((sum, { worths }) => sum + (worths.asFound.expected ?? 0), 0),
    ),
  );
  const totals = sums.map(parts => parts.reduce((sum, part) => sum + part, 0));
  const highest = Math.max(...totals);
  if (highest <= 0) return null;
  const amount = (minor: number): string => formatMinor(Math.round(minor), currency, locale);
  const said = grades.flatMap((grade, i) => (totals[i]! > 0 ? [`C${grade} ${amount(totals[i]!)}`] : []));
  return {
    columns: grades.map((grade, i) => ({
      label: `C${grade}`,
      parts: sums[i]!.flatMap((part, k) =>
        part > 0 ? [{ fill: finishStates[k]!, share: part / highest }] : [],
      ),
    })),
    legend: finishStates.flatMap((state, k) =>
      sums.some(parts => parts[k]! > 0) ? [{ fill: state, name: spell(state, locale) }] : [],
    ),
    top: `${currency} ${amount(highest)}`,
    alt: `Columns of the value as found by grade, divided by finish state, in ${currency}: ${said.join(', ')}.`,
  };
};
