import { createReportPdf } from '../../reports/pdf.ts';
import { needsCollection } from './context.ts';
import { refused } from './errors.ts';
import * as inputs from './inputs.ts';
import { type Report, streamed } from './progress.ts';
import { type ReportWanted, reportData } from './report-data.ts';
import { keepReport, keptReport, type ReportFile } from './report-files.ts';
import type { Session } from './session.ts';
import type { ReportResult } from './views.ts';

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

const write = async (
  session: Session,
  wanted: ReportWanted,
  report: Report,
  signal: AbortSignal,
): Promise<ReportFile & { warnings: string[] }> => {
  const data = await reportData(session, wanted, report, signal);
  const fileName = fileNameOf(wanted.title, data.effectiveOn, wanted.format);
  const { pdf, warnings } = await createReportPdf(data, {
    paper: wanted.paper,
    withPhotographs: wanted.withPhotographs,
    ...(session.options.workers?.report && { worker: session.options.workers.report }),
    ...(session.options.reportAssets && { assets: session.options.reportAssets }),
    signal,
    onProgress: progress =>
      report(
        progress.done,
        progress.total,
        progress.stage === 'photographs' ? 'Preparing photographs' : 'Setting the pages',
      ),
  });
  return { fileName, mime: 'application/pdf', bytes: pdf, warnings };
};

const make = needsCollection.input(inputs.makeReport).handler(({ context, input, signal }) =>
  streamed<ReportResult>(async (report, stop) => {
    const { warnings, ...file } = await write(context.session, input, report, stop);
    const token = keepReport(context.session, file);
    return { fileName: file.fileName, mime: file.mime, bytes: file.bytes.byteLength, token, warnings };
  }, signal),
);

const file = needsCollection.input(inputs.reportFile).handler(({ context, input }): File => {
  const kept = keptReport(context.session, input.token);
  if (!kept) throw refused('That report is no longer kept. Make it again.', 'report');
  return new File([new Uint8Array(kept.bytes)], kept.fileName, { type: kept.mime });
});

export const reports = { make, file };
