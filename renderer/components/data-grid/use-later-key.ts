import { useLayoutEffect, useRef } from 'react';
import type { GridCommand } from './grid-keys.ts';

/** Of two keys that wait for a row, the one that is left: what is typed joins. */
const joined = (before: GridCommand | null, next: GridCommand): GridCommand => {
  if (before?.do !== 'edit' || before.text === null || next.do !== 'edit') return next;
  return { do: 'edit', text: before.text + (next.text ?? '') };
};

/**
 * Holds what a key means to the row under the cursor until that row is here, so that who types faster than rows
 * come loses nothing.
 */
export const useLaterKey = (isHere: boolean, run: (command: GridCommand) => void) => {
  const held = useRef<GridCommand | null>(null);
  useLayoutEffect(() => {
    if (!isHere || !held.current) return;
    const command = held.current;
    held.current = null;
    run(command);
  });
  return {
    hold: (command: GridCommand) => {
      held.current = joined(held.current, command);
    },
    drop: () => {
      held.current = null;
    },
  };
};

export type LaterKey = ReturnType<typeof useLaterKey>;
