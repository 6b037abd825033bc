import { Button } from '@mantine/core';
import { type ReactNode, useRef, useState } from 'react';
import classes from './import.module.css';

/** Where a file is chosen or dropped. */
export const DropFile = ({
  children,
  label,
  primary = false,
  onFile,
}: {
  children?: ReactNode;
  label: string;
  primary?: boolean;
  onFile: (file: File) => void;
}) => {
  const field = useRef<HTMLInputElement>(null);
  return (
    <>
      {children}
      <Button
        size={primary ? 'sm' : 'xs'}
        variant={primary ? 'filled' : 'default'}
        data-autofocus={primary || undefined}
        onClick={() => field.current?.click()}
      >
        {label}
      </Button>
      <input
        ref={field}
        className={classes.heard}
        type="file"
        tabIndex={-1}
        aria-label="Spreadsheet to import"
        accept=".csv,.tsv,.txt,.xlsx,text/csv,application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
        onChange={event => {
          const [file] = event.currentTarget.files ?? [];
          if (file) onFile(file);
          event.currentTarget.value = '';
        }}
      />
    </>
  );
};

/** Takes a file that is dropped anywhere on the screen. */
export const DropArea = ({ children, onFile }: { children: ReactNode; onFile: (file: File) => void }) => {
  const [over, setOver] = useState(false);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the button beside is the first
    <div
      className={classes.area}
      data-over={over || undefined}
      onDragOver={event => {
        if (!event.dataTransfer.types.includes('Files')) return;
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={event => {
        if (!event.currentTarget.contains(event.relatedTarget as Node | null)) setOver(false);
      }}
      onDrop={event => {
        event.preventDefault();
        setOver(false);
        const [file] = event.dataTransfer.files;
        if (file) onFile(file);
      }}
    >
      {children}
    </div>
  );
};
