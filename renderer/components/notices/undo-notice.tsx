import { Button } from '@mantine/core';
import { notifications } from '@mantine/notifications';
import { KeyHint } from '../keys/key-hint.tsx';
import classes from './notices.module.css';

const id = 'undo';

/** Says what was written and offers to take it back. Only the newest stands: undo takes back actions from the newest on. */
export const showUndoNotice = (label: string, undo: () => void): void => {
  notifications.hide(id);
  notifications.show({
    id,
    withCloseButton: true,
    withBorder: false,
    color: 'petrol',
    classNames: { root: classes.notice, body: classes.body },
    message: (
      <span className={classes.line}>
        <span className={classes.label}>{label}</span>
        <Button
          variant="subtle"
          onClick={() => {
            notifications.hide(id);
            undo();
          }}
        >
          Undo
        </Button>
        <KeyHint keys="mod+Z" />
      </span>
    ),
  });
};

/** Says something that needs no answer, such as what was undone. */
export const showNotice = (message: string): void => {
  notifications.hide(id);
  notifications.show({
    id,
    message,
    color: 'petrol',
    classNames: { root: classes.notice, body: classes.body },
  });
};

/** Says what went wrong and stays until it is read. */
export const showProblem = (title: string, sentence: string): void => {
  notifications.show({
    title,
    message: sentence,
    color: 'brick',
    autoClose: false,
    classNames: { root: classes.notice, body: classes.body },
    role: 'alert',
  });
};
