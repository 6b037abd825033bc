import { dateOrderOf, isAmbiguousDate } from '../../valuation/reading/date.ts';
import { decimalSignOf, type MoneyHabit } from '../../valuation/reading/money.ts';
import { ourColumns, recogniseHeading } from './columns.ts';
import { cellText, isBlank } from './files/cell-text.ts';
import type { Table } from './files/table.ts';
import {
  type Cell,
  type ColumnView,
  type DateOrder,
  type DecimalSign,
  ImportFileError,
  type ImportOptions,
  MissingColumnError,
} from './types.ts';

/** How the columns of a file become ours. */
export interface Mapping {
  columns: ColumnView[];
  /** Place in the file of each of our columns that the file has. */
  places: Map<string, number>;
  /** How the amounts of our columns are written. */
  money: Map<string, MoneyHabit>;
  warnings: string[];
}

const sameHeading = (a: string, b: string) => a.trim().toLowerCase() === b.trim().toLowerCase();

/**
 * Maps headings to our columns: as chosen, else of the same name, else as commonly headed. Throws ImportFileError where a
 * choice names a heading or a column that there is not, or, unless `complete` is false, where a required column is missing.
 */
export const mapColumns = (table: Table, options: ImportOptions, complete = true): Mapping => {
  const warnings: string[] = [];
  const ours = ourColumns[options.as];
  for (const [theirs, our] of Object.entries(options.map)) {
    if (!table.headings.some(heading => sameHeading(heading, theirs)))
      throw new ImportFileError(
        `There is no heading "${theirs}"; the file has ${table.headings.map(h => `"${h}"`).join(', ')}.`,
      );
    if (our !== null && !ours.some(column => column.name === our))
      throw new ImportFileError(
        `"${our}" is not one of our columns; they are ${ours.map(column => column.name).join(', ')}.`,
      );
  }
  const chosen = table.headings.map(heading =>
    Object.entries(options.map).find(([theirs]) => sameHeading(theirs, heading)),
  );
  const taken = new Set(chosen.flatMap(entry => (entry?.[1] ? [entry[1]] : [])));
  const recognised = table.headings.map((heading, index) =>
    chosen[index] ? null : recogniseHeading(options.as, heading),
  );
  for (const how of ['same name', 'recognised'] as const)
    recognised.forEach((found, index) => {
      if (found?.how !== how) return;
      if (!taken.has(found.ours)) {
        taken.add(found.ours);
        return;
      }
      recognised[index] = null;
      warnings.push(
        `"${table.headings[index]}" is not read, since another column already gives ${found.ours}.`,
      );
    });
  const columns = table.headings.map((heading, index): ColumnView => {
    const entry = chosen[index];
    const found = recognised[index];
    return {
      index,
      heading,
      ours: entry ? entry[1] : (found?.ours ?? null),
      how: entry ? (entry[1] ? 'chosen' : 'not used') : (found?.how ?? 'not used'),
      decimal: null,
      dateOrder: null,
      samples: [],
    };
  });
  const places = new Map(
    columns.flatMap(column => (column.ours ? [[column.ours, column.index] as const] : [])),
  );
  if (places.size !== columns.filter(column => column.ours).length)
    throw new ImportFileError('Two headings are mapped to the same column of ours; map one of them only.');
  const missing = ours.filter(column => column.required && !places.has(column.name));
  if (complete && missing.length)
    throw new MissingColumnError(
      `No column gives ${missing.map(column => `${column.name} (${column.help})`).join(' and ')}. ` +
        `The headings on line ${table.headingLine} are ${table.headings.map(h => `"${h}"`).join(', ')}: say which is meant.`,
    );
  return { columns, places, money: new Map(), warnings };
};

interface Evidence {
  point: number;
  comma: number;
  /** Amounts with one point, or one comma, and three digits behind it; an example of each. */
  lone: { '.': number; ',': number; example: Record<string, string> };
  dmy: number;
  mdy: number;
  ambiguousDates: number;
}

export interface Learned {
  rows: number;
  /** Inventory numbers that the file brings, in small letters: none of them is free to be given to another car. */
  numbers: Set<string>;
  /** Rows that bring none. */
  unnumbered: number;
}

/**
 * Reads the whole file once: finds each column's decimal sign and order of dates from the values that leave no doubt, keeps
 * the first values as samples, and counts the rows that are not blank. What stays in doubt becomes a warning.
 */
export const learnFormats = async (
  table: Table,
  mapping: Mapping,
  options: ImportOptions,
  signal?: AbortSignal,
): Promise<Learned> => {
  const evidence = mapping.columns.map(
    (): Evidence => ({
      point: 0,
      comma: 0,
      lone: { '.': 0, ',': 0, example: {} },
      dmy: 0,
      mdy: 0,
      ambiguousDates: 0,
    }),
  );
  const price = mapping.places.get('price');
  const date = mapping.places.get('sold_on');
  const number = mapping.places.get('inventory_number');
  const numbers = new Set<string>();
  let unnumbered = 0;
  let rows = 0;
  const learn = (cells: Cell[]) => {
    if (isBlank(cells)) return;
    rows++;
    if (rows <= 400)
      for (const column of mapping.columns) {
        const text = cellText(cells[column.index] ?? null);
        if (text && column.samples.length < 5 && !column.samples.includes(text))
          column.samples.push(text.slice(0, 80));
      }
    const brought = number === undefined ? '' : cellText(cells[number] ?? null).toLowerCase();
    if (brought) numbers.add(brought);
    else unnumbered++;
    if (price !== undefined) {
      const cell = cells[price] ?? null;
      const sign = decimalSignOf(cell);
      if (sign === 'both') {
        const { lone } = evidence[price]!;
        const own = String(cell).includes(',') ? ',' : '.';
        lone[own]++;
        lone.example[own] ??= String(cell).trim();
      } else if (sign) evidence[price]![sign === ',' ? 'comma' : 'point']++;
    }
    if (date !== undefined) {
      const cell = cells[date] ?? null;
      const order = dateOrderOf(cell);
      if (order === 'dmy' || order === 'mdy') evidence[date]![order]++;
      else if (isAmbiguousDate(cell)) evidence[date]!.ambiguousDates++;
    }
  };
  for await (const batch of table.rows()) {
    signal?.throwIfAborted();
    for (const { cells } of batch) learn(cells);
  }
  const choice = <T>(choices: Record<string, T>, heading: string): T | undefined =>
    Object.entries(choices).find(([theirs]) => sameHeading(theirs, heading))?.[1] ?? choices['*'];
  if (price !== undefined) {
    const column = mapping.columns[price]!;
    const { point, comma, lone } = evidence[price]!;
    const chosen = choice<DecimalSign>(options.decimal, column.heading) ?? null;
    const usual = point && comma ? null : comma ? ',' : point ? '.' : null;
    column.decimal = chosen ?? usual;
    mapping.money.set('price', { chosen, usual });
    // Where the other amounts part decimals with that very sign, a thousand is likelier but not certain.
    const doubtful = ([',', '.'] as const).filter(sign => lone[sign] && (sign === ',' ? comma : point));
    for (const sign of chosen ? [] : doubtful)
      mapping.warnings.push(
        `"${column.heading}" has amounts such as "${lone.example[sign]}" (${lone[sign]}), although others have the ${sign === ',' ? 'comma' : 'point'} before their decimals: read as thousands. Choose the decimal sign of this column if they are not.`,
      );
  }
  if (date !== undefined) {
    const column = mapping.columns[date]!;
    const { dmy, mdy, ambiguousDates } = evidence[date]!;
    column.dateOrder = choice<DateOrder>(options.dateOrder, column.heading) ?? null;
    if (column.dateOrder) return { rows, numbers, unnumbered };
    if (!(dmy && mdy)) column.dateOrder = dmy ? 'dmy' : mdy ? 'mdy' : null;
    if (ambiguousDates && dmy && mdy)
      mapping.warnings.push(
        `"${column.heading}" has dates with the day first and dates with the month first; the ${ambiguousDates} that can be read both ways are refused until an order is chosen.`,
      );
    else if (ambiguousDates && !dmy && !mdy)
      mapping.warnings.push(
        `"${column.heading}" has ${ambiguousDates} dates that can be read day first or month first, and none that tells which; they are refused until an order is chosen.`,
      );
    else if (ambiguousDates)
      mapping.warnings.push(
        `"${column.heading}" is read ${dmy ? 'day' : 'month'} first, as ${dmy || mdy} of its dates can only be read so.`,
      );
  }
  return { rows, numbers, unnumbered };
};
