import { Button, Modal } from '@mantine/core';
import type { BackupInfo } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { showNotice } from '../../../components/notices/undo-notice.tsx';
import classes from '../settings.module.css';
import { momentText } from './texts.ts';

/** Asks once more before the collection is put back, and says what becomes of the present state. */
export const RestoreDialog = ({ backup, onClose }: { backup: BackupInfo | null; onClose: () => void }) => {
  const restore = useAction((name: string) => api.collection.restore({ name }), {
    label: 'Restored',
    undoable: false,
    failure: 'The backup could not be restored',
    onDone: ({ notices }) => {
      showNotice(['Restored.', ...notices].join(' '));
      onClose();
    },
  });
  return (
    <Modal
      opened={backup !== null}
      onClose={onClose}
      title="Restore this backup?"
      closeButtonProps={{ 'aria-label': 'Close' }}
    >
      <p className={classes.dialogText}>
        Everything entered since {backup?.at ? momentText(backup.at) : 'then'} will be replaced. It is not
        lost: the current state is saved as a backup first, and you can restore that in the same way.
      </p>
      <div className={classes.dialogFoot}>
        <Button onClick={onClose} data-autofocus>
          Leave it as it is
        </Button>
        <Button
          variant="filled"
          color="brick"
          loading={restore.isPending}
          onClick={() => backup && restore.mutate(backup.name)}
        >
          Restore this backup
        </Button>
      </div>
    </Modal>
  );
};
