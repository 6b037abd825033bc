import { type Cell, isAmountCell, shownNumber } from '../../../valuation/reading/reading.ts';

const telling = /^[!-~]/;
const unusualSpaces = /[\0\u00a0\u202f]/;

/** The text of a cell without outer white space; a spreadsheet's amount with the sign that it shows. */
export const cellText = (cell: Cell): string => {
  if (cell === null) return '';
  if (cell instanceof Date) return Number.isNaN(cell.getTime()) ? '' : cell.toISOString().slice(0, 10);
  if (isAmountCell(cell)) return `${shownNumber(cell.number)} ${cell.sign}`;
  const written = typeof cell === 'number' ? shownNumber(cell) : String(cell);
  return (
    unusualSpaces.test(written) ? written.replaceAll('\0', '').replace(/[\u00a0\u202f]/g, ' ') : written
  ).trim();
};

/** True where no cell of the row holds any text. */
export const isBlank = (cells: Cell[]): boolean => {
  // Most cells of text begin with a letter or a figure; to see that is quicker than to trim them.
  for (const cell of cells)
    if (
      cell !== null &&
      cell !== '' &&
      ((typeof cell === 'string' && telling.test(cell)) || cellText(cell) !== '')
    )
      return false;
  return true;
};
