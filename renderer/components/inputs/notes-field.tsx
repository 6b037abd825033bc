import { Textarea } from '@mantine/core';

/** A text of several lines that grows with what is written, to eight lines or `maxRows`. */
export const NotesField = ({
  label = 'Notes',
  description,
  minRows = 1,
  maxRows = 8,
  value,
  onChange,
}: {
  label?: string;
  description?: string;
  minRows?: number;
  maxRows?: number;
  value: string;
  onChange: (text: string) => void;
}) => (
  <Textarea
    label={label}
    description={description}
    autosize
    minRows={minRows}
    maxRows={maxRows}
    value={value}
    onChange={event => onChange(event.currentTarget.value)}
  />
);
