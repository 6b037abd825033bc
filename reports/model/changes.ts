import { formatMinor } from '../../valuation/money.ts';
import type { Minor } from '../../valuation/types.ts';
import { spell } from '../../valuation/wording/dialect.ts';
import { plainLocale } from '../../valuation/wording/reader.ts';
import { carGradeLabel } from '../../valuation/words.ts';
import { longDate, printableLine } from '../printable.ts';
import { type CellValue, type DataTable, textCell } from '../tables/data-table.ts';
import type { ChangedField, CollectionReport, ReportChanges, SaidOfCar, WhyGone } from '../types.ts';

/**
 * A value that moved by less than this share of what it was is counted, not listed: most move a little with
 * each sale record.
 */
export const telling = 0.05;

const isTelling = (before: Minor | null, now: Minor | null): boolean =>
  before === null || now === null
    ? before !== now
    : Math.abs(now - before) >= telling * Math.abs(before) && now !== before;

const changedFields = (before: SaidOfCar, now: SaidOfCar, withValues: boolean): ChangedField[] => [
  ...(['number', 'grade', 'finishState', 'status'] as const).filter(field => before[field] !== now[field]),
  ...(withValues && isTelling(before.value, now.value) ? (['value'] as const) : []),
];

/**
 * Compares what two reports said, car by car. Values are compared where `withValues`: both reports tell them,
 * in one currency. `whyGone` says of a car that is not in the newer one where it went.
 */
export const changesBetween = (
  earlier: readonly SaidOfCar[],
  now: readonly SaidOfCar[],
  { withValues, whyGone }: { withValues: boolean; whyGone: (car: SaidOfCar) => WhyGone },
): Omit<ReportChanges, 'since'> => {
  const before = new Map(earlier.map(car => [car.id, car]));
  const here = new Set(now.map(car => car.id));
  const compared = now.flatMap(car => {
    const was = before.get(car.id);
    return was ? [{ before: was, now: car, what: changedFields(was, car, withValues) }] : [];
  });
  return {
    added: now.filter(car => !before.has(car.id)),
    gone: earlier.filter(car => !here.has(car.id)).map(car => ({ car, why: whyGone(car) })),
    changed: compared.filter(({ what }) => what.length > 0),
    slightly: withValues
      ? compared.filter(({ what, before: was, now: is }) => what.length === 0 && was.value !== is.value)
          .length
      : 0,
  };
};

/** The changes as a report prints them: sentences, and rows of finished texts. */
export interface ChangesModel {
  sentences: string[];
  added: string[][];
  gone: string[][];
  changed: string[][];
}

const moneyOf = ({ currency, locale }: CollectionReport, minor: Minor): string =>
  formatMinor(minor, currency, locale);

const condition = (car: SaidOfCar, locale: string): string =>
  spell(
    car.grade === null ? `not graded, ${car.finishState}` : carGradeLabel(car.grade, car.finishState),
    locale,
  );

/** What a car was said to be, in those respects in which it changed. */
const toldOf = (car: SaidOfCar, what: readonly ChangedField[], report: CollectionReport): string => {
  const locale = report.locale ?? plainLocale;
  return [
    what.includes('number') ? `number ${printableLine(car.number)}` : '',
    what.includes('grade') || what.includes('finishState') ? condition(car, locale) : '',
    what.includes('status') ? car.status : '',
    what.includes('value') ? (car.value === null ? 'no value' : moneyOf(report, car.value)) : '',
  ]
    .filter(Boolean)
    .join('; ');
};

const counted = (count: number, one: string, many: string): string => `${count} ${count === 1 ? one : many}`;

const sinceSentence = ({ since }: ReportChanges, report: CollectionReport): string => {
  if (!since) return 'No report of these cars was saved on an earlier day, so there is nothing to compare.';
  const cars = since.cars === null ? '' : `, which had ${counted(since.cars, 'car', 'cars')}`;
  const total =
    report.withoutValues || since.total === null || since.currency === null
      ? ''
      : ` and came to ${since.currency} ${formatMinor(since.total, since.currency, report.locale)}`;
  return `Compared with \u201c${printableLine(since.name)}\u201d of ${longDate(since.on)}${cars}${total}.`;
};

const sentencesOf = (changes: ReportChanges, report: CollectionReport): string[] => {
  if (!changes.since) return [sinceSentence(changes, report)];
  const others =
    changes.since.currency !== null &&
    changes.since.currency !== report.currency &&
    !report.withoutValues &&
    `Its values are in ${changes.since.currency} and are not compared.`;
  const nothing = changes.added.length + changes.gone.length + changes.changed.length === 0;
  return [
    sinceSentence(changes, report),
    others || '',
    nothing ? 'No car is new, gone or in another condition.' : '',
    changes.slightly > 0
      ? `The value of ${counted(changes.slightly, 'further car', 'further cars')} moved by less than ${Math.round(telling * 100)}\u00a0%.`
      : '',
  ].filter(Boolean);
};

/** The changes in words; null where the report tells none. */
export const changesModel = (report: CollectionReport): ChangesModel | null => {
  const { changes } = report;
  if (!changes) return null;
  const locale = report.locale ?? plainLocale;
  const row = (car: SaidOfCar): string[] => [
    printableLine(car.number),
    printableLine(car.name),
    condition(car, locale),
  ];
  const value = (car: SaidOfCar): string[] =>
    report.withoutValues ? [] : [car.value === null ? 'no value' : moneyOf(report, car.value)];
  return {
    sentences: sentencesOf(changes, report),
    added: changes.added.map(car => [...row(car), ...value(car)]),
    gone: changes.gone.map(({ car, why }) => [...row(car), why]),
    changed: changes.changed.map(({ before, now, what }) => [
      printableLine(now.number),
      printableLine(now.name),
      toldOf(before, what, report),
      toldOf(now, what, report),
    ]),
  };
};

/** The same as a sheet of a workbook, a row a change. */
export const changesTable = (report: CollectionReport): DataTable | null => {
  const model = changesModel(report);
  if (!model) return null;
  const rows: string[][] = [
    ...model.added.map(([number = '', name = '', ...now]) => ['new', number, name, '', now.join('; ')]),
    ...model.gone.map(([number = '', name = '', was = '', why = '']) => ['gone', number, name, was, why]),
    ...model.changed.map(([number = '', name = '', was = '', now = '']) => [
      'changed',
      number,
      name,
      was,
      now,
    ]),
    ...model.sentences.map(sentence => ['about', '', sentence, '', '']),
  ];
  return {
    name: 'Changes',
    columns: [
      { name: 'change', width: 10 },
      { name: 'inventory_number', width: 16 },
      { name: 'car', width: 40 },
      { name: 'before', width: 30 },
      { name: 'now', width: 30 },
    ],
    count: rows.length,
    rows: () => rows.map(row => row.map((text): CellValue => textCell(text))),
  };
};
