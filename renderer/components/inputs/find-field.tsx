import { TextInput } from '@mantine/core';

/** Narrows a long table to the rows that have a text. */
export const FindField = ({
  label,
  value,
  onChange,
}: {
  label: string;
  value: string;
  onChange: (text: string) => void;
}) => (
  <TextInput
    aria-label={label}
    placeholder="find"
    w={240}
    mb={8}
    value={value}
    onChange={event => onChange(event.currentTarget.value)}
  />
);
