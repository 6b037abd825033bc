import { listBackups } from '../../../db/backup/list.ts';
import {
  collectionCounts,
  readReportingCurrency,
  readSetting,
} from '../../../db/records/collection/settings.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { CollectionSummary } from '../views.ts';
import { backupView } from './backups.ts';

const lastBackupOf = async (dir: string) => {
  const newest = (await listBackups(dir)).find(backup => backup.kind === 'backup' && !backup.fault);
  return newest ? backupView(newest) : null;
};

/** What the collection is and how much is in it. */
export const summaryOf = async (session: Session): Promise<CollectionSummary> => {
  const {
    read: { db },
    dir,
  } = openOf(session);
  return {
    dir,
    name: (await readSetting(db, 'name')) ?? '',
    owner: (await readSetting(db, 'owner')) ?? '',
    isDemo: (await readSetting(db, 'demo')) === 'yes',
    reportingCurrency: await readReportingCurrency(db),
    today: await session.today(),
    counts: await collectionCounts(db),
    lastBackup: await lastBackupOf(dir),
  };
};
