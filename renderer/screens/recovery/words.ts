import type { CollectionState, FolderSurveyView } from '../../../electron/api/views.ts';

export type Problem = Omit<NonNullable<CollectionState['problem']>, 'dir'>;

const damageText = ({ fault, sentence }: Problem): string => {
  switch (fault?.kind) {
    case 'gone':
      return 'The file that holds the collection, collection.sqlite, is gone. Its backups are still there.';
    case 'empty':
      return 'The file that holds the collection, collection.sqlite, is empty: it has no bytes.';
    case 'overwritten':
      return 'The file collection.sqlite no longer begins as a database does: something has written over it.';
    case 'cut-short':
      return `The file collection.sqlite is cut short: it has ${fault.bytes.toLocaleString()} bytes and should have ${fault.expectedBytes.toLocaleString()}.`;
    case 'structure':
      return `The file collection.sqlite is damaged inside: ${fault.detail}.`;
    case 'foreign-wal':
      return 'The file of last changes beside collection.sqlite belongs to another collection, so the two cannot be read together.';
    default:
      return sentence;
  }
};

/** What is wrong with a collection that cannot be opened, as its owner would want to be told. */
export const problemText = (problem: Problem): string =>
  problem.code === 'damaged' || problem.code === 'needs-restoring' ? damageText(problem) : problem.sentence;

/**
 * True where putting a backup in its place is a way out; a lock or a write protection is to
 * be lifted instead.
 */
export const restoringHelps = ({ code }: Problem): boolean =>
  /^(damaged|needs-restoring|newer|foreign|missing)$/.test(code);

/** What to do next, in a sentence. */
export const adviceText = (problem: Problem, { backups, nearest }: FolderSurveyView): string => {
  if (problem.code === 'newer')
    return 'A newer Playworn has written it: use that one, and nothing needs to be given up. A backup from before the update can be restored too; what was entered since would not be in it.';
  if (!restoringHelps(problem))
    return 'Once that is fixed, try again. Nothing in the folder has been changed.';
  if (nearest !== null)
    return 'Nothing has been changed. Restore the backup that is offered first, or choose another.';
  if (backups.some(backup => backup.restorable === 'unverified'))
    return 'Nothing has been changed. No backup is completely sound, but you can try one where only the description is damaged.';
  return 'Nothing has been changed. No backup here can be restored.';
};
