import { Button, Modal } from '@mantine/core';
import { useState } from 'react';
import { useLocation } from 'wouter';
import { api } from '../../api/client.ts';
import { useAction } from '../../components/actions/use-action.ts';
import backupClasses from '../../components/backups/backups.module.css';
import { OpenFolder } from '../../components/folders/open-folder.tsx';
import { showNotice } from '../../components/notices/undo-notice.tsx';
import classes from './recovery.module.css';

const SetAside = ({ dir, onDone }: { dir: string; onDone: () => void }) => {
  const [asked, setAsked] = useState(false);
  const setAside = useAction(() => api.collection.setAside({ dir }), {
    label: 'Set aside',
    undoable: false,
    failure: 'The damaged database could not be set aside',
    onDone: () => {
      setAsked(false);
      onDone();
      showNotice('The damaged database is now among the backups.');
    },
  });
  return (
    <>
      <Button onClick={() => setAsked(true)}>Set the damaged one aside …</Button>
      <Modal
        opened={asked}
        onClose={() => setAsked(false)}
        title="Set the damaged database aside?"
        closeButtonProps={{ 'aria-label': 'Close' }}
      >
        <div className={backupClasses.dialogText}>
          <p>
            It moves, as it is, into a folder of its own among the backups, for somebody who may repair it.
            Nothing is deleted; photographs and backups stay where they are. A restore does the same by
            itself.
          </p>
        </div>
        <div className={backupClasses.dialogFoot}>
          <Button onClick={() => setAsked(false)} data-autofocus>
            Leave it there
          </Button>
          <Button variant="filled" loading={setAside.isPending} onClick={() => setAside.mutate()}>
            Set it aside
          </Button>
        </div>
      </Modal>
    </>
  );
};

/** The ways out beside a restore: try again, set the damaged one aside, another folder, back. */
export const RecoveryActions = ({
  dir,
  lookAgain,
  canSetAside,
  otherIsOpen,
}: {
  dir: string;
  /** Surveys the folder again. */
  lookAgain: () => void;
  canSetAside: boolean;
  /** True where another collection is open all the while. */
  otherIsOpen: boolean;
}) => {
  const [opening, setOpening] = useState(false);
  const [, navigate] = useLocation();
  const again = useAction(() => api.collection.open({ dir }), {
    label: 'Opened',
    undoable: false,
    failure: 'It still cannot be opened',
    onDone: () => navigate('/'),
  });
  return (
    <>
      <div className={classes.actions}>
        <Button loading={again.isPending} onClick={() => again.mutate(undefined, { onError: lookAgain })}>
          Try again
        </Button>
        {canSetAside ? <SetAside dir={dir} onDone={lookAgain} /> : null}
        {opening ? null : <Button onClick={() => setOpening(true)}>Open another folder</Button>}
        <Button variant="subtle" onClick={() => navigate(otherIsOpen ? '/' : '/start')}>
          {otherIsOpen ? 'Back to the open collection' : 'Start a new collection, or see the demo'}
        </Button>
      </div>
      {opening ? <OpenFolder open onOpen={() => undefined} onCancel={() => setOpening(false)} /> : null}
    </>
  );
};
