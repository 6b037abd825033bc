import { Button } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { BackupInfo } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { BackupTable } from '../../../components/backups/backup-table.tsx';
import { RestoreDialog } from '../../../components/backups/restore-dialog.tsx';
import { momentText } from '../../../components/backups/texts.ts';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { Section } from '../../../components/layout/section.tsx';
import { showNotice } from '../../../components/notices/undo-notice.tsx';
import classes from '../settings.module.css';
import { CheckCollection } from './check-collection.tsx';

/** The states to which the collection can be put back, and whether it is sound. */
export const BackupsSection = () => {
  const { data: backups, isPending } = useQuery({
    queryKey: ['backups'],
    queryFn: () => api.collection.backups(),
  });
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
      {isPending ? <LoadingState part /> : null}
      {backups && backups.length === 0 ? (
        <p className="soft grid-text">
          None yet. The first is made when you close Playworn, or now if you choose Back up now.
        </p>
      ) : null}
      {backups && backups.length > 0 ? (
        <BackupTable backups={backups} sound="No damage seen" onRestore={setChosen} />
      ) : null}
      <CheckCollection />
      <RestoreDialog backup={chosen} title="Restore this backup?" onClose={() => setChosen(null)}>
        <p>
          Everything entered since {chosen?.at ? momentText(chosen.at) : 'then'} will be replaced. It is not
          lost: the current state is saved as a backup first, and you can restore that in the same way.
        </p>
      </RestoreDialog>
    </Section>
  );
};
