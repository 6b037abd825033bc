import { backUp as makeBackup } from '../../../db/backup/backup.ts';
import { holdWhileLookedAt } from '../../../db/backup/keep.ts';
import { type BackupInfo as ListedBackup, listBackups, nearestBackup } from '../../../db/backup/list.ts';
import { rebuildIndexes } from '../../../db/backup/repair.ts';
import { isOfDescription } from '../../../db/backup/restore.ts';
import { setAside as setDatabaseAside } from '../../../db/backup/set-aside.ts';
import { surveyFolder } from '../../../db/backup/survey.ts';
import { checkCollection } from '../../../db/backup/verify.ts';
import { counted } from '../../../valuation/wording/reader.ts';
import { canBeRebuilt } from '../../../valuation/wording/storage/facts.ts';
import { backupFaultText, findingText, stepText } from '../../../valuation/wording/storage/finding-text.ts';
import * as inputs from '../inputs.ts';
import { base, needsCollection } from '../session/context.ts';
import { refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import { streamed } from '../session/progress.ts';
import type { Session } from '../session/session.ts';
import type { BackupInfo, CheckFinding, CollectionState, FolderSurveyView } from '../views.ts';

/** The folder named, else that of the open collection. */
const folderOf = (session: Session, named: string | undefined): string => named ?? openOf(session).dir;

/** A backup as lists show it, its fault in words too. */
export const backupView = (backup: ListedBackup): BackupInfo => ({
  ...backup,
  wrong: backup.fault && `It is damaged: ${backupFaultText(backup.fault)}.`,
  restorable:
    backup.kind !== 'backup'
      ? 'no'
      : !backup.fault
        ? 'verified'
        : isOfDescription(backup.fault) && backup.bytes !== null
          ? 'unverified'
          : 'no',
});

/** Whatever is listed may be chosen from the list, so it stays there for a while. */
const shownTo = (session: Session, dir: string, listed: ListedBackup[]): BackupInfo[] => {
  holdWhileLookedAt(
    dir,
    listed.map(backup => backup.name),
    session.at(),
  );
  return listed.map(backupView);
};

const backups = base
  .input(inputs.listBackups)
  .handler(async ({ context: { session }, input }): Promise<BackupInfo[]> => {
    const dir = folderOf(session, input?.dir);
    return shownTo(session, dir, await listBackups(dir));
  });

const backUp = needsCollection.handler(
  async ({ context }): Promise<BackupInfo> =>
    backupView(await makeBackup(context.collection, { at: context.session.at(), reason: 'asked for' })),
);

/**
 * Puts the backup in the place of the collection and opens it; an open collection stays open until all is
 * ready, and as it was where the restore is refused. Works on a folder whose collection cannot be opened,
 * too: that is when it is needed most.
 */
const restore = base
  .input(inputs.restoreBackup)
  .handler(async ({ context, input }): Promise<CollectionState> => {
    const { session } = context;
    const dir = folderOf(session, input.dir);
    const { presentState, missingPhotos } = await session.restore(dir, input.name, input.unverified);
    session.tell(presentState ? `Restored. The state from before is saved: ${presentState}.` : 'Restored.');
    if (missingPhotos.length > 0)
      session.tell(
        `${counted(missingPhotos.length, 'photograph that this backup shows is', 'photographs that this backup shows are')} no longer in the photo folder.`,
      );
    return session.state();
  });

const check = needsCollection.handler(({ context, signal }) =>
  streamed<CheckFinding[]>(async (report, stop) => {
    const findings = await checkCollection(context.collection, {
      onProgress: (done, total, step) => report(done, total, step ? stepText(step) : 'done'),
      signal: stop,
      heicWorker: context.session.options.workers?.heic,
    });
    return findings.map(finding => ({
      level: finding.level,
      finding,
      sentence: findingText(finding),
      canBeRebuilt: canBeRebuilt(finding),
    }));
  }, signal),
);

/** Writes all indexes and the search index again from the rows. */
const rebuild = needsCollection.handler(async ({ context }): Promise<void> => {
  await rebuildIndexes(context.collection);
});

/** The folder named, else the one that is open, could not be opened, or would be. */
const folderToSurvey = (session: Session, named: string | undefined): string => {
  const { dir, problem, defaultDir } = session.state();
  return named ?? dir ?? problem?.dir ?? defaultDir;
};

const surveyView = async (session: Session, dir: string): Promise<FolderSurveyView> => {
  if (session.collection?.dir === dir)
    throw refused('This collection is open: there is nothing to be rescued. Check it in Settings.', 'open');
  const survey = await surveyFolder(dir);
  return {
    ...survey,
    backups: shownTo(session, dir, survey.backups),
    nearest: nearestBackup(survey.backups)?.name ?? null,
  };
};

/** What is wrong with a folder's collection, and what each of its backups holds. Changes nothing. */
const survey = base
  .input(inputs.surveyFolder)
  .handler(({ context: { session }, input }) => surveyView(session, folderToSurvey(session, input?.dir)));

/** Moves a database that cannot be opened out of the way, into `backups/`; nothing is removed. */
const setAside = base
  .input(inputs.setAside)
  .handler(async ({ context: { session }, input }): Promise<FolderSurveyView> => {
    await setDatabaseAside(input.dir, session.at());
    return surveyView(session, input.dir);
  });

export const backupProcedures = { backups, backUp, restore, check, rebuild, survey, setAside };
