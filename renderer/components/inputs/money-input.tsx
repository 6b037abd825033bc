import { TextInput } from '@mantine/core';
import type { ReactNode } from 'react';
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
  required,
  disabled,
  autoFocus,
}: {
  label: ReactNode;
  currency: Currency;
  value: Minor | null;
  /** Called when the field is left or Enter is pressed and what it holds is an amount, or nothing. */
  onChange: (minor: Minor | null) => void;
  /** Told whether the text can be read, so that a form can hold its button back. */
  onProblem?: (problem: string | null) => void;
  description?: ReactNode;
  negative?: boolean;
  required?: boolean;
  disabled?: boolean;
  autoFocus?: boolean;
}) => {
  const shown = value === null ? '' : amountText(value, currency);
  const { text, setText, problem, setProblem } = useText(shown);
  const say = (next: string | null) => {
    setProblem(next);
    onProblem?.(next);
  };
  const settle = () => {
    const parsed = parseMoney(text, currency, separatorsOf(readerLocale()));
    if ('problem' in parsed) return say(parsed.problem);
    if (!negative && parsed.minor !== null && parsed.minor < 0) return say('Enter zero or more.');
    if (required && parsed.minor === null) return say('An amount is needed here.');
    say(null);
    setText(parsed.minor === null ? '' : amountText(parsed.minor, currency));
    if (parsed.minor !== value) onChange(parsed.minor);
  };
  return (
    <TextInput
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
      onChange={event => {
        setText(event.currentTarget.value);
        if (problem) say(null);
      }}
      onBlur={settle}
      onKeyDown={event => {
        if (event.key === 'Enter') settle();
      }}
    />
  );
};
