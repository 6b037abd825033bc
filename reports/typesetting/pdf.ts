import { Worker } from 'node:worker_threads';
import type { PaperDocument } from '../documents/document.ts';
import type { Label } from '../labels/label-model.ts';
import { checkStart, type LabelSheet } from '../labels/label-sheets.ts';
import { checkReport } from '../model/check-report.ts';
import type { CollectionReport, PaperSize, PdfStandard } from '../types.ts';
import { checkoutAssets, type ReportAssets } from './report-assets.ts';
import type { Typeset } from './typeset.ts';
import type { PaperJob, ReportProgress, WorkerMessage } from './worker-messages.ts';

export interface ReportPdfOptions {
  paper?: PaperSize;
  withPhotographs?: boolean;
  /**
   * How much room a car has: three to a page, or five to eight. Default: full up to a thousand
   * cars, compact beyond.
   */
  density?: 'full' | 'compact';
  /** Default `a-2a`, archival and tagged. The result names the standard that was met. */
  standard?: PdfStandard;
  /**
   * The worker's file where it does not lie beside this one. A bundled host builds
   * `reports/typesetting/worker.ts` as an ES module of its own, keeps `sharp` and the Typst compiler outside
   * the bundle, and places the worker, the templates folder and the font files where Node can read them
   * (unpacked beside the archive, since a worker starts from a real file).
   */
  worker?: URL;
  /** Templates and fonts where they do not lie as in a checkout. */
  assets?: ReportAssets;
  /** Gives each page as a picture besides. */
  preview?: boolean;
  /** Cancels: the promise rejects at once with the signal's reason, and the worker ends at its next step. */
  signal?: AbortSignal;
  onProgress?: (progress: ReportProgress) => void;
}

const mostFullEntries = 1000;

const setInWorker = (
  job: PaperJob,
  { worker: file, signal, onProgress }: Pick<ReportPdfOptions, 'worker' | 'signal' | 'onProgress'>,
): Promise<Typeset> => {
  const worker = new Worker(file ?? new URL('./worker.ts', import.meta.url), { workerData: job });
  return new Promise<Typeset>((resolve, reject) => {
    const settle = (finish: () => void): void => {
      signal?.removeEventListener('abort', cancel);
      void worker.terminate();
      finish();
    };
    const cancel = (): void => settle(() => reject(signal?.reason));
    signal?.addEventListener('abort', cancel, { once: true });
    worker.on('message', (message: WorkerMessage) => {
      if (message.kind === 'progress') onProgress?.(message.progress);
      else if (message.kind === 'done') settle(() => resolve(message.result));
      else settle(() => reject(new Error(message.message)));
    });
    worker.on('error', error => settle(() => reject(error)));
    worker.on('exit', code =>
      settle(() => reject(new Error(`The report's worker ended early (exit code ${code})`))),
    );
  });
};

/**
 * The collection report as a PDF, made in a worker thread: the caller's thread only waits. The file is
 * tagged, carries title, owner, language and the instant `stampedAt`, and the same report with the same
 * photographs gives the same bytes. Missing or damaged photographs become placeholders and warnings. Rejects
 * with RangeError where `checkReport` does, with the signal's reason when cancelled, and with Error where
 * setting fails or the worker dies.
 */
export const createReportPdf = async (
  report: CollectionReport,
  options: ReportPdfOptions = {},
): Promise<Typeset> => {
  checkReport(report);
  options.signal?.throwIfAborted();
  const job: PaperJob = {
    kind: 'report',
    report,
    layout: {
      paper: options.paper ?? 'a4',
      withPhotographs: options.withPhotographs ?? true,
      compact:
        (options.density ?? (report.entries.length > mostFullEntries ? 'compact' : 'full')) === 'compact',
    },
    standard: options.standard ?? 'a-2a',
    assets: options.assets ?? checkoutAssets(),
    preview: options.preview ?? false,
  };
  return setInWorker(job, options);
};

/** What sets any paper but the collection report. */
export type PaperOptions = Pick<
  ReportPdfOptions,
  'standard' | 'worker' | 'assets' | 'signal' | 'onProgress' | 'preview'
> & {
  /** ISO instant that the file's own dates name. */
  stampedAt: string;
};

/**
 * A document of blocks as a PDF, made in a worker thread; the same document with the same photographs
 * gives the same bytes.
 */
export const createDocumentPdf = async (document: PaperDocument, options: PaperOptions): Promise<Typeset> => {
  options.signal?.throwIfAborted();
  return setInWorker(
    {
      kind: 'document',
      document,
      stampedAt: options.stampedAt,
      standard: options.standard ?? 'a-2a',
      assets: options.assets ?? checkoutAssets(),
      preview: options.preview ?? false,
    },
    options,
  );
};

/**
 * Labels as a PDF whose pages are the sheet's own size: print it at 100 %. Rejects with RangeError for a
 * place that the sheet lacks.
 */
export const createLabelsPdf = async (
  labels: Label[],
  { sheet, start }: { sheet: LabelSheet; start: number },
  options: PaperOptions,
): Promise<Typeset> => {
  options.signal?.throwIfAborted();
  checkStart(sheet, start);
  return setInWorker(
    {
      kind: 'labels',
      labels,
      sheet,
      start,
      stampedAt: options.stampedAt,
      assets: options.assets ?? checkoutAssets(),
      preview: options.preview ?? false,
    },
    options,
  );
};
