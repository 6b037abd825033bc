import { randomUUID } from 'node:crypto';
import { Writable } from 'node:stream';
import type { KeptReport } from '../../../db/records/collection/report-definitions.ts';
import { totalsOf } from '../../../reports/model/totals.ts';
import type { CollectionReport } from '../../../reports/types.ts';
import { createReportPdf } from '../../../reports/typesetting/pdf.ts';
import * as inputs from '../inputs.ts';
import { BoundedMap, slot } from '../session/cache.ts';
import { needsCollection } from '../session/context.ts';
import { refused } from '../session/errors.ts';
import { type OnProgress, streamed } from '../session/progress.ts';
import type { Session } from '../session/session.ts';
import type { ReportResult } from '../views.ts';
import { type ReportWanted, saidReport } from './report-data.ts';

/** A name for the file that every system takes: letters, digits and hyphens. */
const fileNameOf = (title: string, on: string, format: string): string => {
  const plain = title
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
    .slice(0, 60);
  return `${plain || 'report'}-${on}.${format}`;
};

/** What each format is called in a file's description. */
export const mimes = {
  pdf: 'application/pdf',
  csv: 'text/csv; charset=utf-8',
  jsonl: 'application/jsonl; charset=utf-8',
  zip: 'application/zip',
  xlsx: 'application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
} as const;

export interface ReportFile {
  fileName: string;
  mime: string;
  bytes: Uint8Array;
  /** Its pages as SVG pictures, where they were wanted. */
  preview?: string[];
  /** How many pages it has, where it has any; those that are prepared for looking at may be fewer. */
  pages?: number;
  /** What it says in all, to be noted where it is saved; `body`: of each car, as JSON. */
  said?: Pick<KeptReport, 'kind' | 'name' | 'effectiveOn' | 'total' | 'currency' | 'cars'> & {
    body?: string;
  };
}

/** Finished reports that wait to be fetched; making a fifth lets go of the oldest. */
const waiting = slot(() => new BoundedMap<string, ReportFile>(4));

/** Holds a finished report until others have followed it; returns the token to fetch it by. */
export const keepReport = (session: Session, file: ReportFile): string => {
  const token = randomUUID();
  session.cache.of(waiting).set(token, file);
  return token;
};

/** What is answered of a finished report that waits. */
export const madeReport = (file: ReportFile, token: string, warnings: string[]): ReportResult => ({
  fileName: file.fileName,
  mime: file.mime,
  bytes: file.bytes.byteLength,
  token,
  warnings,
  previewPages: file.preview?.length ?? 0,
  pages: file.pages ?? 0,
});

export const keptReport = (session: Session, token: string): ReportFile | undefined =>
  session.cache.of(waiting).get(token);

/** A stream that keeps what is written to it. */
const keeper = (): { stream: Writable; bytes: () => Uint8Array } => {
  const pieces: Buffer[] = [];
  const stream = new Writable({
    write(piece: Buffer | string, _encoding, done) {
      pieces.push(Buffer.from(piece));
      done();
    },
  });
  return { stream, bytes: () => Buffer.concat(pieces) };
};

const writePdf = async (
  session: Session,
  wanted: ReportWanted,
  data: CollectionReport,
  { onProgress, signal }: { onProgress: OnProgress; signal: AbortSignal },
): Promise<{ bytes: Uint8Array; pages: number; warnings: string[]; preview: string[] }> => {
  const { workers, reportAssets } = session.options;
  const { pdf, pages, warnings, preview } = await createReportPdf(data, {
    paper: wanted.paper,
    standard: wanted.standard,
    withPhotographs: wanted.withPhotographs,
    preview: wanted.preview,
    ...(workers?.report && { worker: workers.report }),
    ...(reportAssets && { assets: reportAssets }),
    signal,
    onProgress: ({ stage, done, total }) =>
      onProgress(done, total, stage === 'photographs' ? 'Preparing photographs' : 'Setting the pages'),
  });
  return { bytes: pdf, pages, warnings, preview };
};

/** Makes a report whole, in memory. */
export const wholeReport = async (
  session: Session,
  wanted: ReportWanted,
  onProgress: OnProgress,
  signal: AbortSignal,
): Promise<ReportFile & { warnings: string[] }> => {
  const { report: data, said } = await saidReport(session, wanted, onProgress, signal);
  const { format } = wanted;
  const [totals] = totalsOf(data).bases;
  const head = {
    fileName: fileNameOf(wanted.title, data.effectiveOn, format),
    mime: mimes[format],
    said: {
      kind: 'collection',
      name: wanted.title,
      effectiveOn: data.effectiveOn,
      total: wanted.withoutValues ? null : (totals?.asFound ?? null),
      currency: wanted.withoutValues ? null : data.currency,
      cars: totals?.cars ?? null,
      body: said,
    },
  };
  if (format === 'pdf')
    return { ...head, ...(await writePdf(session, wanted, data, { onProgress, signal })) };
  const { stream, bytes } = keeper();
  onProgress(0, 1, 'Writing the rows');
  // Loaded when first asked for: what writes spreadsheets takes memory that most sessions need not give.
  if (format === 'csv')
    await (await import('../../../reports/spreadsheet/csv.ts')).writeCollectionCsv(data, stream, signal);
  else await (await import('../../../reports/spreadsheet/xlsx.ts')).writeCollectionXlsx(data, stream, signal);
  return { ...head, bytes: bytes(), warnings: [] };
};

const make = needsCollection.input(inputs.makeReport).handler(({ context, input, signal }) =>
  streamed<ReportResult>(async (onProgress, stop) => {
    const { warnings, ...file } = await wholeReport(context.session, input, onProgress, stop);
    const token = keepReport(context.session, file);
    return madeReport(file, token, warnings);
  }, signal),
);

/** One page of a finished paper as an SVG picture, counted from 1. */
const page = needsCollection.input(inputs.reportPage).handler(({ context, input }): { svg: string } => {
  const svg = keptReport(context.session, input.token)?.preview?.[input.page - 1];
  if (svg === undefined) throw refused('That page is no longer available. Make the paper again.', 'report');
  return { svg };
});

const file = needsCollection.input(inputs.reportFile).handler(({ context, input }): File => {
  const finished = keptReport(context.session, input.token);
  if (!finished) throw refused('That report is no longer available. Make it again.', 'report');
  return new File([new Uint8Array(finished.bytes)], finished.fileName, { type: finished.mime });
});

export const reports = { make, page, file };
