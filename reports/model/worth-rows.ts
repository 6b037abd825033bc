import { formatMinor } from '../../valuation/money.ts';
import type { Range } from '../../valuation/types.ts';
import type { CollectionReport, ReportEntry, ReportWorth } from '../types.ts';
import type { WorthAxis } from './worth-axis.ts';

/** One row of a car's worth table, with its bar on the worth strip. */
export interface WorthRow {
  label: string;
  /** True where the owner's own figure stands in. */
  own: boolean;
  note: string;
  fill: 'solid' | 'hatched' | 'outlined';
  /** null where there is no worth; `note` then says why. */
  figures: { low: string; mid: string; high: string } | null;
  /**
   * Places on the axis; `whisker` is the gross end of a worth shown net of cost; `opensLeft`: its low lies
   * before the axis.
   */
  bar: { low: number; mid: number; high: number; whisker: number | null; opensLeft: boolean } | null;
}

const lessCost = (worth: Range, cost: Range): Range => ({
  low: worth.low - cost.mid,
  mid: worth.mid - cost.mid,
  high: worth.high - cost.mid,
});

/**
 * The three worths of a car in their fixed order; the restored one net of the mid of its cost
 * where that is given.
 */
export const worthRows = (
  entry: ReportEntry,
  report: CollectionReport,
  axis: WorthAxis | null,
): WorthRow[] => {
  const amount = (minor: number): string => formatMinor(minor, report.currency, report.locale);
  const row = (
    label: string,
    fill: WorthRow['fill'],
    { range, own, note }: ReportWorth,
    cost: Range | null = null,
  ): WorthRow => {
    if (!range)
      return { label, own: false, note: note || 'not enough evidence', fill, figures: null, bar: null };
    const shown = cost ? lessCost(range, cost) : range;
    const words = [note ?? '', cost ? `after ${amount(cost.mid)} of work` : ''];
    return {
      label,
      own,
      note: words.filter(Boolean).join('; '),
      fill,
      figures: { low: amount(shown.low), mid: amount(shown.mid), high: amount(shown.high) },
      bar: axis && {
        low: axis.place(shown.low),
        mid: axis.place(shown.mid),
        high: axis.place(shown.high),
        whisker: cost ? axis.place(range.high) : null,
        opensLeft: axis.isBefore(shown.low),
      },
    };
  };
  const { asFound, restored, originalFinish } = entry.worths;
  return [
    row('As found', 'solid', asFound),
    row('Restored', 'hatched', restored, entry.restorationCost),
    row('Original finish', 'outlined', originalFinish),
  ];
};

/**
 * The amounts for which the strips' common axis is made: all worths before cost. A worth net of cost can
 * come near nothing, which would stretch a logarithmic axis over every other car's bars; such a bar opens to
 * the left instead.
 */
export const drawnAmounts = (report: CollectionReport): number[] =>
  report.entries.flatMap(({ worths }) =>
    [worths.asFound.range, worths.restored.range, worths.originalFinish.range].flatMap(range =>
      range ? [range.low, range.high] : [],
    ),
  );

/** "Restored: after 15.00 of work. Original finish: no longer attainable." for the rows that have figures. */
export const worthNotes = (rows: WorthRow[]): string =>
  rows.flatMap(({ label, note, figures }) => (figures && note ? [`${label}: ${note}.`] : [])).join(' ');

/** The strip in words, for readers who cannot see it. */
export const stripInWords = (rows: WorthRow[], currency: string): string =>
  `Value in ${currency}: ${rows
    .map(({ label, figures, note, own }) =>
      figures
        ? `${label.toLowerCase()} ${figures.low} to ${figures.high}, middle ${figures.mid}${own ? ', the owner\u2019s own figure' : ''}`
        : `${label.toLowerCase()} ${note}`,
    )
    .join('; ')}.`;
