import { Button } from '@mantine/core';
import { useFilePicker } from '../../../components/files/use-file-picker.tsx';

/** Chooses the spreadsheet to import. */
export const ChooseSpreadsheet = ({
  label,
  primary = false,
  onFile,
}: {
  label: string;
  primary?: boolean;
  onFile: (file: File) => void;
}) => {
  const { choose, field } = useFilePicker({
    label: 'Spreadsheet to import',
    accept:
      '.csv,.tsv,.txt,.xlsx,.jsonl,text/csv,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet',
    onFiles: ([file]) => onFile(file),
  });
  return (
    <>
      <Button
        size={primary ? 'sm' : 'xs'}
        variant={primary ? 'filled' : 'default'}
        data-autofocus={primary || undefined}
        onClick={choose}
      >
        {label}
      </Button>
      {field}
    </>
  );
};
