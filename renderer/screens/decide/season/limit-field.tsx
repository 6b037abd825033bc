import { useEffect, useState } from 'react';
import { readLimit } from './read-limit.ts';
import classes from './season.module.css';

/** A limit to type over in place; empty means none. What cannot be read is put back. */
export const LimitField = ({
  label,
  value,
  ceiling = 1_000_000,
  whole = false,
  none = 'no limit',
  onChange,
}: {
  label: string;
  value: number | null;
  /** The greatest value that it takes. */
  ceiling?: number;
  /** Whole numbers only, from one. */
  whole?: boolean;
  none?: string;
  onChange: (value: number | null) => void;
}) => {
  const shown = value === null ? '' : String(value);
  const [text, setText] = useState(shown);
  useEffect(() => setText(shown), [shown]);
  const settle = () => {
    const limit = readLimit(text, { ceiling, whole });
    if (limit === undefined) setText(shown);
    else onChange(limit);
  };
  return (
    <input
      className={classes.field}
      aria-label={label}
      value={text}
      placeholder={none}
      size={Math.max(text.length || none.length, 2)}
      inputMode="decimal"
      autoComplete="off"
      onChange={event => setText(event.currentTarget.value)}
      onFocus={event => event.currentTarget.select()}
      onBlur={settle}
      onKeyDown={event => {
        if (event.key === 'Enter') event.currentTarget.blur();
        if (event.key === 'Escape') setText(shown);
      }}
    />
  );
};
