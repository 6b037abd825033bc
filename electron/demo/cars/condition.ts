import type { FinishState, Grade, Originality, PartName } from '../../../valuation/words.ts';
import type { Random } from '../random.ts';
import { partNote } from './part-notes.ts';

export interface DemoPart {
  part: PartName;
  grade: Grade | null;
  originality: Originality;
  note: string;
}

/** A car as it stood when it was looked at. */
export interface DemoCondition {
  grade: Grade;
  finishState: FinishState;
  parts: DemoPart[];
}

/** The nearest half grade between `low` and `high`. */
export const halfPoint = (value: number, low = 1, high = 10): Grade =>
  Math.min(high, Math.max(low, Math.round(value * 2) / 2));

/** How readily a part is lost in play, against the others. */
const losable: Partial<Record<PartName, number>> = {
  accessory: 2.6,
  labels: 2,
  glazing: 1,
  wheels: 0.8,
  interior: 0.35,
};

const isLost = (random: Random, part: PartName, grade: Grade): boolean =>
  random.chance(Math.max(0, 6.2 - grade) * 0.055 * (losable[part] ?? 0));

/** Parts of a car as it came, worn in keeping with its grade. */
export const arrivedParts = (
  random: Random,
  parts: readonly PartName[],
  grade: Grade,
  finishState: FinishState,
): DemoPart[] =>
  parts.map(part => {
    const renewed = renewedOriginality(random, part, finishState);
    if (renewed === 'original' && isLost(random, part, grade))
      return { part, grade: null, originality: 'missing', note: partNote(random, part, null, 'missing') };
    const worn = part === 'body finish' ? grade : grade + random.normal(0.6, 0.8);
    const own = halfPoint(renewed === 'original' ? worn : Math.max(worn, 7.5 + random.next()), 1.5, 10);
    return { part, grade: own, originality: renewed, note: partNote(random, part, own, renewed) };
  });

const renewedOriginality = (random: Random, part: PartName, finishState: FinishState): Originality => {
  if (finishState === 'restored' || finishState === 'customised') {
    if ((part === 'wheels' || part === 'labels') && random.chance(0.5)) return 'reproduction';
    if ((part === 'glazing' || part === 'accessory') && random.chance(0.35)) return 'reproduction';
    if (part === 'wheels' && random.chance(0.4)) return 'period replacement';
  }
  return (part === 'wheels' || part === 'axles') && random.chance(0.04) ? 'period replacement' : 'original';
};

/**
 * The same parts after the owner's bench job: what was lost is a reproduction, the closure shows
 * that it was opened.
 */
export const restoredParts = (random: Random, before: readonly DemoPart[], grade: Grade): DemoPart[] =>
  before.map(({ part, originality }) => {
    const after: Originality = originality === 'missing' ? 'reproduction' : originality;
    const own =
      part === 'post and rivet closure'
        ? halfPoint(grade - 2)
        : halfPoint(
            grade - (part === 'base' || part === 'interior' ? 0.5 : 0) + random.normal(0, 0.3),
            6,
            9.5,
          );
    return { part, grade: own, originality: after, note: restoredNote(part, after) };
  });

const restoredNote = (part: PartName, originality: Originality): string => {
  if (part === 'body finish') return 'Stripped, smoothed, candy lacquer over bare zinc: light, medium, wet';
  if (part === 'post and rivet closure') return 'Drilled 1.27 mm, tapped, closed with a countersunk screw';
  if (part === 'axles') return 'Straightened on the flat, original wire';
  if (originality === 'reproduction') return 'Reproduction, fitted at the bench';
  if (part === 'wheels') return 'Cleaned; plating polished through in one place';
  if (part === 'glazing') return 'Polished, one mark left alone';
  return 'Washed only';
};
