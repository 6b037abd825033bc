import { currencyDecimals } from '../../valuation/money.ts';
import type { Range } from '../../valuation/types.ts';
import { partStatesText } from '../../valuation/wording/cars/part-states-text.ts';
import { statusText } from '../../valuation/wording/cars/status-text.ts';
import { reportedEvidence } from '../../valuation/wording/values/evidence-text.ts';
import type { ValueBasis } from '../../valuation/words.ts';
import {
  type CellValue,
  type DataTable,
  dateCell as date,
  numberCell as number,
  textCell as text,
} from '../tables/data-table.ts';
import type { CollectionReport, ReportEntry } from '../types.ts';

/** A column of the exported list. */
export interface Column {
  /** Its heading, also the name under which our own import knows it. */
  name: string;
  /** Characters of width in a spreadsheet. */
  width: number;
  value: (entry: ReportEntry, report: CollectionReport) => CellValue;
}

const column = (name: string, width: number, value: Column['value']): Column => ({ name, width, value });

/** What is identified, else what the owner wrote in that column. */
const feature = (name: string, key: keyof ReportEntry['identity']['features']): Column =>
  column(name, 14, ({ identity }) => text(identity.features[key] || identity.written?.[name]));

const releaseYear = ({ identity }: ReportEntry): CellValue => {
  const written = identity.written?.release_year;
  if (identity.releaseYear !== null || !written) return number(identity.releaseYear);
  return /^\d{4}$/.test(written) ? number(Number(written)) : text(written);
};

const rangeColumns = (name: string, rangeOf: (entry: ReportEntry) => Range | null): Column[] =>
  (['low', 'mid', 'high'] as const).map(point =>
    column(`${name}_${point}`, 14, (entry, report) => {
      const range = rangeOf(entry);
      return range ? { kind: 'amount', minor: range[point], currency: report.currency } : null;
    }),
  );

const basisOf = (entry: ReportEntry, report: CollectionReport): ValueBasis =>
  entry.basis ?? report.basis.name;

const ownFigures = ({ worths }: ReportEntry): string =>
  [
    worths.asFound.own && 'as found',
    worths.restored.own && 'restored',
    worths.originalFinish.own && 'original finish',
  ]
    .filter(Boolean)
    .join('; ');

/** The owner's own figure as an import reads it: "USD 75.00", "USD 60.00-90.00" or with its middle. */
const estimateText = (range: Range | null | undefined, currency: string): string => {
  if (!range) return '';
  const decimals = currencyDecimals(currency);
  const { low, mid, high } = range;
  const told = low === high ? [mid] : mid === Math.round((low + high) / 2) ? [low, high] : [low, mid, high];
  return `${currency} ${told.map(minor => (minor / 10 ** decimals).toFixed(decimals)).join('-')}`;
};

/** A car that was only seen says so first; what else it is for its owner follows. */
const listedStatus = ({ listed, status }: ReportEntry): string =>
  !listed?.isSeen ? status : status === 'kept' ? statusText('seen') : `${statusText('seen')}; ${status}`;

const restorationText = ({ restoration }: ReportEntry): string =>
  restoration ? [restoration.fidelity, restoration.deviations.join('; ')].filter(Boolean).join(': ') : '';

/**
 * The columns of a lot's import, in their order and under their own headings, so that an export imports
 * with no mapping.
 */
const lotColumns: Column[] = [
  column('inventory_number', 16, entry => text(entry.inventoryNumber)),
  column('casting', 24, ({ identity }) =>
    text(identity.casting ?? (identity.written ? identity.written.casting : identity.asWritten)),
  ),
  column('release_name', 24, ({ identity }) => text(identity.releaseName ?? identity.written?.release_name)),
  column('release_year', 12, releaseYear),
  feature('colour', 'colour'),
  feature('base_paint', 'basePaint'),
  feature('rear_end', 'rearEnd'),
  feature('roof', 'roof'),
  feature('interior', 'interior'),
  feature('glazing', 'glazing'),
  feature('wheels', 'wheels'),
  feature('accessory', 'accessory'),
  feature('country', 'country'),
  column('grade', 8, entry => number(entry.grade)),
  column('finish_state', 13, entry => text(entry.finishState)),
  column('location', 20, entry => text(entry.location)),
  column('notes', 40, entry => text(entry.notes)),
];

const worthColumns: Column[] = [
  column('currency', 10, (_, report) => text(report.currency)),
  ...rangeColumns('as_found', entry => entry.worths.asFound.range),
  ...rangeColumns('restored', entry => entry.worths.restored.range),
  ...rangeColumns('original_finish', entry => entry.worths.originalFinish.range),
  ...rangeColumns('restoration_cost', entry => entry.restorationCost),
  column('basis_of_value', 22, (entry, report) => text(basisOf(entry, report))),
  column('effective_date', 14, (_, report) => date(report.effectiveOn)),
  column('own_figures', 16, entry => text(ownFigures(entry))),
  column('evidence', 40, entry =>
    text(entry.evidence && reportedEvidence(entry.evidence, entry.worths.asFound.own)),
  ),
];

const furtherColumns: Column[] = [
  column('maker', 24, ({ identity }) => text(identity.maker ?? identity.written?.maker)),
  column('series', 20, ({ identity }) => text(identity.series ?? identity.written?.series)),
  feature('body_finish', 'bodyFinish'),
  column('status', 12, entry => text(listedStatus(entry))),
  column('not_understood', 30, entry => text(entry.notUnderstood ?? null)),
  column('restoration', 24, entry => text(restorationText(entry))),
  column('parts', 40, entry => text(partStatesText(entry.parts))),
  column('worn_colour', 16, entry => text(entry.worn.colour)),
  column('worn_finish', 16, entry => text(entry.worn.finish)),
  column('disclosure', 60, entry => text(entry.disclosure)),
  column('lot', 18, entry => text(entry.acquisition?.lot)),
  column('documented_on', 14, entry => date(entry.documentedOn)),
  column('acquired_on', 13, entry => date(entry.acquisition?.on)),
  column('cost', 12, ({ acquisition }) =>
    acquisition && acquisition.cost !== null && acquisition.currency
      ? { kind: 'amount', minor: acquisition.cost, currency: acquisition.currency }
      : null,
  ),
  column('cost_currency', 13, ({ acquisition }) =>
    acquisition && acquisition.cost !== null ? text(acquisition.currency) : null,
  ),
  // Of a car that was bought by itself; what is its lot's goes out with the list of lots.
  column('bought_on', 13, entry => date(entry.acquisition?.own?.on)),
  column('seller', 18, entry => text(entry.acquisition?.own?.from)),
  column('price_paid', 12, ({ acquisition }) =>
    acquisition?.own?.isPaid && acquisition.cost !== null && acquisition.currency
      ? { kind: 'amount', minor: acquisition.cost, currency: acquisition.currency }
      : null,
  ),
  column('price_paid_currency', 13, ({ acquisition }) =>
    acquisition?.own?.isPaid && acquisition.cost !== null ? text(acquisition.currency) : null,
  ),
  column('own_estimate', 22, ({ listed }, { currency }) => text(estimateText(listed?.ownWorth, currency))),
  column('purchase_left_out', 24, ({ listed }) =>
    listed?.purchaseLeftOut === null ? null : text(listed && (listed.purchaseLeftOut || 'yes')),
  ),
  column('restorer_mark', 16, ({ listed }) => text(listed?.restorerMark)),
];

/**
 * All columns of the CSV and the XLSX export. Restored worths are before cost, which has columns of its own.
 */
export const exportColumns: readonly Column[] = [...lotColumns, ...worthColumns, ...furtherColumns];

const ofValue = new Set<string>([
  ...worthColumns.map(({ name }) => name).filter(name => name !== 'effective_date'),
  ...['cost', 'cost_currency', 'price_paid', 'price_paid_currency', 'own_estimate', 'purchase_left_out'],
  // What was not understood may be a price.
  'not_understood',
]);

/** The columns of a report: of a copy without values, those that tell neither value nor price. */
const columnsOf = ({ withoutValues }: CollectionReport): readonly Column[] =>
  withoutValues ? exportColumns.filter(({ name }) => !ofValue.has(name)) : exportColumns;

/** The report's cars as a table. */
export const carsTable = (report: CollectionReport): DataTable => {
  const columns = columnsOf(report);
  return {
    name: 'Cars',
    columns,
    count: report.entries.length,
    *rows() {
      for (const entry of report.entries) yield columns.map(column => column.value(entry, report));
    },
  };
};
