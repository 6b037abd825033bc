import { shownNumber } from '../../../valuation/reading/reading.ts';
import { type Cell, ImportFileError, type TableRow } from '../types.ts';
import { columnOf, type MergedCell, MergedRows } from './merged-cells.ts';
import { type Book, plainStyle } from './xlsx-book.ts';
import { isTooLong, longCell, xmlEvents } from './xml.ts';
import { zipText } from './zip.ts';

/** Columns of a list at most; a sheet could have 16,384, each of which would cost memory in every row. */
const mostColumns = 2000;
/**
 * Cells of a sheet at most, the empty ones before a filled one included: each of them costs memory and time.
 */
const mostCells = 100_000_000;
const mostRows = 1_048_576;

/**
 * The date of a serial day number. Day 60 of the usual system is a 29 February 1900 that never was; days
 * before it are one further on. Source: ECMA-376 part 1, 18.17.4.1.
 */
const dateOf = (serial: number, from1904: boolean): Date => {
  const days = from1904 ? serial + 1462 : serial < 60 ? serial + 1 : serial;
  return new Date(Math.round((days - 25_569) * 86_400) * 1000);
};

/** Days of a span of hours at most; a time far behind them is that of a day, though the day is not shown. */
const longestSpan = 366;

/** A time of day, or a span of hours, as it is shown: no day belongs to it. */
const timeOf = (serial: number): string => {
  const minutes = Math.round(serial * 24 * 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
};

const readCell = (book: Book, type: string, style: number, text: string): Cell => {
  switch (type) {
    case 's':
      return book.texts[Number(text)] ?? null;
    case 'b':
      return text === '1';
    case 'd':
      return new Date(/[zZ]|[+-]\d\d:\d\d$/.test(text) ? text : `${text}${text.includes('T') ? 'Z' : ''}`);
    case 'str':
    case 'inlineStr':
    case 'e':
      return text;
    default: {
      if (text === '') return null;
      const number = Number(text);
      if (!Number.isFinite(number)) return text;
      const { date, time, percent, sign } = book.styles[style] ?? plainStyle;
      if (percent) return `${shownNumber(number * 100)}%`;
      if (date)
        return number >= 0 && number < (time ? longestSpan : 1)
          ? timeOf(number)
          : dateOf(number, book.from1904);
      return sign === null ? number : { number, sign };
    }
  }
};

/**
 * The rows of one sheet, some at a time; `merged` are its cells that are merged downwards. Formulas give
 * their last result; a cell that shows an error gives its text.
 */
export const readXlsx = async function* (
  book: Book,
  name: string,
  merged: readonly MergedCell[] = [],
): AsyncGenerator<TableRow[]> {
  const sheet = book.sheets.find(own => own.name === name);
  if (!sheet) return;
  const above = new MergedRows(merged);
  let line = 0;
  let seen = 0;
  let cells: Cell[] = [];
  let column = -1;
  let type = '';
  let style = 0;
  let text = '';
  let reading = false;
  for await (const events of xmlEvents(zipText(sheet.entry))) {
    const rows: TableRow[] = [];
    for (const event of events) {
      if (event.is === 'text') {
        if (reading) text += event.text;
        if (isTooLong(text)) throw longCell(line);
        continue;
      }
      const opens = event.is === 'open';
      switch (event.name) {
        case 'row':
          if (!opens) {
            seen += cells.length;
            if (seen > mostCells)
              throw new ImportFileError(
                `This sheet has more than ${mostCells / 1e6} million cells up to line ${line}, more than can be read. Save the columns that you need as .csv and import that.`,
              );
            rows.push(above.of({ line, cells: Array.from(cells, cell => cell ?? null) }));
          } else {
            line = Number(event.attributes.r ?? line + 1);
            cells = [];
            column = -1;
            if (!(line <= mostRows))
              throw new ImportFileError('This sheet has more rows than a sheet can have.');
          }
          break;
        case 'c':
          if (opens) {
            const { r, t, s } = event.attributes;
            column = r ? columnOf(r) : column + 1;
            type = t ?? 'n';
            style = Number(s ?? 0);
            text = '';
          } else if (column >= 0) {
            const value = readCell(book, type, style, text);
            if (value === null || value === '') break;
            if (column >= mostColumns)
              throw new ImportFileError(
                `Line ${line} of this sheet has something beyond its ${mostColumns.toLocaleString('en-US')}th column, farther than a list goes. Remove it, or save the columns that you need as .csv and import that.`,
              );
            cells[column] = value;
          }
          break;
        case 'v':
        case 't':
          reading = opens;
          break;
        case 'rPh':
          // How a text is spoken is no part of it.
          if (opens) type = `${type} spoken`;
          else type = type.replace(' spoken', '');
          break;
      }
      if (opens && event.name === 't' && type.endsWith(' spoken')) reading = false;
    }
    if (rows.length > 0) yield rows;
  }
};

/** Names of the sheets that hold anything, those that are hidden last. */
export const filledSheets = async (book: Book): Promise<string[]> => {
  const names: string[] = [];
  for (const { name } of [...book.sheets].sort((a, b) => Number(a.hidden) - Number(b.hidden)))
    for await (const rows of readXlsx(book, name)) {
      if (!rows.some(row => row.cells.some(cell => cell !== null))) continue;
      names.push(name);
      break;
    }
  return names;
};
