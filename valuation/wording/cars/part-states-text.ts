import type { PartState } from '../../types.ts';
import { gradeLabel } from '../../words.ts';

/** What a list says of a car's parts, one after the other: "axles: C3; wheels: C8, reproduction; packaging: C6, blister card". */
export const partStatesText = (parts: readonly (PartState & { note?: string })[]): string =>
  parts
    .flatMap(({ part, grade, originality, note = '' }) => {
      const said = [
        grade === null ? '' : gradeLabel(grade),
        // With nothing else to say it says that the part is its own.
        originality === 'original' && (grade !== null || note.trim() !== '') ? '' : originality,
        note.trim().replace(/\s*[;\n]\s*/g, ', '),
      ];
      return [`${part}: ${said.filter(Boolean).join(', ')}`];
    })
    .join('; ');
