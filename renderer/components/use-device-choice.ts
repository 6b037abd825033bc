import { useState } from 'react';

const keyOf = (name: string): string => `playworn-${name}`;

/** Whether something is chosen on this device; not unless it was. */
export const deviceChoice = (name: string): boolean => localStorage.getItem(keyOf(name)) === 'on';

/** A choice that belongs to this device, such as large type for the tablet beside the vice. */
export const useDeviceChoice = (name: string): [boolean, (on: boolean) => void] => {
  const [on, setOn] = useState(() => deviceChoice(name));
  return [
    on,
    next => {
      localStorage.setItem(keyOf(name), next ? 'on' : 'off');
      setOn(next);
    },
  ];
};
