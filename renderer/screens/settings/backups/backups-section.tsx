import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { BackupInfo } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { Section } from '../../../components/layout/section.tsx';
import { showNotice } from '../../../components/notices/undo-notice.tsx';
import classes from '../settings.module.css';
import { CheckCollection } from './check-collection.tsx';
import { RestoreDialog } from './restore-dialog.tsx';
import { momentText, sizeText } from './texts.ts';

const madeText = ({ at, name }: BackupInfo): string => (at === null ? name : momentText(at));

const kindText: Record<BackupInfo['kind'], string> = {
  backup: '',
  'set aside': 'A damaged state, set aside',
  other: 'Not a Playworn backup',
};

const BackupTable = ({
  backups,
  onRestore,
}: {
  backups: BackupInfo[];
  onRestore: (b: BackupInfo) => void;
}) => (
  <div className={classes.tall}>
    <table className={classes.table}>
      <thead>
        <tr>
          <th scope="col">Made</th>
          <th scope="col">Because</th>
          <th scope="col" className="amount">
            Size
          </th>
          <th scope="col">
            <span className={classes.heard}>Restore</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {backups.map(backup => (
          <tr key={backup.name}>
            <th scope="row">{madeText(backup)}</th>
            <td className="soft">{backup.wrong ?? backup.reason ?? kindText[backup.kind]}</td>
            <td className="amount">{backup.bytes === null ? '' : sizeText(backup.bytes)}</td>
            <td className="amount">
              {backup.restorable === 'verified' ? (
                <Button
                  size="compact-xs"
                  aria-label={`Restore the backup of ${madeText(backup)}`}
                  onClick={() => onRestore(backup)}
                >
                  Restore …
                </Button>
              ) : null}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);

/** The states to which the collection can be put back, and whether it is sound. */
export const BackupsSection = () => {
  const { data: backups } = useQuery({ queryKey: ['backups'], queryFn: () => api.collection.backups() });
  const [chosen, setChosen] = useState<BackupInfo | null>(null);
  const backUp = useAction(() => api.collection.backUp(), {
    label: 'Backed up',
    undoable: false,
    failure: 'The backup could not be made',
    onDone: ({ name }) => showNotice(`Backed up as ${name}`),
  });
  return (
    <Section
      id="backups"
      title="Backups"
      aside={
        <Button loading={backUp.isPending} onClick={() => backUp.mutate()}>
          Back up now
        </Button>
      }
    >
      <p className={classes.lead}>
        Playworn makes a backup every day the collection is open, and before any drastic change. It is stored
        in the collection’s own folder: copy that folder to another disk as well.
      </p>
      {backups && backups.length === 0 ? <p className="soft grid-text">None yet.</p> : null}
      {backups && backups.length > 0 ? <BackupTable backups={backups} onRestore={setChosen} /> : null}
      <CheckCollection />
      <RestoreDialog backup={chosen} onClose={() => setChosen(null)} />
    </Section>
  );
};
