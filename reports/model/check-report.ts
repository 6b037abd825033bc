import { currencyDecimals } from '../../valuation/money.ts';
import type { Range } from '../../valuation/types.ts';
import { isGrade } from '../../valuation/words.ts';
import type { CollectionReport, ReportEntry } from '../types.ts';

const isoDate = /^\d{4}-\d{2}-\d{2}$/;
const instant = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2})$/;

const checkRange = (range: Range, where: string): void => {
  for (const minor of [range.low, range.mid, range.high])
    if (!Number.isSafeInteger(minor))
      throw new RangeError(`${where}: ${minor} is not a whole number of minor units`);
  if (range.low > range.mid || range.mid > range.high)
    throw new RangeError(`${where}: low, mid and high must rise`);
};

const checkEntry = (entry: ReportEntry): void => {
  const where = `Car ${entry.inventoryNumber}`;
  if (entry.grade !== null && !isGrade(entry.grade))
    throw new RangeError(`${where}: ${entry.grade} is not a grade from 1 to 10 in half points`);
  for (const [name, worth] of Object.entries(entry.worths))
    if (worth.range) checkRange(worth.range, `${where}, ${name}`);
  if (entry.finishState !== 'original' && entry.disclosure.trim() === '')
    throw new RangeError(`${where} is ${entry.finishState}, and nothing says so`);
  if (entry.restorationCost) checkRange(entry.restorationCost, `${where}, restoration cost`);
  const cost = entry.acquisition?.cost ?? null;
  if (cost === null) return;
  if (!Number.isSafeInteger(cost))
    throw new RangeError(`${where}: ${cost} is not a whole number of minor units`);
  if (!entry.acquisition?.currency) throw new RangeError(`${where}: a cost needs its currency`);
  currencyDecimals(entry.acquisition.currency);
};

/**
 * Refuses a report whose figures cannot be printed as they stand: fractional or unsafe amounts, a range that
 * does not rise, an unknown grade, a car without its factory finish of which nothing says so, a date that is
 * not ISO 8601, no currency. Throws RangeError naming the car. Changes nothing.
 */
export const checkReport = (report: CollectionReport): void => {
  currencyDecimals(report.currency);
  if (!isoDate.test(report.effectiveOn) || Number.isNaN(Date.parse(report.effectiveOn)))
    throw new RangeError(`The effective date "${report.effectiveOn}" is not a date such as 2026-11-25`);
  for (const given of [report.stampedAt, report.preparedOn])
    if (given !== null && (!instant.test(given) || Number.isNaN(Date.parse(given))))
      throw new RangeError(`"${given}" is not an instant such as 2026-11-25T15:46:00Z`);
  for (const entry of report.entries) checkEntry(entry);
};
