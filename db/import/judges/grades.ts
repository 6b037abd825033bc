import { isOwnGrade, readOnScale } from '../../../valuation/reading/grade-scale.ts';
import { isAboutFinish } from '../../../valuation/reading/propose.ts';
import { type Cell, notUnderstood, type Reading } from '../../../valuation/reading/reading.ts';
import { readGrade } from '../../../valuation/reading/words.ts';
import type { Grade } from '../../../valuation/words.ts';
import type { Habits, RowReader } from './judge.ts';
import { remembered } from './remembered.ts';

/** A grade with a remark in brackets that names no other figure, as "C7 (repaint)". */
const withRemark = /^([^()]+?) *\(([^()\d]*\p{L}[^()\d]*)\)$/u;

/**
 * Reads the grades of a file: C1 to C10 where they are written so, else on the scale that was said
 * for their column.
 */
export const gradeReader = ({ scale }: Habits): ((row: RowReader) => Grade | null) => {
  const said = remembered(readGrade);
  const bare = remembered((cell: Cell): Reading<Grade> => {
    const text = String(cell ?? '').trim();
    if (scale === null || isOwnGrade(text) || cell instanceof Date) return readGrade(cell);
    if (scale !== 'asked') return readOnScale(text, scale);
    const grade = readGrade(cell);
    return grade.ok
      ? notUnderstood(
          `whether "${text}" is of 10, of 5 or a school mark is not known; say the scale of the column`,
        )
      : grade;
  });
  const isScaled = scale !== null && scale !== 'asked';
  return row => {
    if (row.isSaid('grade')) return row.take('grade', said);
    const beside = scale === null ? withRemark.exec(row.text('grade')) : null;
    if (beside) {
      const [, text = '', remark = ''] = beside;
      const read = readGrade(text);
      if (read.ok) {
        row.fields.grade = read.value;
        const field = isAboutFinish(remark) && !row.tellsFinish ? 'finish_state' : '';
        row.miss('grade', `"${remark}" is said beside the grade, and not understood`, remark, field);
        return read.value;
      }
    }
    const grade = row.take('grade', bare);
    if (grade !== null && isScaled && !isOwnGrade(row.text('grade'))) row.hearScale(grade);
    return grade;
  };
};
