/**
 * Puts rows into the order that their ids had before; rows that are new come last, in the order in which they
 * are given. So an edit never makes a row jump: only sorting again does.
 */
export const keepOrder = <Row>(
  rows: readonly Row[],
  order: ReadonlyMap<string, number>,
  getRowId: (row: Row) => string,
): readonly Row[] => {
  const known: { row: Row; place: number }[] = [];
  const fresh: Row[] = [];
  for (const row of rows) {
    const place = order.get(getRowId(row));
    if (place === undefined) fresh.push(row);
    else known.push({ row, place });
  }
  return [...known.sort((a, b) => a.place - b.place).map(({ row }) => row), ...fresh];
};

export const orderOf = <Row>(rows: readonly Row[], getRowId: (row: Row) => string): Map<string, number> =>
  new Map(rows.map((row, index) => [getRowId(row), index]));

/** Adds the new rows at the end and forgets none: a row that a filter hides comes back where it was. */
export const extendOrder = <Row>(
  order: ReadonlyMap<string, number>,
  rows: readonly Row[],
  getRowId: (row: Row) => string,
): Map<string, number> => {
  const longer = new Map(order);
  for (const row of rows) {
    const id = getRowId(row);
    if (!longer.has(id)) longer.set(id, longer.size);
  }
  return longer;
};

const collator = new Intl.Collator(undefined, { numeric: true, sensitivity: 'base' });

/** Numbers by size, texts as a reader sorts them ("9" before "10"); a number comes before a text. */
export const compareCells = (a: unknown, b: unknown): number => {
  if (typeof a === 'number' && typeof b === 'number') return a - b;
  if (typeof a === 'number') return -1;
  if (typeof b === 'number') return 1;
  return collator.compare(String(a), String(b));
};
