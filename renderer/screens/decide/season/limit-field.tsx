import { useEffect, useState } from 'react';
import classes from './season.module.css';

/** A limit to type over in place; empty means none. What cannot be read is put back. */
export const LimitField = ({
  label,
  value,
  whole = false,
  none = 'no limit',
  onChange,
}: {
  label: string;
  value: number | null;
  /** Whole numbers only, from one. */
  whole?: boolean;
  none?: string;
  onChange: (value: number | null) => void;
}) => {
  const shown = value === null ? '' : String(value);
  const [text, setText] = useState(shown);
  useEffect(() => setText(shown), [shown]);
  const settle = () => {
    const typed = text.trim().replace(',', '.');
    if (typed === '') return onChange(null);
    const number = Number(typed);
    const fits = Number.isFinite(number) && number >= 0 && number <= 1_000_000;
    if (!fits || (whole && !Number.isInteger(number))) return setText(shown);
    onChange(number);
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
