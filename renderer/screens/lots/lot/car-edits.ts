import type { CarPatch, CarRow } from '../../../../electron/api/views.ts';
import { readGrade } from '../../../../valuation/reading/words.ts';
import { finishStates } from '../../../../valuation/words.ts';
import type { CellChange, CellValue, NewRow, ParsedCell } from '../../../components/data-grid/types.ts';

type Cell = Omit<CellChange, 'rowId'>;

/** Columns whose text is matched against the reference, by our import columns. */
export const writtenColumns = {
  casting: 'casting',
  release: 'release_name',
  colour: 'colour',
  basePaint: 'base_paint',
  rearEnd: 'rear_end',
} as const;

const asText = (value: CellValue): string => (value === null ? '' : String(value));

const castingPatch = ({ value, choice }: Cell): CarPatch => {
  if (value === null) return { castingId: null, variationId: null, asWritten: { casting: '' } };
  const [kind, id] = choice?.value.split(':') ?? [];
  if (kind === 'variation') return { variationId: Number(id) };
  if (kind === 'casting') return { castingId: Number(id) };
  return { asWritten: { casting: asText(value) } };
};

/**
 * What one edited cell changes of its car; null for a cell that is no part of the car itself,
 * such as its share.
 */
export const patchOf = (cell: Cell): CarPatch | null => {
  const text = asText(cell.value);
  switch (cell.columnId) {
    case 'number':
      return text ? { inventoryNumber: text } : null;
    case 'casting':
      return castingPatch(cell);
    case 'release':
    case 'colour':
    case 'basePaint':
    case 'rearEnd':
      return { asWritten: { [writtenColumns[cell.columnId]]: text } };
    case 'grade':
      return { grade: typeof cell.value === 'number' ? cell.value : null };
    case 'finishState':
      return { finishState: finishStates.find(state => state === text) ?? 'original' };
    case 'location':
      return { location: text };
    case 'notes':
      return { notes: text };
    default:
      return null;
  }
};

const merged = (patches: (CarPatch | null)[]): CarPatch | null => {
  let whole: CarPatch | null = null as CarPatch | null;
  for (const patch of patches) {
    if (!patch) continue;
    const asWritten: Record<string, string> = { ...whole?.asWritten, ...patch.asWritten };
    whole = { ...whole, ...patch, ...(Object.keys(asWritten).length > 0 && { asWritten }) };
  }
  return whole;
};

/** One patch for each car that an edit, a fill or a paste touches, in the grid's order. */
export const carChanges = (changes: readonly CellChange[]): { id: number; patch: CarPatch }[] => {
  const byCar = new Map<string, CellChange[]>();
  for (const change of changes) byCar.set(change.rowId, [...(byCar.get(change.rowId) ?? []), change]);
  return [...byCar].flatMap(([rowId, cells]) => {
    const patch = merged(cells.map(patchOf));
    return patch ? [{ id: Number(rowId), patch }] : [];
  });
};

/** Shares of the lot's cost that an edit fixes by hand, or lets be shared again (null). */
export const shareChanges = (changes: readonly CellChange[]): { carId: number; minor: number | null }[] =>
  changes.flatMap(({ rowId, columnId, value }) =>
    columnId === 'cost' ? [{ carId: Number(rowId), minor: typeof value === 'number' ? value : null }] : [],
  );

/** A new car from what was typed or pasted into the blank line. */
export const newCar = (cells: NewRow): CarPatch => merged(cells.map(patchOf)) ?? {};

/** A grade as people type it: "7", "C7.5", "7,5", "7/10". */
export const parseGradeText = (text: string): ParsedCell => {
  const grade = readGrade(text);
  return grade.ok ? { value: grade.value } : { problem: grade.reason };
};

/** What stands in a cell that the reference fills, or else what the owner wrote. */
export const featureText = (row: CarRow, feature: 'colour' | 'basePaint' | 'rearEnd'): string =>
  row.features[feature] || row.asWritten[writtenColumns[feature]] || '';

export const castingText = (row: CarRow): string => row.casting ?? row.asWritten.casting ?? '';
export const releaseText = (row: CarRow): string => row.releaseName ?? row.asWritten.release_name ?? '';
