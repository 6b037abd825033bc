import type { BackupInfo } from '../../../electron/api/views.ts';
import { counted, readerLocale } from '../format.ts';

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

/** When a backup was made, or where nobody can say, its folder's name. */
export const madeText = ({ at, name }: BackupInfo): string => (at === null ? name : momentText(at));

/** What a backup holds: "90 cars, 5 lots, 96 photographs"; empty where its description does not tell. */
export const holdsText = ({ holds }: BackupInfo): string =>
  holds
    ? [
        counted(holds.cars, 'car', 'cars'),
        counted(holds.lots, 'lot', 'lots'),
        counted(holds.photographs, 'photograph', 'photographs'),
      ].join(', ')
    : '';

const kindText: Record<BackupInfo['kind'], string> = {
  backup: '',
  'set aside': 'A damaged state, set aside',
  other: 'Not a Playworn backup',
};

/** Why a backup was made, or what is wrong with it, or what lies there in its place. */
export const aboutText = (backup: BackupInfo): string =>
  backup.wrong ?? backup.reason ?? kindText[backup.kind];
