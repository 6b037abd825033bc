/**
 * Writes tests/fixtures/messy/: three spreadsheets as people keep them, each as CSV and XLSX. Run by hand
 * when one changes: `npx node tests/helpers/make-messy-sheets.ts`.
 */
import { mkdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ExcelJS from 'exceljs';

type Cell = string | number | Date | null;
const folder = fileURLToPath(new URL('../fixtures/messy', import.meta.url));

const csvCell = (cell: Cell, separator: string): string => {
  const text = cell instanceof Date ? cell.toISOString().slice(0, 10) : String(cell ?? '');
  return text.includes(separator) || /["\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
};

const csv = (rows: Cell[][], separator: string, newline: string): string =>
  rows.map(row => row.map(cell => csvCell(cell, separator)).join(separator)).join(newline) + newline;

/** The bytes of Windows-1252 for the signs beyond Latin-1 that these sheets use. */
const signs: Record<string, number> = { '€': 0x80, '‘': 0x91, '’': 0x92, '“': 0x93, '”': 0x94, '–': 0x96 };
const windows1252 = (text: string): Buffer =>
  Buffer.from([...text].map(sign => signs[sign] ?? sign.charCodeAt(0)));

/**
 * A lot, kept in Windows-1252: titles above the headings, blank rows, two columns of notes, a
 * mistyped colour, totals.
 */
const barnTin: Cell[][] = [
  ['Barn tin, bought March', '', '', '', '', '', '', ''],
  ['', '', '', '', '', '', '', ''],
  ['No.', 'Car', 'Color', 'Base', 'Condition', 'Shelf', 'Notes', 'Notes'],
  ['1', 'Bellmarsh Sweep ', 'Damson', 'rear quarter', 'C7.5', 'A1', '“as good as it gets”', ''],
  ['2', '  Night Parcel', 'Claret Cup', 'fully painted', '7', 'A1', '', 'axle bent'],
  ['3', 'Osmerry', 'Peat Bnk', '', '7/10', '', 'café find – cheap', ''],
  ['', '', '', '', '', '', '', ''],
  ['4', 'Halcyard', 'copperleaf', 'None', '6 1/2', 'A2', 'grade as the seller wrote it', ''],
  ['5', 'Halcyard', 'Copperleaf', 'none', 'C 6,5', 'A2', '', ''],
  ['6', 'some estate car', 'green?', '', '', '', 'no idea what this is', ''],
  ['7', 'Bellmarsh Sweep', 'Damson', 'rear quarter', 'C11', '', '', ''],
  ['7', 'Bellmarsh Sweep', 'Inkwell', 'bare', '4', '', '', ''],
  ['2', 'Night Parcel', 'Damson', '', '5', '', 'same number as another', ''],
  ['', '', '', '', '', '', '', ''],
  ['Total', '', '', '', '9 cars', '', '', ''],
];

/** Sales: semicolons and decimal commas beside dollar signs, every form of date, a newline inside a cell. */
const seen: Cell[][] = [
  ['Sold', 'Model', 'Colour', 'Cond.', 'Paid', 'Where', 'Ref', 'Missing'],
  ['2021-03-14', 'Bellmarsh Sweep', 'Damson', 'C7.5', '$1,250.00', 'auction', 'lot 12', ''],
  ['14.3.2021', 'Night Parcel', 'Claret Cup', '7', '1.250,00 €', 'auction', 'lot 13', 'glass'],
  ['28/6/2021', 'Osmerry', '', '7/10', '12,50 €', 'dealer', 'window shelf\nback row', ''],
  ['5 Jan 2022', 'Halcyard', 'Copperleaf', '', '£ 18', 'fair', '', 'wheels; roof'],
  ['March 3, 2022', 'Halcyard', 'Copperleaf', 'C5', 'USD 22.5', 'fair', '', ''],
  ['', '', '', '', '', '', '', ''],
  ['31.2.2022', 'Halcyard', 'Copperleaf', 'C5', '20,00 €', 'fair', '', ''],
  ['4.4.2022', 'Halcyard', 'Copperleaf', 'C5', 'make offer', 'fair', '', ''],
  ['4.4.2022', 'Wobbleston Flyer', 'Ember', 'C5', '31,00 €', 'online', '', ''],
  ['2021-03-14', 'Bellmarsh Sweep', 'Damson', 'C7.5', '$1,250.00', 'auction', 'lot 12', ''],
  ['Summe', '', '', '', '2.604,00', '', '', ''],
];

/**
 * The reference as a club list: UTF-8 with a mark, a row too short, a column headed twice, words for
 * rarity of its own.
 */
const known: Cell[][] = [
  ['Make', 'Range', 'Name', 'Sold as', 'Year', 'Color', 'Base', 'Tail', 'Seats', 'Scarcity', 'Color'],
  [
    'Quillon Toys',
    'Lamplighters',
    'Bellmarsh Sweep',
    '',
    '1967',
    'Damson',
    'rear 1/4',
    'round lamps',
    'ivory',
    'normal',
    'dark',
  ],
  [
    'Quillon Toys',
    'Lamplighters',
    'Bellmarsh Sweep',
    '',
    '1967',
    'Inkwell',
    'no',
    'bar lamp',
    'ivory',
    'normal',
    'dark',
  ],
  [
    'Quillon Toys',
    'Journeymen',
    'Night Parcel',
    'Morning Milk',
    "'72",
    'Whey',
    'none',
    'double doors',
    'black',
    'very rare',
    '',
  ],
  [
    'Quillon Toys',
    'Journeymen',
    'Night Parcel',
    '',
    '1969',
    'Claret Cup',
    'full',
    'double doors',
    'black',
    'uncommon',
    '',
  ],
  ['Quillon Toys', 'Lamplighters', 'Osmerry', '', '1966', 'Peat Bank', 'none', 'round lamps'],
  ['', '', 'Halcyard', '', '1970', 'Copperleaf', '', 'twin lamps', 'white', 'scarce', ''],
  ['', '', 'Halcyard', '', 'about 1970', 'Ember', '', 'twin lamps', 'white', 'scarce', ''],
  ['', '', '', '', '1970', 'Ember', '', 'twin lamps', 'white', 'scarce', ''],
  [
    'Quillon Toys',
    'Lamplighters',
    'Bellmarsh Sweep',
    '',
    '1967',
    'DAMSON',
    'rear quarter',
    'round lamps',
    'ivory',
    'common',
    '',
  ],
];

/**
 * As a spreadsheet program keeps it: numbers as numbers, ISO dates as dates, and an empty sheet before it.
 */
const sheet = async (rows: Cell[][], name: string): Promise<Buffer> => {
  const book = new ExcelJS.Workbook();
  book.created = new Date(Date.UTC(2026, 2, 14));
  book.addWorksheet('Empty');
  const filled = book.addWorksheet(name);
  for (const row of rows)
    filled.addRow(
      row.map(cell => {
        if (typeof cell !== 'string' || cell === '') return cell === '' ? null : cell;
        if (/^\d+(\.\d+)?$/.test(cell)) return Number(cell);
        return /^\d{4}-\d\d-\d\d$/.test(cell) ? new Date(`${cell}T00:00:00Z`) : cell;
      }),
    );
  return Buffer.from(await book.xlsx.writeBuffer());
};

mkdirSync(folder, { recursive: true });
const write = (name: string, bytes: Buffer | string) => writeFileSync(join(folder, name), bytes);
write('barn-tin.csv', windows1252(csv(barnTin, ',', '\r\n')));
write('seen-sales.csv', csv(seen, ';', '\n'));
write('club-list.csv', `\ufeff${csv(known, ',', '\r\n')}`);
write('barn-tin.xlsx', await sheet(barnTin, 'Tin'));
write('seen-sales.xlsx', await sheet(seen, 'Sales'));
write('club-list.xlsx', await sheet(known, 'List'));
