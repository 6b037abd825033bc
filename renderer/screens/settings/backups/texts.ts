import { readerLocale } from '../../../components/format.ts';

/** A moment in the reader's own time: "14 Mar 2026, 10:26". */
export const momentText = (at: string): string =>
  new Intl.DateTimeFormat(readerLocale(), {
    day: 'numeric',
    month: 'short',
    year: 'numeric',
    hour: '2-digit',
    minute: '2-digit',
  }).format(new Date(at));

export const sizeText = (bytes: number): string =>
  bytes < 1_000_000 ? `${Math.max(1, Math.round(bytes / 1000))} kB` : `${(bytes / 1_000_000).toFixed(1)} MB`;
