import { createHash } from 'node:crypto';
import { z } from 'zod';
import {
  isReportKept,
  type KeptReport,
  keepReportRow,
  listKeptReports,
  listReportDefinitions,
  removeReportDefinition,
  saveReportDefinition,
} from '../../../db/records/collection/report-definitions.ts';
import { line } from '../fields.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import type { PaperRequest, ReportRequest } from '../views.ts';
import { keptReport } from './reports.ts';

/** How a report is to be made, under a name. Its effective date is the day on which it is made. */
export interface ReportDefinitionView {
  id: number;
  name: string;
  wanted: DefinedReport | DefinedPaper;
}
export type DefinedReport = Omit<ReportRequest, 'on' | 'preview'>;
/** Of a ledger without its days: it is made for the year of the day. */
export type DefinedPaper = Omit<PaperRequest, 'from' | 'to' | 'preview'>;

/** What of a request a definition holds. */
const body = z.union([
  inputs.makePaper.omit({ from: true, to: true, preview: true }),
  inputs.makeReport.omit({ on: true, preview: true }),
]);

const definitions = needsCollection.handler(
  async ({ context: { db } }): Promise<ReportDefinitionView[]> =>
    (await listReportDefinitions(db)).flatMap(({ id, name, body: written }) => {
      // One that a newer version has written is left where it is.
      const read = body.safeParse(JSON.parse(written));
      return read.success ? [{ id, name, wanted: read.data }] : [];
    }),
);

const saveDefinition = needsCollection
  .input(z.object({ name: line.min(1), wanted: body }))
  .handler(({ context: { session }, input }) => {
    const name = input.name.trim();
    if (name === '') throw refused('Give the report a name.');
    return session.act(`Saved how the report “${name}” is made`, async trx => ({
      id: await saveReportDefinition(trx, {
        name,
        kind: 'kind' in input.wanted ? input.wanted.kind : 'collection',
        body: JSON.stringify(input.wanted),
        at: session.at(),
      }),
    }));
  });

const removeDefinition = needsCollection
  .input(inputs.byId)
  .handler(async ({ context: { session, db }, input }) => {
    const known = (await listReportDefinitions(db)).find(({ id }) => id === input.id);
    if (!known) throw notFound('report', input.id);
    await session.act(`Removed the report “${known.name}”`, trx => removeReportDefinition(trx, input.id));
  });

const mostKept = 20;

/** The reports that were saved last. */
const kept = needsCollection.handler(
  ({ context: { db } }): Promise<KeptReport[]> => listKeptReports(db, mostKept),
);

/**
 * Notes a finished report as saved, with its total and the SHA-256 of its file; the same file is noted once.
 */
const keep = needsCollection
  .input(inputs.reportFile.extend({ definition: line.optional() }))
  .handler(async ({ context: { session, db }, input }): Promise<{ sha256: string }> => {
    const file = keptReport(session, input.token);
    if (!file) throw refused('That report is no longer available. Make it again.', 'report');
    const sha256 = createHash('sha256').update(file.bytes).digest('hex');
    const { said } = file;
    if (!said || (await isReportKept(db, sha256))) return { sha256 };
    const definition = (await listReportDefinitions(db)).find(({ name }) => name === input.definition);
    const { body: saidOfCars = '{}', ...noted } = said;
    await session.act(`Noted that “${file.fileName}” was saved`, trx =>
      keepReportRow(trx, {
        ...noted,
        body: saidOfCars,
        name: definition?.name ?? said.name,
        definitionId: definition?.id ?? null,
        madeAt: session.at(),
        bytes: file.bytes.byteLength,
        sha256,
      }),
    );
    return { sha256 };
  });

export const reportDefinitions = { definitions, saveDefinition, removeDefinition, kept, keep };
