import type { Choice } from '../inputs/choices.ts';
import { matchChoice } from '../inputs/choices.ts';
import type { CellValue, GridColumn } from './types.ts';

export type CellOutcome = { value: CellValue; choice: Choice | null } | { problem: string };

/** What a cell shows as text, and what is copied from it. */
export const cellText = <Row>(column: GridColumn<Row>, row: Row): string => {
  if (column.text) return column.text(row);
  const value = column.value(row);
  return value === null ? '' : String(value);
};

export const isEditable = <Row>(column: GridColumn<Row>, row: Row | null): boolean =>
  column.editor !== undefined && (row === null || (column.editable?.(row) ?? true));

const plainNumber = (text: string): CellOutcome => {
  const number = Number(text.replace(',', '.'));
  return Number.isFinite(number) ? { value: number, choice: null } : { problem: `“${text}” is not a number` };
};

/**
 * Reads a text typed or pasted into a cell. Empty clears it; what cannot be read is refused with a sentence.
 */
export const parseCell = <Row>(column: GridColumn<Row>, raw: string, row: Row | null): CellOutcome => {
  const { editor } = column;
  const text = column.means?.(raw.trim()) ?? raw.trim();
  if (!editor) return { problem: `${column.title} cannot be edited` };
  if (text === '') return { value: null, choice: null };
  switch (editor.kind) {
    case 'text': {
      const parsed = editor.parse?.(text, row) ?? { value: text };
      return 'problem' in parsed ? parsed : { value: parsed.value, choice: null };
    }
    case 'number': {
      if (!editor.parse) return plainNumber(text);
      const parsed = editor.parse(text, row);
      return 'problem' in parsed ? parsed : { value: parsed.value, choice: null };
    }
    case 'select': {
      const choice = matchChoice(editor.choices, text);
      if (choice) return { value: choice.value, choice };
      return { problem: `“${text}” is none of: ${editor.choices.map(({ label }) => label).join(', ')}` };
    }
    case 'type-ahead': {
      const source = editor.choices(row);
      const choice = typeof source === 'function' ? null : matchChoice(source, text);
      if (choice) return { value: choice.value, choice };
      return editor.freeText ? { value: text, choice: null } : { problem: `“${text}” is not known here` };
    }
  }
};
