import { type Kysely, sql, type Transaction } from 'kysely';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import type { Schema } from '../../schema.ts';

/** How a report is to be made, under a name; `body` is what was chosen, as JSON. */
export interface ReportDefinition {
  id: number;
  name: string;
  /** `collection`, or the kind of paper. */
  kind: string;
  body: string;
}

/** A report that was saved: what it said in all, and the fingerprint by which its file is known again. */
export interface KeptReport {
  id: number;
  name: string;
  kind: string;
  definitionId: number | null;
  effectiveOn: IsoDate;
  madeAt: string;
  total: Minor | null;
  currency: Currency | null;
  cars: number | null;
  bytes: number;
  sha256: string;
}

/** The definitions of all papers, by name. */
export const listReportDefinitions = (db: Kysely<Schema>): Promise<ReportDefinition[]> =>
  db.selectFrom('report_definition').select(['id', 'name', 'kind', 'body']).orderBy('name').execute();

/** Saves a definition; one of the same name gives way. Returns its id. */
export const saveReportDefinition = async (
  trx: Transaction<Schema>,
  { name, kind, body, at }: Omit<ReportDefinition, 'id'> & { at: string },
): Promise<number> => {
  const same = await trx
    .selectFrom('report_definition')
    .select('id')
    .where('name', '=', name)
    .executeTakeFirst();
  if (same) {
    await trx.updateTable('report_definition').set({ name, kind, body }).where('id', '=', same.id).execute();
    return same.id;
  }
  const row = await trx
    .insertInto('report_definition')
    .values({ name, kind, body, made_at: at })
    .returning('id')
    .executeTakeFirstOrThrow();
  return row.id;
};

/** Removes a definition; the reports made from it stay listed. */
export const removeReportDefinition = async (trx: Transaction<Schema>, id: number): Promise<void> => {
  await trx.deleteFrom('report_definition').where('id', '=', id).execute();
};

/** The reports that were saved, the newest first. */
export const listKeptReports = async (db: Kysely<Schema>, most: number): Promise<KeptReport[]> => {
  const rows = await db
    .selectFrom('report_kept')
    .select([
      'id',
      'name',
      'kind',
      'definition_id',
      'effective_on',
      'made_at',
      'total_minor',
      'currency',
      'cars',
      'bytes',
      'sha256',
    ])
    .orderBy('made_at', 'desc')
    .orderBy('id', 'desc')
    .limit(most)
    .execute();
  return rows.map(row => ({
    id: row.id,
    name: row.name,
    kind: row.kind,
    definitionId: row.definition_id,
    effectiveOn: row.effective_on,
    madeAt: row.made_at,
    total: row.total_minor,
    currency: row.currency,
    cars: row.cars,
    bytes: row.bytes,
    sha256: row.sha256,
  }));
};

/** True where the very file is listed already. */
export const isReportKept = async (db: Kysely<Schema>, sha256: string): Promise<boolean> =>
  (await db.selectFrom('report_kept').select('id').where('sha256', '=', sha256).executeTakeFirst()) !==
  undefined;

/**
 * The newest collection report of a scope that was saved for a day before `on`, with what it said (`body`);
 * undefined where there is none.
 */
export const keptBefore = async (
  db: Kysely<Schema>,
  { scope, on }: { scope: string; on: IsoDate },
): Promise<
  (Pick<KeptReport, 'name' | 'effectiveOn' | 'total' | 'currency'> & { body: string }) | undefined
> => {
  const row = await db
    .selectFrom('report_kept')
    .select(['name', 'effective_on', 'total_minor', 'currency', 'body'])
    .where('kind', '=', 'collection')
    .where('effective_on', '<', on)
    .where(sql<string>`json_extract(body, '$.scope')`, '=', scope)
    .orderBy('effective_on', 'desc')
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst();
  return (
    row && {
      name: row.name,
      effectiveOn: row.effective_on,
      total: row.total_minor,
      currency: row.currency,
      body: row.body,
    }
  );
};

/** Notes a report that was saved. */
export const keepReportRow = async (
  trx: Transaction<Schema>,
  report: Omit<KeptReport, 'id'> & { body: string },
): Promise<void> => {
  await trx
    .insertInto('report_kept')
    .values({
      name: report.name,
      kind: report.kind,
      definition_id: report.definitionId,
      effective_on: report.effectiveOn,
      made_at: report.madeAt,
      total_minor: report.total,
      currency: report.currency,
      cars: report.cars,
      bytes: report.bytes,
      sha256: report.sha256,
      body: report.body,
    })
    .execute();
};
