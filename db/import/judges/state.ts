import { readPartState, readPartStates } from '../../../valuation/reading/part-states.ts';
import type { Cell, Reading } from '../../../valuation/reading/reading.ts';
import { readGrade } from '../../../valuation/reading/words.ts';
import { saysNo, saysYes } from '../../../valuation/reading/yes-no.ts';
import { partStatesText } from '../../../valuation/wording/cars/part-states-text.ts';
import { type FinishState, gradeLabel, type PartName } from '../../../valuation/words.ts';
import type { PartSaid } from '../../records/cars/cars-write.ts';
import { partColumns } from '../columns.ts';
import type { RowReader } from './judge.ts';

const questions: [RegExp, FinishState][] = [
  [/^orig/i, 'original'],
  [/^(?:restor|restaur|gerestaur)/i, 'restored'],
];

/** Of a heading that asks what was done to a car. */
const isOfWork =
  /^(?:restor|restaur|gerestaur|renover|repaint|re-?spray|been painted|painted|nachlackiert|repeint|repintad|rivernic|odnow)/i;

/** A finish with a remark in brackets, such as "restored (me)": the remark stays with the notes. */
const finishSaid = (row: RowReader, finishOf: (cell: Cell) => Reading<FinishState>): FinishState | null => {
  const text = row.text('finish_state');
  if (text === '') return null;
  const outside = text.includes('(') ? text.replace(/ *\([^()]*\)/, '').trim() : text;
  if (outside !== '' && outside !== text && finishOf(outside).ok) {
    row.notes.push(`"${text}" is read as ${outside}`);
    row.replace('finish_state', outside);
  }
  // Under "Original?" a yes says so; a no leaves open what it is instead.
  const heading = row.heading('finish_state');
  if (saysYes(row.text('finish_state')))
    for (const [asked, state] of questions) if (asked.test(heading)) row.replace('finish_state', state);
  // Neither restored nor painted again is what any car is of which nothing is said.
  if (saysNo(row.text('finish_state')) && isOfWork.test(heading)) return null;
  return row.take('finish_state', finishOf);
};

/** The finish as it is said, and as a column of its own says whether the paint is the original one. */
export const takeFinish = (
  row: RowReader,
  finishOf: (cell: Cell) => Reading<FinishState>,
): FinishState | null => {
  const finish = finishSaid(row, finishOf);
  const paint = row.text('is_original_paint');
  if (paint === '') return finish;
  const isOriginal = finish === null || finish === 'original';
  const ask = (reason: string) =>
    row.miss('is_original_paint', `"${paint}" ${reason}`, paint, 'finish_state');
  if (!saysYes(paint) && !saysNo(paint)) ask('is neither yes nor no');
  else if (saysYes(paint) && !isOriginal) ask(`is said of the paint, and the car is said to be ${finish}`);
  else if (saysNo(paint) && isOriginal)
    ask('is said of the original paint, and what was done to it is not said');
  else if (finish === null) row.fields.finish_state = 'original';
  return finish ?? (saysYes(paint) ? 'original' : null);
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

/** What a cell or remark says of one part, kept as it is written beside what it means. */
const partSaid = (row: RowReader, column: string, part: PartName): PartSaid | null => {
  const said = row.read(column, cell => readPartState(part, cell)) ?? null;
  if (said) row.fields[column] = row.text(column);
  return said;
};

/** The packaging that a car comes with, and its own grade. */
const packagingSaid = (row: RowReader): PartSaid | null => {
  const said = partSaid(row, 'packaging', 'packaging');
  const read = row.has('packaging_grade') ? row.take('packaging_grade', readGrade) : null;
  const grade = read ?? said?.grade ?? null;
  if (said) return { ...said, grade };
  return grade !== null && !row.has('packaging')
    ? { part: 'packaging', grade, originality: 'original', note: '' }
    : null;
};

const columnsOfParts = Object.entries(partColumns);
const partsToldIn = ['parts', 'metal', 'packaging', 'packaging_grade', ...Object.keys(partColumns)];

/** What a row or a text says of parts as they are, of the packaging and of the metal too. */
export const partsSaid = (row: RowReader): PartSaid[] => {
  if (!row.mayHave(partsToldIn)) return [];
  const found = new Map<PartName, PartSaid>();
  for (const said of row.read('parts', readPartStates) ?? []) found.set(said.part, said);
  if (found.size > 0) row.fields.parts = partStatesText([...found.values()]);
  // What remarks say of them stands behind what the list itself says.
  const beside = (part: PartName, said: PartSaid | null) => {
    if (said && !found.has(part)) found.set(part, said);
  };
  beside('casting metal', partSaid(row, 'metal', 'casting metal'));
  beside('packaging', packagingSaid(row));
  for (const [column, part] of columnsOfParts) {
    const said = partSaid(row, column, part);
    if (said) found.set(part, said);
  }
  return [...found.values()];
};

/** The same in words, for a record that has no parts. */
export const partsInWords = (parts: readonly PartSaid[]): string[] =>
  parts.map(({ part, grade, originality, note }) =>
    [`${part}:`, originality === 'original' ? '' : originality, note, grade === null ? '' : gradeLabel(grade)]
      .filter(Boolean)
      .join(' '),
  );
