import { Tooltip } from '@mantine/core';
import { useId } from 'react';
import type { Currency, Minor } from '../../../valuation/types.ts';
import { amountText, readerLocale } from '../format.ts';
import { parseMoney, separatorsOf } from './parse-money.ts';
import classes from './three-cells.module.css';
import { useText } from './use-text.ts';

/** The look of a small field in a line, for those of other kinds beside these. */
export const cellClass = classes.cell;

/** A small field whose text is read when it is left; what cannot be read is marked, with the reason below it. */
const ReadCell = ({
  label,
  shown,
  read,
}: {
  label: string;
  shown: string;
  /** Takes the text over and returns null, or says why it cannot. */
  read: (text: string) => string | null;
}) => {
  const { text, setText, problem, setProblem } = useText(shown);
  const reason = useId();
  return (
    <>
      <Tooltip
        label={problem}
        opened={problem !== null}
        color="brick"
        position="bottom-start"
        multiline
        maw={260}
        transitionProps={{ duration: 0 }}
      >
        <input
          className={`${classes.cell} ${classes.number}`}
          aria-label={label}
          aria-invalid={problem !== null || undefined}
          data-unread={problem !== null || undefined}
          aria-describedby={problem === null ? undefined : reason}
          inputMode="decimal"
          autoComplete="off"
          value={text}
          onFocus={event => event.currentTarget.select()}
          onChange={event => {
            setText(event.currentTarget.value);
            setProblem(null);
          }}
          onBlur={() => {
            const said = text === shown ? null : read(text);
            setProblem(said);
          }}
        />
      </Tooltip>
      {problem === null ? null : (
        <span id={reason} role="alert" className="heard">
          {problem}
        </span>
      )}
    </>
  );
};

export const AmountCell = ({
  label,
  currency,
  value,
  onChange,
}: {
  label: string;
  currency: Currency;
  value: Minor;
  onChange: (minor: Minor) => void;
}) => (
  <ReadCell
    label={label}
    shown={amountText(value, currency)}
    read={text => {
      const parsed = parseMoney(text, currency, separatorsOf(readerLocale()));
      if ('problem' in parsed) return parsed.problem;
      if ((parsed.minor ?? 0) < 0) return 'Enter zero or more.';
      onChange(parsed.minor ?? 0);
      return null;
    }}
  />
);

export const NumberCell = ({
  label,
  value,
  most = 10_000,
  multipleOf,
  onChange,
}: {
  label: string;
  value: number;
  most?: number;
  /** A half point, where only those are grades. */
  multipleOf?: number;
  onChange: (value: number) => void;
}) => (
  <ReadCell
    label={label}
    shown={String(Math.round(value * 100) / 100)}
    read={text => {
      const number = Number(text.trim().replace(',', '.') || '0');
      if (!Number.isFinite(number) || number < 0 || number > most)
        return `A number from 0 to ${most} is needed here.`;
      if (multipleOf !== undefined && number % multipleOf !== 0)
        return `A multiple of ${multipleOf} is needed here.`;
      onChange(number);
      return null;
    }}
  />
);
