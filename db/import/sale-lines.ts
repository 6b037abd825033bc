import Papa from 'papaparse';
import { separators } from '../../valuation/reading/file-formats.ts';
import { recogniseHeading } from './recognise-headings.ts';

/** A line of a text in which each line tells of a sale. */
export interface WrittenLine {
  /** As an editor numbers it, from 1. */
  line: number;
  text: string;
  /** What is to be read, and the heading over it. */
  description: string;
  column: string;
  /** What stands in columns of its own, where the text has headings; a column that is missing is null. */
  cells: { soldOn: string | null; price: string | null; source: string | null } | null;
}

const cellsOf = (line: string, delimiter: string): string[] =>
  (Papa.parse<string[]>(line, { delimiter }).data[0] ?? []).map(cell => cell.trim());

/** The separator and the columns of a first line that is nothing but headings; null where it is a sale. */
const headingsIn = (line: string) => {
  if (/\d/.test(line)) return null;
  for (const separator of separators) {
    const headings = cellsOf(line, separator);
    const ours = headings.map(heading => recogniseHeading('sales', heading)?.ours ?? null);
    const known = ours.filter(Boolean).length;
    if (known >= 2 && (ours.includes('price') || ours.includes('sold_on')))
      return { separator, headings, ours };
  }
  return null;
};

/**
 * The lines of a text that are not blank, one sale each. Where the first line is headings, its date, price,
 * currency and source are taken from their columns, and all other cells together are what is to be read.
 */
export const saleLinesIn = (text: string): WrittenLine[] => {
  const lines = text
    .replace(/^\ufeff/, '')
    .split(/\r\n|\n|\r/)
    .map((shown, at) => ({ line: at + 1, text: shown.trim() }))
    .filter(({ text: shown }) => shown !== '');
  const table = headingsIn(lines[0]?.text ?? '');
  if (!table) return lines.map(one => ({ ...one, description: one.text, column: 'line', cells: null }));
  const at = (name: string) => table.ours.indexOf(name);
  const own = ['sold_on', 'price', 'currency', 'source'].map(at);
  const described = table.headings.flatMap((_, index) => (own.includes(index) ? [] : [index]));
  return lines.slice(1).map(one => {
    const cells = cellsOf(one.text, table.separator);
    const cell = (name: string) => (at(name) < 0 ? null : (cells[at(name)] ?? ''));
    const currency = cell('currency');
    const price = cell('price');
    return {
      ...one,
      description: described
        .map(index => cells[index] ?? '')
        .filter(Boolean)
        .join(', '),
      column: table.headings[described[0] ?? -1] || 'line',
      cells: {
        soldOn: cell('sold_on'),
        price: price && currency && !/\p{Sc}|\p{L}/u.test(price) ? `${currency} ${price}` : price,
        source: cell('source'),
      },
    };
  });
};
