/**
 * Cells as spreadsheets put them on the clipboard: tabs between, a line per row, quoted where a
 * cell holds either.
 */
export const toTsv = (cells: readonly (readonly string[])[]): string =>
  cells
    .map(row =>
      row.map(cell => (/[\t\n\r"]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)).join('\t'),
    )
    .join('\n');

/** Reads what `toTsv` and spreadsheets write; the line end after the last row is no row. */
export const fromTsv = (text: string): string[][] => {
  const rows: string[][] = [];
  let row: string[] = [];
  let at = 0;
  const clean = text.replaceAll('\u0000', '');
  const end = clean.length;
  while (at <= end) {
    let cell = '';
    if (clean[at] === '"') {
      const closing = /"(?:[^"]|"")*"(?=\t|\r|\n|$)/y;
      closing.lastIndex = at;
      const quoted = closing.exec(clean)?.[0];
      if (quoted !== undefined) {
        cell = quoted.slice(1, -1).replaceAll('""', '"');
        at += quoted.length;
      }
    }
    if (cell === '' && clean[at] !== '\t' && clean[at] !== '\n' && clean[at] !== '\r') {
      const stop = clean.slice(at).search(/[\t\r\n]/);
      const until = stop === -1 ? end : at + stop;
      cell = clean.slice(at, until);
      at = until;
    }
    row.push(cell);
    if (clean[at] === '\t') {
      at += 1;
      continue;
    }
    rows.push(row);
    row = [];
    if (at >= end) break;
    at += clean[at] === '\r' && clean[at + 1] === '\n' ? 2 : 1;
    if (at >= end) break;
  }
  return rows;
};

/**
 * Repeats copied cells over a larger range when they fit it evenly, as spreadsheets do; else leaves
 * them as they are.
 */
export const tile = (
  cells: readonly (readonly string[])[],
  rows: number,
  columns: number,
): readonly (readonly string[])[] => {
  const height = cells.length;
  const width = Math.max(0, ...cells.map(row => row.length));
  if (height === 0 || width === 0) return cells;
  const tall = rows > height && rows % height === 0 ? rows : height;
  const wide = columns > width && columns % width === 0 ? columns : width;
  if (tall === height && wide === width) return cells;
  return Array.from({ length: tall }, (_, row) =>
    Array.from({ length: wide }, (_, column) => cells[row % height]?.[column % width] ?? ''),
  );
};
