import { useEffect, useState } from 'react';
import classes from './layout.module.css';

const patience = 250;

/** Says that something is being loaded, but only when it takes long enough to be noticed. */
export const LoadingState = ({ label = 'Loading' }: { label?: string }) => {
  const [slow, setSlow] = useState(false);
  useEffect(() => {
    const timer = setTimeout(() => setSlow(true), patience);
    return () => clearTimeout(timer);
  }, []);
  return (
    <div className={classes.loading} role="status">
      {slow ? `${label} …` : null}
    </div>
  );
};
