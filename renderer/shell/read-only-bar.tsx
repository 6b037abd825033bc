import { useQuery } from '@tanstack/react-query';
import classes from './shell.module.css';
import { stateQuery } from './state-query.ts';

/** Says for as long as it is so that the collection is only read, and why. */
export const ReadOnlyBar = () => {
  const { data: state } = useQuery(stateQuery);
  if (!state?.readOnly) return null;
  return (
    <p className={classes.readOnly} role="status">
      {state.readOnlyBecause ?? 'This collection can be read but not changed.'} Reports can be saved
      elsewhere.
    </p>
  );
};
