import { useEffect, useState } from 'react';

/** A value once it has stood for a while, so that running through a list does not ask for every row. */
export const useSettled = <Value>(value: Value, after: number): Value => {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), after);
    return () => clearTimeout(timer);
  }, [value, after]);
  return settled;
};
