import type { CollectionSummary, LotRow } from '../../../electron/api/views.ts';
import { reportTitle } from '../../../valuation/wording/report-title.ts';
import { dateText } from '../../components/format.ts';
import type { ReportChoice } from './report-choice.ts';
import classes from './reports.module.css';

const contents: Record<ReportChoice['format'], string[]> = {
  pdf: [
    'Cover with basis, effective date and total',
    'Totals by series, finish state and lot',
    'Method and limits',
    'Every car: picture, identity, grade, finish state, value',
  ],
  xlsx: [
    'One row a car, with the columns of a lot file first',
    'The three values as numbers',
    'Dates as dates',
  ],
  csv: [
    'One row a car, with the columns of a lot file first',
    'The three values as decimals',
    'UTF-8, comma, RFC 4180',
  ],
};

const withoutValues: Record<ReportChoice['format'], string[]> = {
  pdf: [
    'Cover with the effective date',
    'Every car: picture, identity, grade, finish state',
    'No values or prices',
  ],
  xlsx: ['One row a car, with the columns of a lot file first', 'No values or prices', 'Dates as dates'],
  csv: [
    'One row a car, with the columns of a lot file first',
    'No values or prices',
    'UTF-8, comma, RFC 4180',
  ],
};

/** Which cars the report is of; sold ones are in it only where that is chosen. */
const carsText = (
  { includeSold }: ReportChoice,
  { counts }: CollectionSummary,
  lot: LotRow | null,
): string =>
  lot
    ? `${includeSold ? lot.carCount : lot.carCount - lot.soldCount} of the lot ${lot.name}`
    : includeSold
      ? `${counts.cars}, the sold ones too`
      : 'the whole collection';

/** A small sheet that shows what the report will say of itself. */
export const Sheet = ({
  choice,
  summary,
  lot,
}: {
  choice: ReportChoice;
  summary: CollectionSummary;
  lot: LotRow | null;
}) => (
  <aside
    className={classes.sheet}
    data-paper={choice.paper}
    aria-label="What the report will say about itself"
  >
    <p className={classes.sheetOwner}>{summary.owner || summary.name}</p>
    <p className={classes.sheetTitle}>{reportTitle(choice.title, lot !== null)}</p>
    <dl className={classes.sheetFacts}>
      <dt>Cars</dt>
      <dd>{carsText(choice, summary, lot)}</dd>
      {choice.withoutValues ? null : (
        <>
          <dt>Basis</dt>
          <dd>{choice.basis}</dd>
        </>
      )}
      <dt>Effective</dt>
      <dd>{dateText(choice.on)}</dd>
      {choice.withoutValues ? null : (
        <>
          <dt>Currency</dt>
          <dd>{summary.reportingCurrency}</dd>
        </>
      )}
    </dl>
    <ul className={classes.sheetContents}>
      {(choice.withoutValues ? withoutValues : contents)[choice.format].map(line => (
        <li key={line}>{line}</li>
      ))}
    </ul>
    <p className={classes.sheetLimits}>
      An owner’s inventory, not an appraisal.
      {choice.withoutValues
        ? ''
        : ' Cars without enough evidence are listed and counted separately, never as zero.'}
    </p>
  </aside>
);
