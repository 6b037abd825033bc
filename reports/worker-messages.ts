import type { ReportAssets } from './report-assets.ts';
import type { ReportLayout } from './report-model.ts';
import type { CollectionReport } from './types.ts';
import type { PdfStandard, Typeset } from './typeset.ts';

/** What the worker is started with. */
export interface ReportJob {
  report: CollectionReport;
  layout: ReportLayout;
  standard: PdfStandard;
  assets: ReportAssets;
}

/** How far a report is: photographs are counted, typesetting is one step. */
export type ReportProgress =
  | { stage: 'photographs'; done: number; total: number }
  | { stage: 'typesetting'; done: 0; total: 1 };

/** What the worker says back. */
export type WorkerMessage =
  | { kind: 'progress'; progress: ReportProgress }
  | { kind: 'done'; result: Typeset }
  | { kind: 'failed'; message: string };
