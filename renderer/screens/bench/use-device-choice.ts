import { useState } from 'react';

/** A choice that belongs to this device, such as large type for the tablet beside the vice. */
export const useDeviceChoice = (name: string): [boolean, (on: boolean) => void] => {
  const key = `playworn-${name}`;
  const [on, setOn] = useState(() => localStorage.getItem(key) === 'on');
  return [
    on,
    next => {
      localStorage.setItem(key, next ? 'on' : 'off');
      setOn(next);
    },
  ];
};
