import type { ImportRowView } from '../types.ts';
import type { Habits, Judged, ReadRow, RowReader } from './judge.ts';

/** A judged row as the preview shows it. */
export const rowView = (
  { mapping }: Habits,
  row: ReadRow,
  { judged, reader }: { judged: Judged; reader: RowReader },
): ImportRowView => ({
  line: row.line,
  sheet: row.sheet ?? null,
  outcome: judged.outcome,
  column: judged.outcome === 'rejected' ? judged.column : null,
  reason: judged.outcome === 'rejected' ? judged.reason : null,
  not: judged.outcome === 'rejected' ? judged.not : null,
  note:
    judged.outcome === 'accepted'
      ? [...judged.notes, ...reader.unread.map(({ reason }) => reason)].join('; ') || null
      : judged.outcome === 'duplicate'
        ? judged.note
        : null,
  fields: judged.outcome === 'rejected' ? {} : reader.fields,
  unread: reader.unread.map(({ column, text }) => ({ column, text: text.slice(0, 200) })),
  values: Object.fromEntries(
    [...mapping.places.keys()].map(column => [column, reader.written(column).slice(0, 200)]),
  ),
});

/** A line that is no row of the list, such as a title or headings. */
export const asideView = ({ line, sheet }: ReadRow, not: string): ImportRowView => ({
  line,
  sheet: sheet ?? null,
  outcome: 'rejected',
  column: null,
  reason: null,
  not,
  note: null,
  fields: {},
  unread: [],
  values: {},
});
