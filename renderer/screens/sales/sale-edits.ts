import type { SalePatch, SaleRow } from '../../../electron/api/views.ts';
import { readDate } from '../../../valuation/reading/date.ts';
import { readParts } from '../../../valuation/reading/words.ts';
import { finishStates, type PartName, partNames } from '../../../valuation/words.ts';
import { readGrade } from '../../components/condition/condition-draft.ts';
import type { CellChange, ParsedCell } from '../../components/data-grid/types.ts';
import { readerLocale } from '../../components/format.ts';
import { pickedCasting } from '../../components/inputs/casting-choices.tsx';
import { parseMoney, separatorsOf } from '../../components/inputs/parse-money.ts';

/** A day as it can be read only one way: "2025-03-14", "14 Mar 2025". */
export const parseDay = (text: string): ParsedCell => {
  const day = readDate(text, null, null);
  return day.ok ? { value: day.value } : { problem: day.reason };
};

export const parseGradeCell = (text: string): ParsedCell => {
  const grade = readGrade(text);
  return grade === undefined
    ? { problem: `“${text.trim()}” is not a grade from C1 to C10 in half points` }
    : { value: grade };
};

/** A price in the record's own currency. */
export const parsePrice = (text: string, currency: string): ParsedCell => {
  const parsed = parseMoney(text, currency, separatorsOf(readerLocale()));
  if ('problem' in parsed) return parsed;
  return parsed.minor === null || parsed.minor <= 0
    ? { problem: 'Enter a price of more than zero' }
    : { value: parsed.minor };
};

/** A list of parts: "wheels, glazing"; the beginning of a name will do. */
export const parseParts = (text: string): ParsedCell => {
  const parts = readParts(text);
  return parts.ok ? { value: parts.value.join(', ') } : { problem: parts.reason };
};

const partsIn = (text: string): PartName[] =>
  partNames.filter(part => text.split(', ').some(word => word === part));

/**
 * What one edited cell changes of its record; null where the cell cannot be left empty or is no part of it.
 */
const salePatchOf = ({ columnId, value, choice }: Omit<CellChange, 'rowId'>): SalePatch | null => {
  const text = value === null ? '' : String(value);
  switch (columnId) {
    case 'soldOn':
      return text ? { soldOn: text } : null;
    case 'price':
      return typeof value === 'number' ? { price: value } : null;
    case 'currency':
      return text ? { currency: text } : null;
    case 'casting':
      return pickedCasting(choice);
    case 'variation':
      return { variationId: choice ? Number(choice.value) : null };
    case 'grade':
      return { grade: typeof value === 'number' ? value : null };
    case 'finishState':
      return { finishState: finishStates.find(state => state === text) ?? 'original' };
    case 'missingParts':
      return { missingParts: partsIn(text) };
    case 'reproductionParts':
      return { reproductionParts: partsIn(text) };
    case 'source':
      return { source: text };
    case 'reference':
      return { reference: text };
    default:
      return null;
  }
};

/** The patches of an edit, a fill or a paste, in the grid's order. */
export const saleChanges = (changes: readonly CellChange[]): { id: number; patch: SalePatch }[] =>
  changes.flatMap(change => {
    const patch = salePatchOf(change);
    return patch ? [{ id: Number(change.rowId), patch }] : [];
  });

export const partsText = (parts: readonly string[]): string => parts.join(', ');

/** The record in a few words, for those who hear it and for notices. */
export const saleName = (row: SaleRow): string => [row.casting, row.variation].filter(Boolean).join(', ');
