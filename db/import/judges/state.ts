import type { Cell, Reading } from '../../../valuation/reading/reading.ts';
import type { FinishState, PartName } from '../../../valuation/words.ts';
import type { RowReader } from './judge.ts';

const yes = /^(?:yes|y|x|ja|j|oui|si|✓|true)$/i;
const questions: [RegExp, FinishState][] = [
  [/^orig/i, 'original'],
  [/^restor/i, 'restored'],
];

/** A finish with a remark in brackets, such as "restored (me)": the remark stays with the notes. */
export const takeFinish = (
  row: RowReader,
  finishOf: (cell: Cell) => Reading<FinishState>,
): FinishState | null => {
  const text = row.text('finish_state');
  const outside = text.replace(/ *\([^()]*\)/, '').trim();
  if (outside !== '' && outside !== text && finishOf(outside).ok) {
    row.notes.push(`"${text}" is read as ${outside}`);
    row.replace('finish_state', outside);
  }
  // Under "Original?" a yes says so; a no leaves open what it is instead.
  const heading = row.heading('finish_state');
  if (yes.test(row.text('finish_state')))
    for (const [asked, state] of questions) if (asked.test(heading)) row.replace('finish_state', state);
  return row.take('finish_state', finishOf);
};

/** Parts by their names, kept among what was understood with commas between them. */
export const takeParts = (
  row: RowReader,
  column: string,
  partsOf: (cell: Cell) => Reading<PartName[]>,
): PartName[] => {
  const parts = row.read(column, partsOf) ?? [];
  if (parts.length > 0) row.fields[column] = parts.join(',');
  return parts;
};
