import type { PaperDocument } from '../documents/document.ts';
import type { Label } from '../labels/label-model.ts';
import type { LabelSheet } from '../labels/label-sheets.ts';
import type { ReportLayout } from '../model/report-model.ts';
import type { CollectionReport, PdfStandard } from '../types.ts';
import type { ReportAssets } from './report-assets.ts';
import type { Typeset } from './typeset.ts';

/** A collection report. */
export interface ReportJob {
  kind: 'report';
  report: CollectionReport;
  layout: ReportLayout;
  standard: PdfStandard;
  assets: ReportAssets;
  preview: boolean;
}

/** A document of blocks. */
export interface DocumentJob {
  kind: 'document';
  document: PaperDocument;
  stampedAt: string;
  standard: PdfStandard;
  assets: ReportAssets;
  preview: boolean;
}

/** A sheet of labels. */
export interface LabelJob {
  kind: 'labels';
  labels: Label[];
  sheet: LabelSheet;
  start: number;
  stampedAt: string;
  assets: ReportAssets;
  preview: boolean;
}

/** What the worker is started with. */
export type PaperJob = ReportJob | DocumentJob | LabelJob;

/**
 * How far a report is: photographs are counted; typesetting is one step, or counts the cars of a long
 * report.
 */
export interface ReportProgress {
  stage: 'photographs' | 'typesetting';
  done: number;
  total: number;
}

/** What the worker says back. */
export type WorkerMessage =
  | { kind: 'progress'; progress: ReportProgress }
  | { kind: 'done'; result: Typeset }
  | { kind: 'failed'; message: string };
