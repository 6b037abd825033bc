import { useLayoutEffect, useRef } from 'react';
import { mayWait } from '../keys/held-presses.ts';
import { useKeyRegistry } from '../keys/use-keys.ts';
import { gridCommand } from './grid-keys.ts';

/** Undo and redo: behind what was typed they mean that, so that they wait as well. */
const takesBack = ({ key, ctrlKey, metaKey }: KeyboardEvent): boolean =>
  (ctrlKey || metaKey) && /^[zy]$/i.test(key);

/**
 * Holds what is pressed for the row under the cursor, and all that is pressed after it, until that row is here,
 * so that who types faster than rows come loses nothing and nothing is done out of its order.
 */
export const useKeysAhead = (isHere: boolean) => {
  const registry = useKeyRegistry();
  const release = useRef<(() => void) | null>(null);
  useLayoutEffect(() => {
    if (!isHere) return;
    release.current?.();
    release.current = null;
  });
  useLayoutEffect(
    () => () => {
      if (!release.current) return;
      registry.forget();
      release.current();
    },
    [registry],
  );
  const hold = (press: KeyboardEvent): void => {
    release.current ??= registry.awaitScreen();
    registry.hold(press);
  };
  const mayBeHeld = (press: KeyboardEvent): boolean =>
    mayWait(press, true) || gridCommand(press) !== null || takesBack(press);
  return {
    /** Has a press wait for the row. */
    hold,
    /** The same, of any press that can wait; false for others. */
    holdAny: (press: KeyboardEvent): boolean => {
      if (!mayBeHeld(press)) return false;
      hold(press);
      return true;
    },
    /** True for a press that comes behind others: it waits with them. */
    isBehind: (press: KeyboardEvent): boolean => {
      if (!release.current || !registry.holdsAny()) return false;
      if (mayBeHeld(press)) registry.hold(press);
      return true;
    },
  };
};

export type KeysAhead = ReturnType<typeof useKeysAhead>;
