import type { Minor } from '../valuation/types.ts';
import { spell } from '../valuation/wording/dialect.ts';
import { plainLocale } from '../valuation/wording/reader.ts';
import { finishStates, type ValueBasis } from '../valuation/words.ts';
import type { CollectionReport, ReportEntry } from './types.ts';

/**
 * Cars of one group. `asFound` sums the mids of those that have a worth; the others are
 * counted in `withoutWorth`.
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
  /** How many of the worths are the owner's own figures, and their sum (already in `asFound`). */
  ownFigures: number;
  ownFiguresSum: Minor;
  bySeries: GroupTotal[];
  byFinishState: GroupTotal[];
  byLot: GroupTotal[];
}

export interface ReportTotals {
  /** The report's own basis first, then any other that an entry names. */
  bases: BasisTotals[];
  /** Listed, but in no total. */
  sold: number;
}

const add = (sum: Minor, minor: Minor): Minor => {
  const next = sum + minor;
  if (!Number.isSafeInteger(next)) throw new RangeError('The total is too large to be kept exactly');
  return next;
};

const sumUp = (name: string, entries: ReportEntry[]): GroupTotal => {
  const total: GroupTotal = { name, cars: entries.length, withoutWorth: 0, asFound: 0 };
  for (const { worths } of entries)
    if (worths.asFound.range) total.asFound = add(total.asFound, worths.asFound.range.mid);
    else total.withoutWorth += 1;
  return total;
};

const groupBy = (entries: ReportEntry[], nameOf: (entry: ReportEntry) => string): GroupTotal[] => {
  const groups = new Map<string, ReportEntry[]>();
  for (const entry of entries) {
    const name = nameOf(entry);
    const group = groups.get(name);
    if (group) group.push(entry);
    else groups.set(name, [entry]);
  }
  return [...groups].map(([name, members]) => sumUp(name, members));
};

/** Name of the group of a car whose series is not known. */
export const seriesOf = (entry: ReportEntry): string => entry.identity.series?.trim() || 'Not identified';
const lotOf = (entry: ReportEntry): string => entry.acquisition?.lot?.trim() || 'No lot';

/**
 * Totals as found, by basis of value and within it by series, finish state and lot. Only mids are added: the
 * lows (or highs) of single cars do not all come true together, so their sum would bound nothing. Sold cars
 * are in no total. Throws RangeError where a sum leaves the range of exact integers.
 */
export const totalsOf = (report: CollectionReport): ReportTotals => {
  const held = report.entries.filter(entry => entry.status !== 'sold');
  const names = new Set<ValueBasis>([report.basis.name]);
  for (const entry of held) names.add(entry.basis ?? report.basis.name);
  const totals = [...names].map(basis => {
    const cars = held.filter(entry => (entry.basis ?? report.basis.name) === basis);
    const own = cars.filter(entry => entry.worths.asFound.range && entry.worths.asFound.own);
    return {
      ...sumUp(basis, cars),
      basis,
      ownFigures: own.length,
      ownFiguresSum: sumUp('', own).asFound,
      bySeries: groupBy(cars, seriesOf),
      byFinishState: finishStates
        .map(state =>
          sumUp(
            spell(state, report.locale ?? plainLocale),
            cars.filter(entry => entry.finishState === state),
          ),
        )
        .filter(group => group.cars > 0),
      byLot: groupBy(cars, lotOf),
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
