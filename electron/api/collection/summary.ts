import { listBackups } from '../../../db/backup/list.ts';
import { readReportingCurrency, readSetting } from '../../../db/records/settings.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { CollectionSummary } from '../views.ts';
import { backupView } from './backups.ts';

const tables = {
  cars: 'car',
  lots: 'lot',
  castings: 'casting',
  variations: 'variation',
  saleRecords: 'sale_record',
  photographs: 'photo',
} as const;

const lastBackupOf = async (dir: string) => {
  const newest = (await listBackups(dir)).find(backup => backup.kind === 'backup' && !backup.fault);
  return newest ? backupView(newest) : null;
};

/** What the collection is and how much is in it. */
export const summaryOf = async (session: Session): Promise<CollectionSummary> => {
  const { db, dir } = openOf(session);
  const count = async (table: (typeof tables)[keyof typeof tables]) =>
    (
      await db
        .selectFrom(table)
        .select(eb => eb.fn.countAll<number>().as('number'))
        .executeTakeFirstOrThrow()
    ).number;
  const counts = { cars: 0, lots: 0, castings: 0, variations: 0, saleRecords: 0, photographs: 0 };
  for (const [name, table] of Object.entries(tables) as [keyof typeof tables, (typeof tables)['cars']][])
    counts[name] = await count(table);
  return {
    dir,
    name: (await readSetting(db, 'name')) ?? '',
    owner: (await readSetting(db, 'owner')) ?? '',
    isDemo: (await readSetting(db, 'demo')) === 'yes',
    reportingCurrency: await readReportingCurrency(db),
    today: await session.today(),
    counts,
    lastBackup: await lastBackupOf(dir),
  };
};
