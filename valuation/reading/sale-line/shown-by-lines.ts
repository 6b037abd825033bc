import { bareGradeIn } from './grade.ts';
import type { SaleLine } from './read-sale-line.ts';
import { fold } from './text.ts';

/** What the lines of a text show of each other. */
export interface ShownByLines {
  /** Figures that stand alone are grades. */
  bareGrades: boolean;
  /** Places that some line or an older record names as such. */
  places: string[];
  /** True of a line that is read otherwise by what the others show. */
  concerns(line: SaleLine): boolean;
}

const fewest = 3;

/**
 * What the lines of a text show of each other: that a figure standing alone is a grade, where three at least
 * have one, the largest is from 5 to 10, and some line says by itself that it grades from C1 to C10 or a
 * figure is a half; and which texts are places, since another line says "at" before them. `known` are places
 * of older records.
 */
export const shownByLines = (lines: readonly SaleLine[], known: readonly string[]): ShownByLines => {
  const bareOf = ({ fields, unread, not }: SaleLine): number | null =>
    fields.grade !== undefined || not === 'lot' || not === 'not a car'
      ? null
      : bareGradeIn(unread.map(({ text }) => text));
  const bare = lines.flatMap(line => bareOf(line) ?? []);
  const hasHalf = bare.some(figure => !Number.isInteger(figure));
  const hasGrade = lines.some(({ fields }) => fields.grade !== undefined);
  const bareGrades = bare.length >= fewest && Math.max(...bare) > 5 && (hasHalf || hasGrade);
  const places = [...new Set([...known, ...lines.flatMap(({ fields }) => fields.source?.trim() || [])])];
  const folded = new Set(places.map(place => fold(place).trim()));
  return {
    bareGrades,
    places,
    concerns: line =>
      (bareGrades && bareOf(line) !== null) ||
      (line.fields.source === undefined && line.unread.some(({ text }) => folded.has(fold(text).trim()))),
  };
};
