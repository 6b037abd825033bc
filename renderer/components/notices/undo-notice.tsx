import { Button } from '@mantine/core';
import { type NotificationData, notifications, notificationsStore } from '@mantine/notifications';
import { KeyHint } from '../keys/key-hint.tsx';
import classes from './notices.module.css';

/**
 * The one notice about what was just done: a newer one takes its place, since undo goes back
 * from the newest on.
 */
const doneId = 'done';
const shownFor = 8000;

const look = {
  withBorder: false,
  closeButtonProps: { 'aria-label': 'Dismiss' },
  classNames: { root: classes.notice, body: classes.body },
};

const showDone = (message: NotificationData['message']): void => {
  const up = notificationsStore.getState().notifications.find(({ id }) => id === doneId);
  const notice: NotificationData = {
    ...look,
    id: doneId,
    color: 'petrol',
    message,
    // The span of a notice that is still up begins again where it changes, by a millisecond too.
    autoClose: up?.autoClose === shownFor ? shownFor + 1 : shownFor,
  };
  // Showing leaves a notice that is up as it is, so it is changed in place.
  notifications.show(notice);
  notifications.update(notice);
};

interface Offer {
  label: string;
  keys: string;
  run: () => void;
}

const WithOffer = ({ message, offer }: { message: string; offer: Offer }) => (
  <span className={classes.line}>
    <span className={classes.label}>{message}</span>
    <Button
      variant="subtle"
      onClick={() => {
        notifications.hide(doneId);
        offer.run();
      }}
    >
      {offer.label}
    </Button>
    <KeyHint keys={offer.keys} />
  </span>
);

/** Says what was written and offers to take it back. */
export const showUndoNotice = (message: string, undo: () => void): void =>
  showDone(<WithOffer message={message} offer={{ label: 'Undo', keys: 'mod+Z', run: undo }} />);

/** Says what was taken back and offers to do it again. */
export const showRedoNotice = (message: string, redo: () => void): void =>
  showDone(<WithOffer message={message} offer={{ label: 'Redo', keys: 'mod+shift+Z', run: redo }} />);

/** Says something that needs no answer. */
export const showNotice = (message: string): void => showDone(message);

/** Says what went wrong and stays until it is read. */
export const showProblem = (title: string, sentence: string): void => {
  notifications.show({
    ...look,
    title,
    message: sentence,
    color: 'brick',
    autoClose: false,
    role: 'alert',
  });
};
