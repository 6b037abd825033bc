import type { PartStock } from '../../../electron/api/views.ts';
import type { Currency } from '../../../valuation/types.ts';
import type { CellChange, NewRow } from '../../components/data-grid/types.ts';

/** A part as it is saved: whole, new without an id. */
export interface PartDraft {
  id?: number;
  name: string;
  inStock: number;
  unit: number | null;
  currency: Currency | null;
}

const withCell = (
  draft: PartDraft,
  { columnId, value }: Omit<CellChange, 'rowId'>,
  reporting: Currency,
): PartDraft => {
  switch (columnId) {
    case 'name':
      return value === null ? draft : { ...draft, name: String(value).trim() };
    case 'inStock':
      return { ...draft, inStock: typeof value === 'number' ? value : 0 };
    case 'unit':
      return typeof value === 'number'
        ? { ...draft, unit: value, currency: draft.currency ?? reporting }
        : { ...draft, unit: null };
    default:
      return draft;
  }
};

/** The parts that an edit touches, each whole and once. */
export const partChanges = (
  parts: readonly PartStock[],
  changes: readonly CellChange[],
  reporting: Currency,
): PartDraft[] => {
  const drafts = new Map<string, PartDraft>();
  for (const change of changes) {
    const part = parts.find(({ id }) => String(id) === change.rowId);
    if (!part) continue;
    const { planned: _planned, ...kept } = part;
    drafts.set(change.rowId, withCell(drafts.get(change.rowId) ?? kept, change, reporting));
  }
  return [...drafts.values()];
};

/** A new part from the blank line; null until it has a name. */
export const newPart = (cells: NewRow, reporting: Currency): PartDraft | null => {
  const blank: PartDraft = { name: '', inStock: 0, unit: null, currency: null };
  const draft = cells.reduce((before, cell) => withCell(before, cell, reporting), blank);
  return draft.name ? draft : null;
};
