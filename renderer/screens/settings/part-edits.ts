import type { PartStock } from '../../../electron/api/views.ts';
import type { Currency } from '../../../valuation/types.ts';
import { type Grade, isGrade, type Originality, originalities, partNames } from '../../../valuation/words.ts';
import type { CellChange, NewRow } from '../../components/data-grid/types.ts';
import { pickedCasting } from '../../components/inputs/casting-choices.tsx';

/** A part as it is saved: whole, new without an id. */
export interface PartDraft {
  id?: number;
  name: string;
  inStock: number;
  unit: number | null;
  currency: Currency | null;
  part?: PartStock['part'];
  originality?: PartStock['originality'];
  grade?: Grade | null;
  castingId?: number | null;
  donorCarId?: number | null;
}

/** Where a part that can be fitted may come from. */
export const fittable = originalities.filter(
  (one): one is Exclude<Originality, 'missing'> => one !== 'missing',
);

const withCell = (
  draft: PartDraft,
  { columnId, value, choice }: Omit<CellChange, 'rowId'>,
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
    case 'part':
      return { ...draft, part: partNames.find(part => part === value) ?? '' };
    case 'originality':
      return { ...draft, originality: fittable.find(one => one === value) ?? '' };
    case 'grade':
      return { ...draft, grade: isGrade(value) ? value : null };
    case 'casting':
      return { ...draft, castingId: pickedCasting(choice)?.castingId ?? null };
    case 'donor':
      return { ...draft, donorCarId: choice === null ? null : Number(choice.value) };
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
    const { planned: _planned, casting: _casting, donorNumber: _donor, ...kept } = part;
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
