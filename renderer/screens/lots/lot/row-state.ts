import type { CarRow } from '../../../../electron/api/views.ts';
import type { RowState } from '../../../components/data-grid/types.ts';
import { unreadText } from '../../../components/own-words/unread-mark.tsx';

/** The filters that the foot of a lot's grid offers. */
export const lacks = {
  unidentified: (row: CarRow) => row.variationId === null,
  ungraded: (row: CarRow) => row.grade === null,
  'not understood': (row: CarRow) => row.unread.length > 0,
  'without photo': (row: CarRow) => row.photoCount === 0,
} satisfies Record<string, (row: CarRow) => boolean>;
export type Lack = keyof typeof lacks;

const variations = (count: number) => (count === 1 ? '1 variation fits' : `${count} variations fit`);

/** What the mark at a row's edge says. */
export const carRowState = (row: CarRow): RowState | null => {
  if (row.status === 'sold') return { tone: 'muted', label: 'Sold' };
  if (row.identified === 'no') return { tone: 'caution', label: 'Not identified; your text is saved' };
  if (row.identified === 'casting')
    return {
      tone: 'caution',
      label: `Variation not settled${row.candidateCount > 0 ? `: ${variations(row.candidateCount)}` : ''}`,
    };
  if (row.unread.length > 0) return { tone: 'caution', label: `Not understood: ${unreadText(row.unread)}` };
  return null;
};
