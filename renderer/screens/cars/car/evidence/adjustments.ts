import type { WorthExplanation } from '../../../../../electron/api/views.ts';
import type { AdjustmentCause, Minor } from '../../../../../valuation/types.ts';

export type ExplainedRecord = WorthExplanation['records'][number];
export type AdjustmentColumn = 'currency' | 'date' | 'source' | 'rarity' | 'grade' | 'finish state' | 'parts';

/** The columns of the adjustment grid, in the order in which a price goes through them. */
const adjustmentColumns: readonly { what: AdjustmentColumn; title: string }[] = [
  { what: 'currency', title: 'currency' },
  { what: 'date', title: 'date' },
  { what: 'source', title: 'source' },
  { what: 'rarity', title: 'rarity' },
  { what: 'grade', title: 'grade' },
  { what: 'finish state', title: 'finish' },
  { what: 'parts', title: 'parts' },
];

/**
 * Departures from the specification are shown with the parts: both say how the car differs from a whole one.
 */
const columnOf = (what: ExplainedRecord['adjustments'][number]['what']): AdjustmentColumn =>
  what === 'fidelity' ? 'parts' : what;

/** What a column multiplies a record's price by; null where it does nothing. */
export const factorOf = (
  record: Pick<ExplainedRecord, 'adjustments'>,
  column: AdjustmentColumn,
): number | null => {
  const own = record.adjustments.filter(({ what }) => columnOf(what) === column);
  return own.length === 0 ? null : own.reduce((product, { factor }) => product * factor, 1);
};

/** The columns that do something to any of the records. */
export const usedColumns = (records: readonly Pick<ExplainedRecord, 'adjustments'>[]) =>
  adjustmentColumns.filter(({ what }) =>
    records.some(record => record.adjustments.some(adjustment => columnOf(adjustment.what) === what)),
  );

export interface Step {
  what: ExplainedRecord['adjustments'][number]['what'];
  cause: AdjustmentCause;
  factor: number;
  /** The amount after this step, in minor units; the currency's step leaves the record's currency. */
  after: Minor;
}

/**
 * The price after each adjustment. `unit` is how many minor units of the reporting currency one of the
 * record's is worth before any rate: 1 where both have the same decimals, 100 from yen to dollars.
 */
export const stepsOf = (record: Pick<ExplainedRecord, 'price' | 'adjustments'>, unit: number): Step[] => {
  let amount = record.price * unit;
  return record.adjustments.map(({ what, cause, factor }) => {
    amount *= factor;
    return { what, cause, factor, after: Math.round(amount) };
  });
};

/** "×0.87": as many decimals as tell it from its neighbours. */
export const factorText = (factor: number): string =>
  `×${factor.toFixed(factor >= 9.95 ? 1 : factor < 0.1 ? 3 : 2)}`;
