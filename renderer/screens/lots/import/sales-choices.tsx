import { Checkbox } from '@mantine/core';
import type { ImportPreview } from '../../../../electron/api/views.ts';
import type { Currency } from '../../../../valuation/types.ts';
import { CurrencyField } from '../../../components/inputs/currency-field.tsx';
import classes from './import.module.css';
import type { ImportChoice } from './import-choice.ts';

/**
 * What sale records need besides: the currency of bare amounts, and what to do with castings that
 * nobody knows yet.
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
  const missing = preview.missingCastings;
  return (
    <div className={classes.sales}>
      <CurrencyField
        label="Currency of prices that name none"
        value={choice.currency ?? reporting}
        onChange={currency => onChange({ ...choice, currency })}
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
          description={`${missing.slice(0, 6).join(', ')}${missing.length > 6 ? ` and ${missing.length - 6} more` : ''}. Without this, their rows are not imported.`}
        />
      ) : null}
    </div>
  );
};
