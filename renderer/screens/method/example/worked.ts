import type { CarRow, WorthExplanation } from '../../../../electron/api/views.ts';
import type { Adjustment, AdjustmentCause, Currency, Evidence, Worth } from '../../../../valuation/types.ts';
import type { FinishState, Grade } from '../../../../valuation/words.ts';
import type { CarWorths } from '../../../components/worth-strip/strip-worths.ts';

/** A car whose worth as found is worked through, from the collection or invented. */
export interface WorkedCar {
  /** Null for the invented one. */
  id: number | null;
  number: string;
  casting: string;
  variation: string;
  swatch: string | null;
  basePaint: string;
  grade: Grade | null;
  finishState: FinishState;
  photo: string | null;
  worths: CarWorths;
  worth: Worth;
  evidence: Evidence;
  records: WorthExplanation['records'];
  currency: Currency;
}

export const workedCar = (
  car: CarRow,
  { worth, evidence, records }: WorthExplanation,
  currency: Currency,
): WorkedCar | null =>
  worth === null || worth.own || records.length === 0
    ? null
    : {
        id: car.id,
        number: car.inventoryNumber,
        casting: car.releaseName ?? car.casting ?? '',
        variation: car.variation ?? '',
        swatch: car.swatch,
        basePaint: car.features.basePaint,
        grade: car.grade,
        finishState: car.finishState,
        photo: car.photo,
        worths: car.worths,
        worth,
        evidence,
        records,
        currency,
      };

/**
 * The car that shows most: with several sales of its own and some of its casting's, neither without nor
 * overwhelmed by evidence.
 */
export const mostTelling = (cars: readonly WorkedCar[]): WorkedCar | null => {
  const telling = ({ evidence, grade }: WorkedCar) =>
    Math.min(evidence.sales, 6) * 2 +
    4 * (1 - Math.abs(evidence.credibility - 0.6)) +
    (grade === null ? 0 : 3);
  return cars.reduce<WorkedCar | null>(
    (best, car) => (best === null || telling(car) > telling(best) ? car : best),
    null,
  );
};

/** The record that took the most adjustments, the weightier of two; null where none took any. */
export const mostAdjusted = (records: WorkedCar['records']): WorkedCar['records'][number] | null =>
  records.reduce<WorkedCar['records'][number] | null>(
    (most, record) => (record.adjustments.length > (most?.adjustments.length ?? 0) ? record : most),
    null,
  );

/** The kinds of adjustment that any of the records needed, in the order in which they apply. */
export const kindsOf = (records: WorkedCar['records']): Adjustment['what'][] => {
  const order: Adjustment['what'][] = [
    'currency',
    'date',
    'source',
    'rarity',
    'grade',
    'finish state',
    'parts',
    'fidelity',
  ];
  return order.filter(what => records.some(record => record.adjustments.some(line => line.what === what)));
};

/**
 * All that one kind of adjustment did to a record: the product of its lines and their causes; null
 * where it did nothing.
 */
export const together = (
  lines: readonly Adjustment[],
  what: Adjustment['what'],
): { factor: number; causes: AdjustmentCause[] } | null => {
  const own = lines.filter(line => line.what === what);
  if (own.length === 0) return null;
  return {
    factor: own.reduce((product, line) => product * line.factor, 1),
    causes: own.map(line => line.cause),
  };
};

/** A factor as it is multiplied by: "× 0.79", with three decimals near one. */
export const factorText = (factor: number): string =>
  `× ${factor.toFixed(Math.abs(factor - 1) < 0.1 ? 3 : 2)}`;
