import { Button } from '@mantine/core';
import { errorSentence } from '../../api/error-sentence.ts';
import classes from './layout.module.css';

/** What a screen says when it could not be loaded, with a way to try again. */
export const ErrorState = ({
  error,
  retry,
  title = 'This could not be shown',
}: {
  error: unknown;
  retry?: () => void;
  title?: string;
}) => (
  <div className={classes.empty} role="alert">
    <h2 className="harm">{title}</h2>
    <p className={classes.emptyText}>{errorSentence(error)}</p>
    {retry ? (
      <div className={classes.emptyActions}>
        <Button onClick={retry}>Try again</Button>
      </div>
    ) : null}
  </div>
);
