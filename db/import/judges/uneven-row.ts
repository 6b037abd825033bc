import type { Mapping } from '../mapping.ts';
import type { TableRow } from '../types.ts';

interface Shaped<H, R> {
  habits: H;
  row: R;
  /** Places of cells of which nobody knows to which column they belong. */
  left: number[];
}

/**
 * A row with more cells than headings. Where only the last heading's text, which may hold commas, seems to
 * run on, it is joined again; otherwise nothing behind the car's name can be told to stand under its heading,
 * and the rest is saved as it is written.
 */
export const unevenRow = <H extends { mapping: Mapping }, R extends TableRow & { texts: string[] }>(
  habits: H,
  row: R,
): Shaped<H, R> => {
  const { mapping } = habits;
  const width = mapping.columns.length;
  const last = mapping.columns[width - 1];
  const splitsNumber = row.texts.some(
    (text, i) => /\d$/.test(text) && /^\d{2,3}(?!\d)/.test(row.texts[i + 1] ?? ''),
  );
  if (last?.ours === 'notes' && !splitsNumber) {
    const texts = [
      ...row.texts.slice(0, width - 1),
      row.texts
        .slice(width - 1)
        .filter(Boolean)
        .join(', '),
    ];
    const cells = [...row.cells.slice(0, width - 1), texts[width - 1] ?? ''];
    return { habits, row: { ...row, texts, cells }, left: [] };
  }
  const name = mapping.places.get('casting') ?? -1;
  const places = new Map([...mapping.places].filter(([, place]) => place <= name));
  const left = row.texts.flatMap((text, place) => (place > name && text ? [place] : []));
  return { habits: { ...habits, mapping: { ...mapping, places, moreNotes: [] } }, row, left };
};
