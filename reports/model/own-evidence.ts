import { formatMinor } from '../../valuation/money.ts';
import { counted } from '../../valuation/wording/reader.ts';
import { mainlyOwn } from '../../valuation/wording/values/evidence-text.ts';
import { printableLine } from '../printable.ts';
import type { CollectionReport, ReportEntry } from '../types.ts';

const mostNamed = 24;
const rest = {
  paid: 'what the owner paid for such cars',
  believed: 'what the owner believes that such cars bring',
};

/** What a value as found mainly rests on, where that is neither sale records nor its owner's own figure. */
const ownRestOf = ({ evidence, worths, status }: ReportEntry): keyof typeof rest | undefined =>
  status === 'sold' || !evidence || !worths.asFound.range || worths.asFound.own
    ? undefined
    : mainlyOwn(evidence);

/**
 * Which figures of a report rest mainly on what its owner paid or believes, how many they are and what they
 * come to, a sentence for each of the two; none where there are no such figures.
 */
export const ownEvidenceSentences = (report: CollectionReport): string[] =>
  (['paid', 'believed'] as const).flatMap(kind => {
    const cars = report.entries.filter(entry => ownRestOf(entry) === kind);
    if (cars.length === 0) return [];
    const sum = Math.round(cars.reduce((all, { worths }) => all + (worths.asFound.expected ?? 0), 0));
    const amount = formatMinor(sum, report.currency, report.locale);
    const named = cars.slice(0, mostNamed).map(({ inventoryNumber }) => printableLine(inventoryNumber));
    const more = cars.length > mostNamed ? ` and ${cars.length - mostNamed} more` : '';
    return [
      `${counted(cars.length, 'value rests', 'values rest')} mainly on ${rest[kind]}, and not on sale records (${report.currency} ${amount} of the total): ${named.join(', ')}${more}.`,
    ];
  });
