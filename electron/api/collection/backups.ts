import { listBackups, backUp as makeBackup } from '../../../db/backup/backup.ts';
import { restore as restoreBackup } from '../../../db/backup/restore.ts';
import { checkCollection } from '../../../db/backup/verify.ts';
import * as inputs from '../inputs.ts';
import { base, needsCollection } from '../session/context.ts';
import { refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import { streamed } from '../session/progress.ts';
import type { Session } from '../session/session.ts';
import type { BackupInfo, CheckFinding, CollectionState } from '../views.ts';

/** The folder named, else that of the open collection. */
const folderOf = (session: Session, named: string | undefined): string => named ?? openOf(session).dir;

const backups = base
  .input(inputs.listBackups)
  .handler(({ context, input }): Promise<BackupInfo[]> => listBackups(folderOf(context.session, input?.dir)));

const backUp = needsCollection.handler(
  ({ context }): Promise<BackupInfo> =>
    makeBackup(context.collection, { at: context.session.at(), reason: 'asked for' }),
);

/**
 * Closes the collection, puts the backup in its place, and opens it again, whether or not that succeeded. Works on a
 * folder whose collection cannot be opened, too: that is when it is needed most.
 */
const restore = base
  .input(inputs.restoreBackup)
  .handler(async ({ context, input }): Promise<CollectionState> => {
    const { session } = context;
    const before = session.collection?.dir;
    const dir = folderOf(session, input.dir);
    if (!(await listBackups(dir)).some(backup => backup.name === input.name))
      throw refused('There is no such backup any more. Choose another.', 'missing');
    await session.close();
    try {
      const { presentState, missingPhotos } = await restoreBackup(dir, input.name, {
        at: session.at(),
        host: session.options.host,
      });
      await session.open(dir);
      if (presentState) session.tell(`The state from before is kept: ${presentState}.`);
      if (missingPhotos.length > 0)
        session.tell(
          `${missingPhotos.length} photographs that this backup shows are no longer in the photo folder.`,
        );
    } catch (error) {
      if (before !== undefined && !session.collection) await session.open(before);
      throw error;
    }
    return session.state();
  });

const check = needsCollection.handler(({ context, signal }) =>
  streamed<CheckFinding[]>(
    (report, stop) =>
      checkCollection(context.collection, {
        onProgress: (done, total, what) => report(done, total, what),
        signal: stop,
      }),
    signal,
  ),
);

export const backupProcedures = { backups, backUp, restore, check };
