import { keyCaps } from './key-match.ts';
import { onMac } from './key-registry.ts';
import classes from './keys.module.css';

/** Keys as small caps beside what they do: `<KeyHint keys="mod+K" />`. */
export const KeyHint = ({ keys }: { keys: string }) => (
  <span className={classes.hint}>
    {keyCaps(keys, onMac()).map(cap => (
      <kbd key={cap} className={classes.cap}>
        {cap}
      </kbd>
    ))}
  </span>
);
