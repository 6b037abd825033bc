import type { Kysely, Transaction } from 'kysely';
import type { PlanWishes } from '../../../valuation/types.ts';
import type { WorkKind } from '../../../valuation/words.ts';
import { readJson } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/** What an owner wants of plans of a kind, under a name, to be used for other cars. */
export interface PlanTemplate {
  id: number;
  name: string;
  kind: WorkKind;
  wishes: PlanWishes;
}

/** All templates, by name. */
export const listTemplates = async (db: Kysely<Schema>): Promise<PlanTemplate[]> => {
  const rows = await db.selectFrom('plan_template').selectAll().orderBy('name').execute();
  return rows.map(row => ({
    id: row.id,
    name: row.name,
    kind: row.kind,
    wishes: (readJson(row.body) ?? {}) as PlanWishes,
  }));
};

/** Adds a template, or takes the place of the one of its name. */
export const saveTemplate = async (
  trx: Transaction<Schema>,
  { name, kind, wishes, fromCarId }: Omit<PlanTemplate, 'id'> & { fromCarId: number | null },
  at: string,
): Promise<void> => {
  const values = { kind, body: JSON.stringify(wishes), from_car_id: fromCarId, made_at: at };
  await trx
    .insertInto('plan_template')
    .values({ name, ...values })
    .onConflict(conflict => conflict.column('name').doUpdateSet(values))
    .execute();
};

export const removeTemplate = async (trx: Transaction<Schema>, id: number): Promise<void> => {
  await trx.deleteFrom('plan_template').where('id', '=', id).execute();
};
