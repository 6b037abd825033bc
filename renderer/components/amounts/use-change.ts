import { useEffect, useRef, useState } from 'react';

const shownFor = 2400;

/**
 * The last change of a number while it is news: by how much, and a turn that tells one change from the next.
 */
export const useChange = (value: number | null): { by: number; turn: number } | null => {
  const previous = useRef(value);
  const turn = useRef(0);
  const [change, setChange] = useState<{ by: number; turn: number } | null>(null);
  useEffect(() => {
    const before = previous.current;
    previous.current = value;
    if (before === null || value === null || before === value) return;
    turn.current += 1;
    setChange({ by: value - before, turn: turn.current });
    const timer = setTimeout(() => setChange(null), shownFor);
    return () => clearTimeout(timer);
  }, [value]);
  return change;
};
