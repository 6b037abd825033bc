import type { Grade } from '../words.ts';
import { notUnderstood, type Reading, understood } from './reading.ts';

/** How a list gives condition, where it is not C1 to C10: the figure of the best and of the worst car. */
export interface GradeScale {
  best: number;
  worst: number;
}

const wholeOf = (best: number): GradeScale => ({ best, worst: 0 });

/** The scales that a list can have, as their owner says them: "5 stars", "100", "school marks 1 best". */
export const gradeScaleExamples = ['5 stars', '100 %', '20', 'school marks, 1 is best'] as const;

/**
 * A scale as its owner says it. "5 stars", "of 20" and "100 %" count up to the best; "school marks" (or "1
 * best") run from 1, the best, to 6, or to the other figure that is named.
 */
export const readGradeScale = (text: string): Reading<GradeScale> => {
  const said = text.toLowerCase().trim();
  const figures = [...said.matchAll(/\d+/g)].map(([figure]) => Number(figure));
  if (/school|mark|note|1 (is )?(the )?best|best (is )?1\b/.test(said)) {
    const worst = figures.find(figure => figure > 1) ?? 6;
    return worst >= 3 && worst <= 10
      ? understood({ best: 1, worst })
      : notUnderstood(`"${text}" is not a scale of marks`);
  }
  if (/^(%|percent|per cent)$/.test(said)) return understood(wholeOf(100));
  const [best, other] = figures;
  return best !== undefined && other === undefined && [3, 4, 5, 6, 10, 20, 100].includes(best)
    ? understood(wholeOf(best))
    : notUnderstood(`"${text}" is not a scale; write one such as ${gradeScaleExamples.join(', ')}`);
};

/** True of a grade that says by itself that it is from C1 to C10: "C7", "7/10". */
export const isOwnGrade = (text: string): boolean => /^c ?\.?\d|\/ ?10$/i.test(text.trim());

const figureOf = (text: string): number | null => {
  const stars = /^([★*⭐]+)\ufe0f?([½☆]*)$/u.exec(text.replaceAll('\ufe0f', ''));
  if (stars) return [...(stars[1] ?? '')].length + (stars[2]?.includes('½') ? 0.5 : 0);
  const match = /^(\d{1,3}(?:[.,]\d)?)(½)?(?: ?%| ?stars?| ?\/ ?\d{1,3})?$/.exec(text);
  return match ? Number(match[1]?.replace(',', '.')) + (match[2] ? 0.5 : 0) : null;
};

/**
 * A text on its list's scale as a grade: in proportion, to the nearest half point, and no lower than C1. A
 * plus or minus on a school mark is a third of a mark.
 */
export const readOnScale = (text: string, { best, worst }: GradeScale): Reading<Grade> => {
  const trimmed = text.trim();
  const isMark = best < worst;
  const sign = isMark ? (/[+-]$/.exec(trimmed)?.[0] ?? '') : '';
  const figure = figureOf(sign ? trimmed.slice(0, -1).trim() : trimmed);
  const off = sign === '+' ? -1 / 3 : sign === '-' ? 1 / 3 : 0;
  const lowest = Math.min(best, worst);
  const highest = Math.max(best, worst);
  if (figure === null || figure < lowest || figure > highest)
    return notUnderstood(`"${text}" is not on the scale that you chose for this column`);
  const from = Math.min(highest, Math.max(lowest, figure + off));
  const share = (from - worst) / (best - worst);
  const points = isMark ? 1 + share * 9 : share * 10;
  return understood(Math.max(1, Math.round(points * 2) / 2));
};
