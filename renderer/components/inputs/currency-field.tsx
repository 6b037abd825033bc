import { useMemo } from 'react';
import { currencies } from '../../../valuation/money.ts';
import type { Currency } from '../../../valuation/types.ts';
import { readerLocale } from '../format.ts';
import type { Choice } from './choices.ts';
import { TypeAhead } from './type-ahead.tsx';

/** Every currency that amounts can be kept in, by its code and its name in the reader's language. */
export const currencyChoices = (): Choice[] => {
  const names = new Intl.DisplayNames([readerLocale()], { type: 'currency' });
  return currencies.map(code => ({ value: code, label: code, detail: names.of(code) ?? '' }));
};

/** A currency, found by its code or its name. */
export const CurrencyField = ({
  label = 'Currency',
  value,
  onChange,
  description,
  disabled,
}: {
  label?: string;
  value: Currency;
  onChange: (currency: Currency) => void;
  description?: string;
  disabled?: boolean;
}) => {
  const choices = useMemo(currencyChoices, []);
  return (
    <TypeAhead
      label={label}
      value={value}
      choices={choices}
      description={description}
      disabled={disabled ?? false}
      onPick={choice => onChange(choice.value)}
    />
  );
};
