import { tile } from './clipboard.ts';
import type { Box } from './cursor.ts';
import { cellText, isEditable, parseCell } from './parse-cell.ts';
import type { CellChange, GridColumn, NewRow } from './types.ts';

/** What is to be written, and the sentences about what was left out. */
export interface ChangePlan {
  changes: CellChange[];
  added: NewRow[];
  problems: string[];
}

/** Rows in their places, of which a list that is read in windows has only some, and the columns. */
export interface GridContent<Row> {
  rows: readonly Row[];
  columns: readonly GridColumn<Row>[];
  getRowId: (row: Row) => string;
}

const nothing = (): ChangePlan => ({ changes: [], added: [], problems: [] });

/** Writes the text of one cell into the plan; a text that says what the cell says already changes nothing. */
const write = <Row>(
  { rows, columns, getRowId }: GridContent<Row>,
  plan: ChangePlan,
  { row, column, text }: { row: number; column: number; text: string },
) => {
  const target = rows[row];
  const definition = columns[column];
  if (target === undefined || !definition || cellText(definition, target) === text.trim()) return;
  if (!isEditable(definition, target)) {
    plan.problems.push(`Row ${row + 1}: ${definition.title} cannot be edited`);
    return;
  }
  const outcome = parseCell(definition, text, target);
  if ('problem' in outcome) plan.problems.push(`Row ${row + 1}, ${definition.title}: ${outcome.problem}`);
  else plan.changes.push({ rowId: getRowId(target), columnId: definition.id, ...outcome });
};

/** Copies the range's first row down over the rest of it; a range of one row takes the row above it. */
export const planFillDown = <Row>(content: GridContent<Row>, box: Box): ChangePlan => {
  const plan = nothing();
  const source = box.top === box.bottom ? box.top - 1 : box.top;
  const from = content.rows[source];
  if (from === undefined) return plan;
  for (let column = box.left; column <= box.right; column += 1) {
    const definition = content.columns[column];
    if (!definition?.editor) continue;
    const text = cellText(definition, from);
    for (let row = source + 1; row <= box.bottom; row += 1) write(content, plan, { row, column, text });
  }
  return plan;
};

/** Empties the range's cells that can be edited; the others stay without a word. */
export const planClear = <Row>(content: GridContent<Row>, box: Box): ChangePlan => {
  const plan = nothing();
  for (let row = box.top; row <= box.bottom; row += 1)
    for (let column = box.left; column <= box.right; column += 1) {
      const definition = content.columns[column];
      const target = content.rows[row];
      if (definition && target !== undefined && isEditable(definition, target))
        write(content, plan, { row, column, text: '' });
    }
  return plan;
};

/** A pasted row that lies beyond the last one, as a new row. */
const newRow = <Row>(
  { rows, columns }: GridContent<Row>,
  plan: ChangePlan,
  { row, left, texts }: { row: number; left: number; texts: readonly string[] },
): NewRow => {
  const cells: NewRow = [];
  texts.forEach((text, offset) => {
    const definition = columns[left + offset];
    if (!definition || text.trim() === '' || !isEditable(definition, null)) return;
    const outcome = parseCell(definition, text, null);
    if ('problem' in outcome)
      plan.problems.push(`New row ${row - rows.length + 1}, ${definition.title}: ${outcome.problem}`);
    else cells.push({ columnId: definition.id, ...outcome });
  });
  return cells;
};

/**
 * Lays copied cells over the grid from the range's top left corner, repeated where they fit a larger range
 * evenly. Rows beyond the last become new ones where `append` allows; columns beyond the last are left out,
 * and that is said.
 */
export const planPaste = <Row>(
  content: GridContent<Row>,
  box: Box,
  copied: readonly (readonly string[])[],
  append: boolean,
): ChangePlan => {
  const plan = nothing();
  const cells = tile(copied, box.bottom - box.top + 1, box.right - box.left + 1);
  const room = content.columns.length - box.left;
  let beyond = 0;
  cells.forEach((texts, offset) => {
    const row = box.top + offset;
    const fitting = texts.slice(0, room);
    if (texts.slice(room).some(text => text.trim() !== '')) beyond += 1;
    if (row < content.rows.length) {
      fitting.forEach((text, column) => {
        write(content, plan, { row, column: box.left + column, text });
      });
    } else if (append) {
      const added = newRow(content, plan, { row, left: box.left, texts: fitting });
      if (added.length > 0) plan.added.push(added);
    } else if (fitting.some(text => text.trim() !== ''))
      plan.problems.push(`Row ${row + 1} does not exist here`);
  });
  if (beyond > 0)
    plan.problems.push(`${beyond === 1 ? 'A row reaches' : `${beyond} rows reach`} beyond the last column`);
  return plan;
};

/** The range as texts, for the clipboard. */
export const copyBox = <Row>({ rows, columns }: GridContent<Row>, box: Box): string[][] =>
  rows
    .slice(box.top, box.bottom + 1)
    .map(row => columns.slice(box.left, box.right + 1).map(column => cellText(column, row)));
