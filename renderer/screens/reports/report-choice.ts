import type { DefinedReport } from '../../../electron/api/reports/definitions.ts';
import type { CollectionSummary, IsoDate, ReportRequest } from '../../../electron/api/views.ts';
import { usualTitle } from '../../../valuation/wording/report-title.ts';
import type { ValueBasis } from '../../../valuation/words.ts';
import { readerLocale } from '../../components/format.ts';
import { type PaperSize, usualPaper } from '../../components/usual-paper.ts';

export type PdfStandard = NonNullable<ReportRequest['standard']>;
export type ReportFormat = ReportRequest['format'];

/** What the owner has chosen of a report to be made. */
export interface ReportChoice {
  format: ReportFormat;
  title: string;
  basis: ValueBasis;
  /** null for the whole collection. */
  lotId: number | null;
  on: IsoDate;
  paper: PaperSize;
  withPhotographs: boolean;
  includeSold: boolean;
  withoutValues: boolean;
  withoutPlaces: boolean;
  withChanges: boolean;
  standard: PdfStandard;
  sayPrepared: boolean;
}

/** Where a new report starts: the whole collection as a PDF of today, on the reader's usual paper. */
export const startingChoice = (summary: Pick<CollectionSummary, 'today'>): ReportChoice => ({
  format: 'pdf',
  title: usualTitle,
  basis: 'fair market value',
  lotId: null,
  on: summary.today,
  paper: usualPaper(readerLocale()),
  withPhotographs: true,
  includeSold: false,
  withoutValues: false,
  withoutPlaces: false,
  withChanges: false,
  standard: 'a-2a',
  sayPrepared: false,
});

/** The choice as the service takes it, to be worded for the reader. */
export const reportInput = ({ lotId, title, ...choice }: ReportChoice) => ({
  ...choice,
  locale: readerLocale(),
  title: title.trim() || usualTitle,
  ...(lotId === null ? {} : { lotId }),
});

/** A saved request as a choice; its date is today's. */
export const choiceOf = ({
  format,
  title,
  basis,
  lotId,
  paper,
  ...wanted
}: DefinedReport): Partial<ReportChoice> => ({
  format,
  lotId: lotId ?? null,
  ...(title !== undefined && { title }),
  ...(basis !== undefined && { basis }),
  ...(paper !== undefined && { paper }),
  withPhotographs: wanted.withPhotographs ?? true,
  includeSold: wanted.includeSold ?? false,
  withoutValues: wanted.withoutValues ?? false,
  withoutPlaces: wanted.withoutPlaces ?? false,
  withChanges: wanted.withChanges ?? false,
  standard: wanted.standard ?? 'a-2a',
  sayPrepared: wanted.sayPrepared ?? false,
});

/** The standards of a PDF, for whom each is. */
export const standards: { value: PdfStandard; label: string }[] = [
  { value: 'a-2a', label: 'To keep for long: PDF/A-2a' },
  { value: 'ua-1', label: 'To be read aloud: PDF/UA-1' },
  { value: '1.7', label: 'Plain PDF 1.7' },
];

/** What each format is good for, in a few words. */
export const formats: { value: ReportFormat; label: string; help: string }[] = [
  {
    value: 'pdf',
    label: 'PDF',
    help: 'To print, send and keep: pictures, grades, values, method and limits.',
  },
  { value: 'xlsx', label: 'Spreadsheet', help: 'XLSX, one row a car, amounts as numbers.' },
  { value: 'csv', label: 'CSV', help: 'Plain text, one row a car. It imports here again as it is.' },
];

export const basisHelp: Record<ValueBasis, string> = {
  'fair market value':
    'What a willing buyer would pay a willing seller, neither compelled, both informed (26 CFR 20.2031-1(b)).',
  'retail replacement value':
    'What it costs to replace the car with a similar one where such cars are usually sold. Only your own figures use it; values found from sales stay fair market value and have their own total.',
};
