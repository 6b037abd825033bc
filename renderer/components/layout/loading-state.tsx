import { useEffect, useState } from 'react';
import { useKeysWait } from '../keys/use-keys.ts';
import classes from './layout.module.css';

const patience = 250;

/**
 * Says that something is being loaded, but only when it takes long enough to be noticed. In the place of a
 * whole screen the keys pressed meanwhile wait for it; in that of a `part` they do not.
 */
export const LoadingState = ({ label = 'Loading', part = false }: { label?: string; part?: boolean }) => {
  const [slow, setSlow] = useState(false);
  useKeysWait(!part);
  useEffect(() => {
    const timer = setTimeout(() => setSlow(true), patience);
    return () => clearTimeout(timer);
  }, []);
  return (
    <div className={classes.loading} role="status" aria-busy="true">
      {slow ? `${label} …` : null}
    </div>
  );
};
