import type { PaperOptions } from '../../../reports/typesetting/pdf.ts';
import type { IsoDate } from '../../../valuation/types.ts';
import type { OnProgress } from '../session/progress.ts';
import type { Session } from '../session/session.ts';

/** How a host sets a paper of a day: its worker and files, and the day as the file's own date. */
export const paperOptions = (
  session: Session,
  on: IsoDate,
  onProgress: OnProgress,
  signal: AbortSignal,
): PaperOptions => {
  const { workers, reportAssets, stampedAt } = session.options;
  return {
    stampedAt: stampedAt ?? `${on}T00:00:00Z`,
    ...(workers?.report && { worker: workers.report }),
    ...(reportAssets && { assets: reportAssets }),
    signal,
    onProgress: ({ stage, done, total }) =>
      onProgress(done, total, stage === 'photographs' ? 'Preparing photographs' : 'Setting the pages'),
  };
};
