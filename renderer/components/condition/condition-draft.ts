import type { ConditionCheckView } from '../../../electron/api/views.ts';
import { readGrade as readGradeCell } from '../../../valuation/reading/words.ts';
import type { IsoDate } from '../../../valuation/types.ts';
import {
  type Grade,
  gradeLabel,
  type Originality,
  type PartName,
  partNames,
} from '../../../valuation/words.ts';

export interface PartDraft {
  part: PartName;
  /** As typed; empty where the part is not graded. */
  grade: string;
  originality: Originality;
  note: string;
}

export interface ConditionDraft {
  overall: string;
  notes: string;
  parts: PartDraft[];
}

/** The grade in a text such as "7", "C7.5" or "7,5"; null where it is empty, undefined where it is none. */
export const readGrade = (text: string): Grade | null | undefined => {
  if (/^c?$/i.test(text.trim())) return null;
  const grade = readGradeCell(text);
  return grade.ok ? grade.value : undefined;
};

export const gradeText = (grade: Grade | null): string => (grade === null ? '' : gradeLabel(grade));

/** The check that counts: the one made last. */
export const newestCheck = (checks: readonly ConditionCheckView[]): ConditionCheckView | null =>
  checks.reduce<ConditionCheckView | null>(
    (newest, check) =>
      newest === null ||
      check.checkedOn > newest.checkedOn ||
      (check.checkedOn === newest.checkedOn && check.id > newest.id)
        ? check
        : newest,
    null,
  );

/** What the editor begins with: the newest check, the given parts in their order. */
export const draftOfCheck = (
  check: ConditionCheckView | null,
  grade: Grade | null,
  parts: readonly PartName[] = partNames,
): ConditionDraft => ({
  overall: gradeText(grade),
  notes: check?.notes ?? '',
  parts: parts.map(part => {
    const known = check?.parts.find(state => state.part === part);
    return {
      part,
      grade: gradeText(known?.grade ?? null),
      originality: known?.originality ?? 'original',
      note: known?.note ?? '',
    };
  }),
});

/** With every part that there is, those that are there as they stand. */
export const withAllParts = (draft: ConditionDraft): ConditionDraft => ({
  ...draft,
  parts: partNames.map(
    part =>
      draft.parts.find(known => known.part === part) ?? {
        part,
        grade: '',
        originality: 'original',
        note: '',
      },
  ),
});

/** True where every grade that is typed can be read. */
export const isReadable = (draft: ConditionDraft): boolean =>
  [draft.overall, ...draft.parts.map(part => part.grade)].every(text => readGrade(text) !== undefined);

/**
 * What `cars.saveCheck` takes. A check made today is changed, any older one stays and a new one is made
 * beside it. Parts about which nothing is said, now or before, are left out.
 */
export const checkInput = (
  carId: number,
  draft: ConditionDraft,
  before: ConditionCheckView | null,
  today: IsoDate,
) => ({
  carId,
  checkId: before?.checkedOn === today ? before.id : null,
  checkedOn: today,
  grade: readGrade(draft.overall) ?? null,
  notes: draft.notes,
  parts: draft.parts.flatMap(({ part, grade, originality, note }) => {
    const said = grade.trim() !== '' || originality !== 'original' || note.trim() !== '';
    if (!said && !before?.parts.some(state => state.part === part)) return [];
    return [
      {
        part,
        grade: originality === 'missing' ? null : (readGrade(grade) ?? null),
        originality,
        note: note.trim(),
      },
    ];
  }),
});

const letters: Record<string, Originality> = {
  o: 'original',
  p: 'period replacement',
  r: 'reproduction',
  m: 'missing',
};

/** The originality that a letter stands for: O, P, R or M. */
export const originalityOfKey = (key: string): Originality | null => letters[key.toLowerCase()] ?? null;
