import type { Minor, Range } from '../../valuation/types.ts';
import { spell } from '../../valuation/wording/dialect.ts';
import { plainLocale, sentenceCase } from '../../valuation/wording/reader.ts';
import { finishStates, type ValueBasis } from '../../valuation/words.ts';
import type { CollectionReport, ReportEntry } from '../types.ts';

/**
 * Cars of one group. `asFound` is what those that have a worth are expected to bring together; the others
 * are counted in `withoutWorth`.
 */
export interface GroupTotal {
  name: string;
  cars: number;
  withoutWorth: number;
  asFound: Minor;
}

/** Totals of the cars on one basis of value, in minor units of the report's currency. */
export interface BasisTotals extends GroupTotal {
  basis: ValueBasis;
  /** The 80 % range of the total; null where no car has a worth. */
  range: Range | null;
  /** How many of the worths are the owner's own figures, and their sum (already in `asFound`). */
  ownFigures: number;
  ownFiguresSum: Minor;
  bySeries: GroupTotal[];
  byGrade: GroupTotal[];
  byFinishState: GroupTotal[];
  byLot: GroupTotal[];
  /** Empty where no car of the report has a place. */
  byPlace: GroupTotal[];
}

export interface ReportTotals {
  /** The report's own basis first, then any other that an entry names. */
  bases: BasisTotals[];
  /** Listed, but in no total. */
  sold: number;
}

const expectedOf = (entries: readonly ReportEntry[]): number =>
  entries.reduce((sum, { worths }) => sum + (worths.asFound.expected ?? 0), 0);

const whole = (amount: number): Minor => {
  const minor = Math.round(amount);
  if (!Number.isSafeInteger(minor)) throw new RangeError('The total is too large to be kept exactly');
  return minor;
};

const countUp = (name: string, entries: readonly ReportEntry[]): Omit<GroupTotal, 'asFound'> => ({
  name,
  cars: entries.length,
  withoutWorth: entries.filter(({ worths }) => worths.asFound.range === null).length,
});

/** Groups in whole minor units that add up to the total: what rounding leaves of one goes on to the next. */
const sumUp = (groups: Iterable<[string, ReportEntry[]]>): GroupTotal[] => {
  let before = 0;
  return [...groups].map(([name, members]) => {
    const after = before + expectedOf(members);
    const asFound = whole(after) - whole(before);
    before = after;
    return { ...countUp(name, members), asFound };
  });
};

const groupBy = (entries: ReportEntry[], nameOf: (entry: ReportEntry) => string): GroupTotal[] =>
  sumUp(Map.groupBy(entries, nameOf));

/** Name of the group of a car whose series is not known. */
export const seriesOf = (entry: ReportEntry): string => entry.identity.series?.trim() || 'Not identified';
const lotOf = (entry: ReportEntry): string => entry.acquisition?.lot?.trim() || 'No lot';

const gradeOf = ({ grade }: ReportEntry): string =>
  grade === null
    ? 'Not graded'
    : `C${Math.floor(grade)}${grade < 10 ? ` to C${Math.floor(grade) + 0.5}` : ''}`;
/** Name of the group of cars whose place is not recorded. */
export const noPlace = 'No place recorded';
export const placeOf = ({ location }: ReportEntry): string => location?.trim() || noPlace;

const byNameOf = (entries: ReportEntry[], nameOf: (entry: ReportEntry) => string): ReportEntry[] =>
  [...entries].sort((a, b) => nameOf(a).localeCompare(nameOf(b), 'en', { numeric: true }));

/**
 * Cars with their factory finish by grade, the others by what has become of it: their grades are not of one
 * scale.
 */
const byGrade = (entries: ReportEntry[], locale: string): GroupTotal[] =>
  groupBy(
    [...entries].sort(
      (a, b) =>
        finishStates.indexOf(a.finishState) - finishStates.indexOf(b.finishState) ||
        (b.grade ?? 0) - (a.grade ?? 0),
    ),
    entry =>
      entry.finishState === 'original'
        ? gradeOf(entry)
        : spell(`${sentenceCase(entry.finishState)}, all grades`, locale),
  );

/**
 * Totals as found, by basis of value and within it by series, grade, finish state, lot and place: what the
 * cars are expected to bring together. The total and its range are the engine's (`report.sums`), the same as
 * on Home; groups divide it without rest. Sold cars are in no total. Throws RangeError where a sum leaves the
 * range of exact integers.
 */
export const totalsOf = (report: CollectionReport): ReportTotals => {
  const held = report.entries.filter(entry => entry.status !== 'sold');
  const names = new Set<ValueBasis>([report.basis.name]);
  for (const entry of held) names.add(entry.basis ?? report.basis.name);
  const placed = held.some(entry => placeOf(entry) !== noPlace);
  const totals = [...names].map(basis => {
    const cars = held.filter(entry => (entry.basis ?? report.basis.name) === basis);
    const own = cars.filter(entry => entry.worths.asFound.range && entry.worths.asFound.own);
    const counts = countUp(basis, cars);
    return {
      ...counts,
      asFound: whole(expectedOf(cars)),
      range: counts.withoutWorth === counts.cars ? null : (report.sums[basis] ?? null),
      basis,
      ownFigures: own.length,
      ownFiguresSum: whole(expectedOf(own)),
      bySeries: groupBy(cars, seriesOf),
      byGrade: byGrade(cars, report.locale ?? plainLocale),
      byFinishState: sumUp(
        finishStates
          .map((state): [string, ReportEntry[]] => [
            spell(state, report.locale ?? plainLocale),
            cars.filter(entry => entry.finishState === state),
          ])
          .filter(([, members]) => members.length > 0),
      ),
      byLot: groupBy(cars, lotOf),
      byPlace: placed ? groupBy(byNameOf(cars, placeOf), placeOf) : [],
    };
  });
  return { bases: totals, sold: report.entries.length - held.length };
};

/** "3 cars have no worth for want of evidence", or null where every car has one. */
export const withoutWorthSentence = (count: number): string | null =>
  count === 0
    ? null
    : count === 1
      ? '1 car has no value because there is too little evidence, and is in no total'
      : `${count} cars have no value because there is too little evidence, and are in no total`;
