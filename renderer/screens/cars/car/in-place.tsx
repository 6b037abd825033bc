import { type ReactNode, type Ref, useEffect, useRef, useState } from 'react';
import classes from './in-place.module.css';

/**
 * A text that is edited where it stands: it is kept when the field is left or Enter pressed, and
 * Escape puts it back.
 */
export const InPlaceText = ({
  label,
  value,
  placeholder,
  onSave,
  required = false,
  lines = false,
}: {
  label: string;
  value: string;
  placeholder: string;
  onSave: (value: string) => void;
  /** An emptied field goes back to what it was. */
  required?: boolean;
  /** For notes: grows with its text; Enter begins a line. */
  lines?: boolean;
}) => {
  const [text, setText] = useState(value);
  const leaving = useRef(false);
  useEffect(() => setText(value), [value]);
  const settle = () => {
    const next = text.trim();
    if (leaving.current || (required && next === '')) setText(value);
    else if (next !== value) onSave(next);
    leaving.current = false;
  };
  const shared = {
    className: classes.text,
    value: text,
    'aria-label': label,
    placeholder,
    onBlur: settle,
  };
  if (lines)
    return (
      <span className={classes.grows} data-text={`${text} `}>
        <textarea
          {...shared}
          rows={1}
          onChange={event => setText(event.currentTarget.value)}
          onKeyDown={event => {
            if (event.key !== 'Escape') return;
            leaving.current = true;
            event.currentTarget.blur();
          }}
        />
      </span>
    );
  return (
    <input
      {...shared}
      onChange={event => setText(event.currentTarget.value)}
      onKeyDown={event => {
        if (event.key !== 'Enter' && event.key !== 'Escape') return;
        leaving.current = event.key === 'Escape';
        event.currentTarget.blur();
      }}
    />
  );
};

/** One of a few words, chosen where it stands; `children` is how the chosen one looks. */
export const InPlaceChoice = ({
  label,
  value,
  choices,
  onSave,
  disabled = false,
  field,
  children,
}: {
  label: string;
  value: string;
  choices: readonly { value: string; label: string }[];
  onSave: (value: string) => void;
  disabled?: boolean;
  field?: Ref<HTMLSelectElement>;
  children?: ReactNode;
}) => (
  <span className={classes.choice} data-disabled={disabled || undefined}>
    <span className={classes.shown} aria-hidden="true">
      {children ?? choices.find(choice => choice.value === value)?.label ?? value}
    </span>
    <select
      ref={field}
      className={classes.select}
      aria-label={label}
      value={value}
      disabled={disabled}
      onChange={event => onSave(event.currentTarget.value)}
    >
      {choices.map(choice => (
        <option key={choice.value} value={choice.value}>
          {choice.label}
        </option>
      ))}
    </select>
  </span>
);
