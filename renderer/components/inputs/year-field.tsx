import { NumberInput } from '@mantine/core';

/** A year in which such cars were made; null where it is left empty. */
export const YearField = ({
  label,
  value,
  onChange,
}: {
  label: string;
  value: number | null;
  onChange: (year: number | null) => void;
}) => (
  <NumberInput
    label={label}
    value={value ?? ''}
    min={1900}
    max={2100}
    allowDecimal={false}
    hideControls
    onChange={year => onChange(typeof year === 'number' ? year : null)}
  />
);
