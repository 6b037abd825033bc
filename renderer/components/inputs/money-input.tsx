import { TextInput } from '@mantine/core';
import { type ReactNode, useRef } from 'react';
import type { Currency, Minor } from '../../../valuation/types.ts';
import { amountText, readerLocale } from '../format.ts';
import classes from './inputs.module.css';
import { parseMoney, separatorsOf } from './parse-money.ts';
import { useText } from './use-text.ts';

/**
 * A field for an amount: takes it as people write it, hands over minor units, and says plainly
 * what it cannot read.
 */
export const MoneyInput = ({
  label,
  currency,
  value,
  onChange,
  onProblem,
  description,
  negative = false,
  asTyped = false,
  required,
  disabled,
  autoFocus,
}: {
  label: ReactNode;
  currency: Currency;
  value: Minor | null;
  /** Called when the field is left or Enter is pressed and what it holds is an amount, or nothing; see `asTyped`. */
  onChange: (minor: Minor | null) => void;
  /** Told whether the text can be read, so that a form can hold its button back. */
  onProblem?: (problem: string | null) => void;
  description?: ReactNode;
  negative?: boolean;
  /**
   * Tells `onChange` with each letter, null for what cannot be read: for a form, whose button shall be there for
   * the click that follows at once. What saves waits until the field is left.
   */
  asTyped?: boolean;
  required?: boolean;
  disabled?: boolean;
  autoFocus?: boolean;
}) => {
  const shownAs = (minor: Minor | null) => (minor === null ? '' : amountText(minor, currency));
  const typed = useRef<string | null>(null);
  const { text, setText, problem, setProblem } = useText(shownAs(value), typed);
  const say = (next: string | null) => {
    setProblem(next);
    onProblem?.(next);
  };
  const read = (from: string) => {
    const parsed = parseMoney(from, currency, separatorsOf(readerLocale()));
    const isBelow = !negative && 'minor' in parsed && parsed.minor !== null && parsed.minor < 0;
    return isBelow ? { problem: 'Enter zero or more.' } : parsed;
  };
  const type = (next: string) => {
    setText(next);
    if (problem) say(null);
    if (!asTyped) return;
    const parsed = read(next);
    const minor = 'problem' in parsed ? null : parsed.minor;
    typed.current = shownAs(minor);
    if (minor !== value) onChange(minor);
  };
  const settle = () => {
    typed.current = null;
    const parsed = read(text);
    if ('problem' in parsed) return say(parsed.problem);
    if (required && parsed.minor === null) return say('An amount is needed here.');
    say(null);
    setText(shownAs(parsed.minor));
    if (parsed.minor !== value) onChange(parsed.minor);
  };
  const unread = read(text);
  return (
    <TextInput
      // No form goes out with an amount that was typed and not read.
      ref={element => element?.setCustomValidity('problem' in unread ? unread.problem : '')}
      label={label}
      description={description}
      value={text}
      error={problem}
      required={required}
      disabled={disabled}
      autoFocus={autoFocus}
      inputMode="decimal"
      autoComplete="off"
      classNames={{ input: classes.money }}
      rightSection={<span className={classes.currency}>{currency}</span>}
      rightSectionWidth={44}
      onChange={event => type(event.currentTarget.value)}
      onBlur={settle}
      onKeyDown={event => {
        if (event.key === 'Enter') settle();
      }}
    />
  );
};
