import { Worker } from 'node:worker_threads';
import { checkReport } from './check-report.ts';
import { checkoutAssets, type ReportAssets } from './report-assets.ts';
import type { CollectionReport, PaperSize } from './types.ts';
import type { PdfStandard, Typeset } from './typeset.ts';
import type { ReportJob, ReportProgress, WorkerMessage } from './worker-messages.ts';

export interface ReportPdfOptions {
  paper?: PaperSize;
  withPhotographs?: boolean;
  /** How much room a car has: three to a page, or five to eight. Default: full up to a thousand cars, compact beyond. */
  density?: 'full' | 'compact';
  /** Default `a-2a`, archival and tagged. The result names the standard that was met. */
  standard?: PdfStandard;
  /**
   * The worker's file where it does not lie beside this one. A bundled host builds `reports/worker.ts` as an ES module of
   * its own, keeps `sharp` and the Typst compiler outside the bundle, and places the worker, the templates folder and
   * the font files where Node can read them (unpacked beside the archive, since a worker starts from a real file).
   */
  worker?: URL;
  /** Templates and fonts where they do not lie as in a checkout. */
  assets?: ReportAssets;
  /** Cancels: the promise rejects at once with the signal's reason, and the worker ends at its next step. */
  signal?: AbortSignal;
  onProgress?: (progress: ReportProgress) => void;
}

const mostFullEntries = 1000;

/**
 * The collection report as a PDF, made in a worker thread: the caller's thread only waits. The file is tagged, carries
 * title, owner, language and the instant `stampedAt`, and the same report with the same photographs gives the same bytes.
 * Missing or damaged photographs become placeholders and warnings. Rejects with RangeError where `checkReport` does, with
 * the signal's reason when cancelled, and with Error where setting fails or the worker dies.
 */
export const createReportPdf = async (
  report: CollectionReport,
  options: ReportPdfOptions = {},
): Promise<Typeset> => {
  const { signal, onProgress } = options;
  checkReport(report);
  signal?.throwIfAborted();
  const job: ReportJob = {
    report,
    layout: {
      paper: options.paper ?? 'a4',
      withPhotographs: options.withPhotographs ?? true,
      compact:
        (options.density ?? (report.entries.length > mostFullEntries ? 'compact' : 'full')) === 'compact',
    },
    standard: options.standard ?? 'a-2a',
    assets: options.assets ?? checkoutAssets(),
  };
  const worker = new Worker(options.worker ?? new URL('./worker.ts', import.meta.url), { workerData: job });
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
