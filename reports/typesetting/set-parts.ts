import { JoinedPdf, type OutlinedHeading } from '../join/join-parts.ts';
import type { PdfStandard } from '../types.ts';
import { freeMemory } from './free-memory.ts';
import type { Typeset } from './typeset.ts';

/** How one part of a paper is to be set. */
export interface SetPart {
  standard: PdfStandard;
  /** Its first page, counted from 1 in the whole. */
  firstPage: number;
}

/**
 * Sets a paper part by part and joins the parts, so that the memory needed is that of one part and of the file; a
 * paper of one part is what that is. A part that goes on from another does not begin with the highest heading,
 * as PDF/UA-1 wants: it is held to PDF/A-2a. Where a part falls short of the standard, the whole is made without.
 */
export const setParts = async <Part extends { headings: readonly OutlinedHeading[] }>(
  parts: readonly Part[],
  standard: PdfStandard,
  setPart: (part: Part, how: SetPart) => Typeset,
): Promise<Typeset> => {
  if (parts.length === 1) return setPart(parts[0]!, { standard, firstPage: 1 });
  const joined = new JoinedPdf();
  const warnings = new Set<string>();
  const preview: string[] = [];
  let before = 0;
  for (const [place, part] of parts.entries()) {
    const own = standard === 'ua-1' && place > 0 ? 'a-2a' : standard;
    const made = setPart(part, { standard: own, firstPage: before + 1 });
    for (const warning of made.warnings) warnings.add(warning);
    if (made.standard !== own) {
      const plain = await setParts(parts, '1.7', setPart);
      return { ...plain, warnings: [...new Set([...warnings, ...plain.warnings])] };
    }
    joined.add(made.pdf, { place, firstPage: before + 1, headings: part.headings });
    // Pages are looked at from the first on without a gap.
    if (preview.length === before) preview.push(...made.preview);
    before += made.pages;
    await freeMemory();
  }
  return { pdf: joined.finish(), pages: before, preview, standard, warnings: [...warnings] };
};
