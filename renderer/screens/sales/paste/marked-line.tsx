import type { SaleLineRow } from '../../../../electron/api/views.ts';
import { readerWords } from '../../../components/words.ts';
import classes from './paste.module.css';

interface Piece {
  text: string;
  /** What it was read as; null where nothing was, or it says nothing. */
  field: string | null;
  unread: boolean;
}

/** The words for the fields of a line, as they stand under it. */
export const fieldName = (field: string): string => {
  const { dialect } = readerWords();
  const names: Record<string, string> = {
    colour: dialect.colour,
    sold_on: 'sold on',
    release_name: 'release',
    release_year: 'year',
    finish_state: 'finish',
    missing_parts: 'missing',
    reproduction_parts: 'reproduction',
  };
  return names[field] ?? field.replaceAll('_', ' ');
};

/** A line cut into what became which field, what was not understood, and the rest. */
export const piecesOf = ({
  text,
  spans,
  unread,
}: Pick<SaleLineRow, 'text' | 'spans' | 'unread'>): Piece[] => {
  const marks: { start: number; end: number; field: string | null }[] = [];
  const free = (start: number, end: number) => marks.every(mark => end <= mark.start || mark.end <= start);
  for (const { start, end, field } of spans) {
    const same = marks.find(mark => mark.start === start && mark.end === end);
    if (same) {
      // A price and its currency stand in one place.
      if (field !== 'currency') same.field = `${same.field}, ${fieldName(field)}`;
    } else if (free(start, end)) marks.push({ start, end, field: fieldName(field) });
  }
  for (const { text: left } of unread) {
    let start = text.indexOf(left);
    while (start >= 0 && !free(start, start + left.length)) start = text.indexOf(left, start + 1);
    if (start >= 0) marks.push({ start, end: start + left.length, field: null });
  }
  marks.sort((a, b) => a.start - b.start);
  const pieces: Piece[] = [];
  let at = 0;
  for (const { start, end, field } of marks) {
    if (start > at) pieces.push({ text: text.slice(at, start), field: null, unread: false });
    pieces.push({ text: text.slice(start, end), field, unread: field === null });
    at = end;
  }
  if (at < text.length) pieces.push({ text: text.slice(at), field: null, unread: false });
  return pieces;
};

/**
 * The line with what was understood underlaid and what was not underlined; `named` writes the fields beneath.
 */
export const MarkedLine = ({ row, named = false }: { row: SaleLineRow; named?: boolean }) => (
  <span className={named ? classes.namedLine : classes.markedLine} title={named ? undefined : row.text}>
    {piecesOf(row).map((piece, at) => {
      const key = at;
      if (piece.unread)
        return (
          <span key={key} className={classes.unread}>
            {piece.text}
            {named ? <small>not understood</small> : null}
          </span>
        );
      if (piece.field === null) return <span key={key}>{piece.text}</span>;
      return (
        <mark key={key} className={classes.read}>
          {piece.text}
          {named ? <small>{piece.field}</small> : null}
        </mark>
      );
    })}
  </span>
);
