import { Checkbox, TextInput } from '@mantine/core';
import { DateInput } from '@mantine/dates';
import { useState } from 'react';
import type { ImportPreview } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { useSummary } from '../../../api/use-summary.ts';
import { CurrencyField } from '../../../components/inputs/currency-field.tsx';
import classes from './import.module.css';
import type { ImportChoice } from './import-choice.ts';

/**
 * What sale records need besides: the currency of bare amounts, the day and the source of sales that name none,
 * and what to do with castings that nobody knows yet.
 */
export const SalesChoices = ({
  preview,
  choice,
  onChange,
  reporting,
}: {
  preview: ImportPreview;
  choice: ImportChoice;
  onChange: (choice: ImportChoice) => void;
  reporting: Currency;
}) => {
  const today = useSummary().data?.today;
  const missing = preview.missingCastings;
  const { soldOn, source = '' } = choice.ofAll ?? {};
  const [typed, setTyped] = useState(source);
  const sayOfAll = (said: { soldOn?: string | null; source?: string }) => {
    const { soldOn: day, source: seenAt } = { soldOn, source, ...said };
    onChange({ ...choice, ofAll: { ...(day && { soldOn: day }), ...(seenAt && { source: seenAt }) } });
  };
  return (
    <div className={classes.sales}>
      <CurrencyField
        label="Currency of prices that name none"
        value={choice.currency ?? reporting}
        onChange={currency => onChange({ ...choice, currency })}
      />
      <DateInput
        label="Day of sales that name none"
        value={soldOn ?? null}
        valueFormat="YYYY-MM-DD"
        placeholder="YYYY-MM-DD"
        maxDate={today}
        clearable
        clearButtonProps={{ tabIndex: -1, 'aria-label': 'Clear the date' }}
        onChange={day => sayOfAll({ soldOn: day })}
      />
      <TextInput
        label="Source of sales that name none"
        placeholder="Such as the name of an auction"
        maxLength={200}
        value={typed}
        onChange={event => setTyped(event.currentTarget.value)}
        onBlur={() => sayOfAll({ source: typed.trim() })}
      />
      {missing.length > 0 ? (
        <Checkbox
          checked={choice.addReference}
          onChange={event => onChange({ ...choice, addReference: event.currentTarget.checked })}
          label={
            missing.length === 1
              ? 'Add the casting that the reference lacks'
              : `Add the ${missing.length.toLocaleString()} castings that the reference lacks`
          }
          description={`${missing.slice(0, 6).join(', ')}${missing.length > 6 ? ` and ${missing.length - 6} more` : ''}. Without this, their records wait until you settle the names.`}
        />
      ) : null}
    </div>
  );
};
