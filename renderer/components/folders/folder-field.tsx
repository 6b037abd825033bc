import { Button, TextInput } from '@mantine/core';
import { useQuery } from '@tanstack/react-query';
import { shell } from '../../api/connect.ts';
import classes from './folders.module.css';

/**
 * A folder: by the system's dialog where there is one, by its path everywhere. `within` makes of a chosen
 * folder what is to be made in it.
 */
export const FolderField = ({
  label,
  description,
  value,
  onChange,
  title,
  within = dir => dir,
  autoFocus = true,
}: {
  label: string;
  description: string;
  value: string;
  onChange: (dir: string) => void;
  title: string;
  within?: (dir: string) => string;
  autoFocus?: boolean;
}) => {
  const { data: native } = useQuery({ queryKey: ['shell'], queryFn: () => shell, meta: { immutable: true } });
  return (
    <div className={classes.folder}>
      <TextInput
        label={label}
        description={description}
        value={value}
        autoFocus={autoFocus}
        spellCheck={false}
        autoComplete="off"
        onChange={event => onChange(event.currentTarget.value)}
      />
      {native ? (
        <Button
          onClick={async () => {
            const dir = await native.chooseFolder({ title });
            if (dir) onChange(within(dir));
          }}
        >
          Choose …
        </Button>
      ) : null}
    </div>
  );
};
