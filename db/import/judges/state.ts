import type { Cell, Reading } from '../../../valuation/reading/reading.ts';
import { readGrade } from '../../../valuation/reading/words.ts';
import { type FinishState, gradeLabel, type PartName } from '../../../valuation/words.ts';
import type { PartSaid } from '../../records/cars-write.ts';
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

/** What a text says of the packaging that a car comes with and of its metal, as parts of a check. */
export const partsSaid = (row: RowReader): PartSaid[] => {
  const packaging = row.takeText('packaging');
  const metal = row.takeText('metal', 2000);
  const read = readGrade(row.text('packaging_grade') || null);
  const grade = packaging !== '' && read.ok ? read.value : null;
  if (grade !== null) row.fields.packaging_grade = grade;
  const isReproduction = packaging.startsWith('reproduction');
  return [
    ...(packaging === ''
      ? []
      : [
          {
            part: 'packaging' as const,
            grade,
            originality: isReproduction ? ('reproduction' as const) : ('original' as const),
            note: packaging.replace(/^reproduction /, ''),
          },
        ]),
    ...(metal === ''
      ? []
      : [{ part: 'casting metal' as const, grade: null, originality: 'original' as const, note: metal }]),
  ];
};

/** The same in words, for a record that has no parts. */
export const partsInWords = (parts: readonly PartSaid[]): string[] =>
  parts.map(({ part, grade, originality, note }) =>
    [`${part}:`, originality === 'original' ? '' : originality, note, grade === null ? '' : gradeLabel(grade)]
      .filter(Boolean)
      .join(' '),
  );
