import { Button, Modal } from '@mantine/core';
import type { ReactNode } from 'react';
import type { BackupInfo } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import classes from './backups.module.css';

/**
 * Asks once more before a backup takes the place of a collection; `children` say what becomes of
 * the present state.
 */
export const RestoreDialog = ({
  backup,
  dir,
  title,
  children,
  onClose,
  onRestored,
}: {
  /** The backup chosen; closed while there is none. */
  backup: BackupInfo | null;
  /** The folder whose backup it is, where that is not the open collection's. */
  dir?: string;
  title: string;
  children: ReactNode;
  onClose: () => void;
  onRestored?: () => void;
}) => {
  const restore = useAction(
    ({ name, restorable }: BackupInfo) =>
      api.collection.restore({
        name,
        unverified: restorable === 'unverified',
        ...(dir !== undefined && { dir }),
      }),
    {
      label: 'Restored',
      undoable: false,
      failure: 'The backup could not be restored',
      // What there is to say comes with the collection that is open afterwards.
      onDone: () => {
        onClose();
        onRestored?.();
      },
    },
  );
  return (
    <Modal
      opened={backup !== null}
      onClose={onClose}
      title={title}
      closeButtonProps={{ 'aria-label': 'Close' }}
    >
      <div className={classes.dialogText}>
        {children}
        {backup?.restorable === 'unverified' ? (
          <p>
            This backup’s description is damaged. Its database is checked before it is used, but whether it is
            exactly as it was made cannot be known.
          </p>
        ) : null}
      </div>
      <div className={classes.dialogFoot}>
        <Button onClick={onClose} data-autofocus>
          Leave it as it is
        </Button>
        <Button
          variant="filled"
          color="brick"
          loading={restore.isPending}
          onClick={() => backup && restore.mutate(backup)}
        >
          Restore this backup
        </Button>
      </div>
    </Modal>
  );
};
