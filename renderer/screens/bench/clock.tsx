import { useEffect, useState } from 'react';

/** The time that a clock has run since it was started, as the reader's clock tells it: "12:05". */
export const RunningTime = ({ since }: { since: string }) => {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    const ticking = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(ticking);
  }, []);
  const seconds = Math.max(0, Math.floor((now - Date.parse(since)) / 1000));
  const two = (value: number) => String(value).padStart(2, '0');
  const minutes = Math.floor(seconds / 60);
  const text =
    minutes < 60
      ? `${minutes}:${two(seconds % 60)}`
      : `${Math.floor(minutes / 60)}:${two(minutes % 60)}:${two(seconds % 60)}`;
  return <span role="timer">{text}</span>;
};
