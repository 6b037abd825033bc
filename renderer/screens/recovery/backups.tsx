import { Button } from '@mantine/core';
import type { BackupInfo, FolderSurveyView } from '../../../electron/api/views.ts';
import { BackupTable } from '../../components/backups/backup-table.tsx';
import { aboutText, holdsText, madeText } from '../../components/backups/texts.ts';
import { Section } from '../../components/layout/section.tsx';
import classes from './recovery.module.css';

const Nearest = ({ backup, onRestore }: { backup: BackupInfo; onRestore: () => void }) => (
  <div className={classes.nearest}>
    <div>
      <h3>The nearest to what you last had: {madeText(backup)}</h3>
      <p>
        {holdsText(backup)}. Read in full and sound. Made because: {aboutText(backup)}.
      </p>
    </div>
    <Button variant="filled" onClick={onRestore}>
      Restore this one …
    </Button>
  </div>
);

const WhatIsLeft = () => (
  <>
    <p>There is no backup in this folder that can be restored. What is left to do:</p>
    <ul className={classes.left}>
      <li>
        Look for a copy of the whole folder: on another disk, on another computer, among the system’s own
        backups or earlier versions of files. Put it in a folder of its own and open that.
      </li>
      <li>
        Leave this folder as it is, or copy it, for somebody who can repair a SQLite database. The photographs
        in its folder “photos” open without Playworn.
      </li>
      <li>Start a new collection in another folder, and bring your spreadsheet into it.</li>
    </ul>
  </>
);

/** Which backups there are, the nearest sound one offered first; without one, what is left to do. */
export const RecoveryBackups = ({
  survey: { backups, nearest },
  onRestore,
}: {
  survey: FolderSurveyView;
  /** Left out where the present state is not one that a restore would mend. */
  onRestore?: ((backup: BackupInfo) => void) | undefined;
}) => {
  const first = onRestore && backups.find(({ name }) => name === nearest);
  const hopeless = backups.every(({ restorable }) => restorable === 'no');
  return (
    <Section title="Its backups" aside={backups.length > 0 ? `${backups.length} in its folder` : undefined}>
      {first && onRestore ? <Nearest backup={first} onRestore={() => onRestore(first)} /> : null}
      {hopeless ? <WhatIsLeft /> : null}
      {backups.length > 0 ? <BackupTable backups={backups} sound="Sound" onRestore={onRestore} /> : null}
    </Section>
  );
};
