import classes from './own-words.module.css';

/** How texts are answered by keyboard. */
export const AskHelp = () => (
  <p className={classes.help}>
    Type what a text means: <kbd>Enter</kbd> takes it, or what is suggested, and goes on; <kbd>↓</kbd> passes
    it over. One answer holds for all rows, now and later. What you leave stays saved as written.
  </p>
);
