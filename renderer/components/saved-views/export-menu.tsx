import { Button, Menu } from '@mantine/core';
import { IconDownload } from '@tabler/icons-react';
import { useState } from 'react';
import { useSearch } from 'wouter';
import type { ExportedList } from '../../../electron/api/exports/exports.ts';
import { api } from '../../api/client.ts';
import { errorSentence } from '../../api/error-sentence.ts';
import { resultOf } from '../../api/use-progress.ts';
import { saveFile } from '../files/save-file.ts';
import { readerLocale } from '../format.ts';
import { showProblem } from '../notices/undo-notice.tsx';
import { viewQuery } from './list-look.ts';

const formats = [
  { format: 'xlsx', label: 'Spreadsheet (XLSX)' },
  { format: 'csv', label: 'CSV' },
  { format: 'jsonl', label: 'JSON lines' },
] as const;
type Format = (typeof formats)[number]['format'];

/** The rows that a screen shows, in its order. */
export interface ShownRows {
  ids: number[];
  of?: 'castings' | 'variations';
}

/** Saves a list as a file: as it is seen, with its filter, order and columns, or whole. */
export const ExportMenu = ({
  list,
  shown,
  rows,
  whole,
  parts = { shown: 'As shown', whole: 'Whole list' },
}: {
  list: ExportedList;
  /** What is shown, where the address does not say all of it. */
  shown?: string;
  /** The rows that are shown, where it is not an address that says so; asked when they are wanted. */
  rows?: () => ShownRows;
  /** What shows everything, where the list goes out by that and not by its kind alone. */
  whole?: string;
  /** What the two are called. */
  parts?: { shown: string; whole: string };
}) => {
  const search = useSearch();
  const query = shown ?? viewQuery(search);
  const [writes, setWrites] = useState(false);
  const write = async (format: Format, asSeen: boolean) => {
    setWrites(true);
    try {
      const wanted = asSeen ? query : whole;
      const seen = wanted === undefined ? {} : { seen: { query: wanted, locale: readerLocale() } };
      const part = rows ? (asSeen ? { shown: rows() } : {}) : seen;
      await saveFile(await resultOf(await api.exports.make({ list, format, ...part })));
    } catch (error) {
      showProblem('The list could not be written', errorSentence(error));
    } finally {
      setWrites(false);
    }
  };
  return (
    <Menu position="bottom-end" withInitialFocusPlaceholder={false}>
      <Menu.Target>
        <Button loading={writes} leftSection={<IconDownload size={14} aria-hidden="true" />}>
          Export
        </Button>
      </Menu.Target>
      <Menu.Dropdown>
        {formats.map(({ format, label }) => (
          <Menu.Item key={format} onClick={() => void write(format, true)}>
            {parts.shown}: {label}
          </Menu.Item>
        ))}
        <Menu.Divider />
        {formats.map(({ format, label }) => (
          <Menu.Item key={format} onClick={() => void write(format, false)}>
            {parts.whole}: {label}
          </Menu.Item>
        ))}
      </Menu.Dropdown>
    </Menu>
  );
};
