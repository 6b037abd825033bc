import { keepPreviousData, type QueryClient, useQuery } from '@tanstack/react-query';
import { useMemo } from 'react';
import type { ReadSaleLines } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { correctionsInput, lineKeys, type PasteDraft, type PasteRow, standingOf } from './paste-draft.ts';

/** What the procedures take of a draft, its corrections apart. */
export const readingOf = ({ text, dates, currency }: PasteDraft) => ({
  text,
  ...(dates && { dates }),
  ...(currency && { currency }),
});

const correctedQuery = (draft: PasteDraft) => {
  const corrections = correctionsInput(draft);
  return {
    queryKey: ['sale lines', readingOf(draft), corrections],
    queryFn: async () =>
      corrections.length === 0
        ? []
        : (
            await api.sales.readLines({
              ...readingOf(draft),
              corrections,
              lines: corrections.map(({ line }) => line),
            })
          ).rows,
    gcTime: 60_000,
  };
};

/**
 * Reads what a draft corrects before it is shown, so that a cell goes from what was typed to
 * what became of it.
 */
export const fetchCorrected = (client: QueryClient, draft: PasteDraft) =>
  client.fetchQuery(correctedQuery(draft));

/** The lines of a draft as they are read, with its corrections. */
export const useLines = (
  draft: PasteDraft,
): { read: ReadSaleLines | undefined; rows: PasteRow[]; error: Error | null; fetching: boolean } => {
  const all = useQuery({
    queryKey: ['sale lines', readingOf(draft)],
    queryFn: () => api.sales.readLines(readingOf(draft)),
    enabled: draft.text.trim() !== '',
    placeholderData: keepPreviousData,
    gcTime: 60_000,
  });
  const corrected = useQuery({ ...correctedQuery(draft), placeholderData: keepPreviousData });
  const rows = useMemo(() => {
    if (!all.data || draft.text.trim() === '') return [];
    const keys = lineKeys(draft.text);
    const better = new Map(corrected.data?.map(row => [row.line, row]));
    return all.data.rows.map((row): PasteRow => {
      const key = keys.get(row.line) ?? '';
      const said = draft.corrections.get(key);
      const found = better.get(row.line);
      const shown = found?.text === row.text ? found : row;
      return { ...shown, key, corrected: said !== undefined, standing: standingOf(shown, said) };
    });
  }, [all.data, corrected.data, draft]);
  return {
    read: all.data,
    rows,
    error: all.error ?? corrected.error,
    fetching: all.isFetching || corrected.isFetching,
  };
};
