import { counted } from '../reader.ts';
import {
  type BackupFault,
  type CheckStep,
  canBeRebuilt,
  type Finding,
  type StorageFault,
  type WalFault,
} from './facts.ts';

/** What is wrong with a backup, as the end of a sentence that begins with its name and "is damaged:". */
export const backupFaultText = (fault: BackupFault): string => {
  switch (fault.kind) {
    case 'description-missing':
      return 'its description (manifest.json) is missing, so nobody can say whether its database is as it was made';
    case 'description-unreadable':
      return 'its description (manifest.json) cannot be read, so nobody can say whether its database is as it was made';
    case 'description-altered':
      return 'its description (manifest.json) is not as it was written, so nobody can say whether its database is';
    case 'database-missing':
      return 'its database is missing';
    case 'database-altered':
      return 'its database is not the one that was written';
    case 'tables-differ':
      return `its tables ${fault.tables.join(', ')} are not as they were`;
    case 'structure':
      return fault.detail;
    case 'unreadable':
      return `it could not be read in full (${fault.detail})`;
  }
};

/** Why the last changes may be missing. */
const walFaultText: Record<WalFault, string> = {
  gone: 'its write-ahead file (collection.sqlite-wal) is gone',
  header: 'the beginning of its write-ahead file is damaged',
  frames: 'its write-ahead file is damaged',
  'cut-short': 'its write-ahead file is cut short',
  'shorter-than-index': 'its write-ahead file is cut short',
};

/** What the owner is told where an earlier backup on closing failed. */
export const behindText =
  'The last changes are in no backup yet: the one that is made on closing failed. It is made when the collection is closed; make one now under Backups, and see whether the disk has space.';

/** What the owner is told after a session whose log does not read to its end. */
export const lostChangesText = (
  fault: WalFault,
  last: { label: string; at: string } | undefined,
  aside: string | undefined,
): string =>
  [
    `The last session ended without closing, and the last changes may be missing: ${walFaultText[fault]}.`,
    last
      ? `The last change that is there: “${last.label}”, ${last.at.slice(0, 16).replace('T', ' ')} UTC.`
      : 'No change is there.',
    ...(aside ? [`The files as they were found are saved in backups/${aside}.`] : []),
  ].join(' ');

const databaseText = (fault: StorageFault | null, rebuildable: boolean): string =>
  fault
    ? `The database file is damaged: ${fault.kind === 'structure' ? fault.detail : fault.kind}. ${rebuildable ? 'Rebuild the indexes; if that does not help, restore a backup.' : 'Restore a backup.'}`
    : 'The database file is well formed.';

const photographText = ({ sha256, path, fault }: Finding & { subject: 'photograph' }): string => {
  const named = path ?? sha256.slice(0, 8);
  switch (fault) {
    case 'missing':
      return `The photograph ${sha256.slice(0, 8)} is missing from the photo folder.`;
    case 'altered':
      return `The photograph ${named} is not the one that was added: it was altered or damaged.`;
    case 'unreadable':
      return `The photograph ${named} could not be read in full.`;
  }
};

const backupsText = ({ sound, of, setAside, other }: Finding & { subject: 'backups' }): string =>
  [
    of === 0
      ? 'There is no backup yet. One is made when the collection is closed after a change.'
      : `${sound} of ${counted(of, 'backup is', 'backups are')} just as ${of === 1 ? 'it was' : 'they were'} made.`,
    ...(setAside > 0
      ? [`${counted(setAside, 'damaged state is', 'damaged states are')} beside them, set aside.`]
      : []),
    ...(other > 0
      ? [
          `${counted(other, 'folder', 'folders')} in the backups folder ${other === 1 ? 'is' : 'are'} not Playworn’s and left alone.`,
        ]
      : []),
  ].join(' ');

/** A step of a check as its progress is shown, in lower case. */
export const stepText = (step: CheckStep): string => {
  switch (step.kind) {
    case 'database':
      return 'the database file';
    case 'references':
      return 'references';
    case 'search':
      return 'the search index';
    case 'rows':
      return 'rows';
    case 'photograph':
      return `photograph ${step.number} of ${step.of}`;
    case 'backup':
      return `backup ${step.name}`;
  }
};

/** One finding of a check, as a sentence or two. */
export const findingText = (finding: Finding): string => {
  switch (finding.subject) {
    case 'database':
      return databaseText(finding.fault, canBeRebuilt(finding));
    case 'references':
      return finding.broken === 0
        ? 'Every row points at rows that exist.'
        : `${counted(finding.broken, 'row points', 'rows point')} at rows that do not exist, in ${finding.tables.join(', ')}. Restore a backup.`;
    case 'search':
      return finding.incomplete.length === 0
        ? 'The search index holds every word it should.'
        : `The search index is not as it should be (${finding.incomplete.join(', ')}); searching may miss rows. Rebuild the indexes.`;
    case 'rows':
      return finding.differing.length === 0
        ? 'Every row is just as in the newest backup.'
        : `Rows in ${finding.differing.join(', ')} differ from the newest backup though nothing was done since: they were changed outside Playworn or damaged. Compare with the backup ${finding.backup}.`;
    case 'photograph':
      return photographText(finding);
    case 'photographs':
      return [
        `${finding.intact} of ${counted(finding.of, 'photograph is', 'photographs are')} just as ${finding.of === 1 ? 'it was' : 'they were'} added.`,
        ...(finding.spare > 0
          ? [
              `${counted(finding.spare, 'file', 'files')} in the photo folder belong to nothing now; undo or a backup may need them.`,
            ]
          : []),
      ].join(' ');
    case 'copies':
      return [
        ...(finding.remade > 0
          ? [
              `${counted(finding.remade, 'small copy', 'small copies')} of photographs did not open and were made again.`,
            ]
          : []),
        ...(finding.failed > 0
          ? [
              `${counted(finding.failed, 'small copy', 'small copies')} of photographs do not open and could not be made again.`,
            ]
          : []),
      ].join(' ');
    case 'backup':
      return `The backup ${finding.name} is damaged: ${backupFaultText(finding.fault)}.`;
    case 'backups':
      return backupsText(finding);
    case 'step':
      return `The check of ${stepText(finding.step)} did not finish. ${finding.detail}`;
    case 'limits':
      return 'What a check cannot know: whether what was entered is true, whether a photograph was already damaged when it was added, and whether rows written since the newest backup were altered by another program.';
  }
};
