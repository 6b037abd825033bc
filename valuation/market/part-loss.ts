import type { AssumptionSet, PartState, SaleRecord } from '../types.ts';
import { type PartName, singleWheels } from '../words.ts';

type Losses = AssumptionSet['partLoss'];
/** However many parts are gone, this share of the price is left: the wreck still has its body. */
const leastShare = 0.05;

const keep = (loss: number | undefined): number => Math.max(leastShare, 1 - (loss ?? 0));

/**
 * Log of the share of the price that is left by a car's missing parts, reproductions and period replacements:
 * Σ ln(1 − loss of the part), never under ln 0.05. A part named twice counts once, as the first time.
 */
export const partsLog = (parts: readonly PartState[], losses: Losses): number => {
  let log = 0;
  const seen = new Set<PartName>();
  // What is said of all four wheels is not taken again for one.
  if (parts.some(({ part, originality }) => part === 'wheels' && originality !== 'original'))
    for (const wheel of singleWheels) seen.add(wheel);
  for (const { part, originality } of parts) {
    if (seen.has(part)) continue;
    seen.add(part);
    const loss = losses[part];
    if (originality === 'missing') log += Math.log(keep(loss?.missing));
    else if (originality === 'reproduction') log += Math.log(keep(loss?.reproduction));
    else if (originality === 'period replacement') log += Math.log(keep(loss?.periodReplacement));
  }
  return Math.max(Math.log(leastShare), log);
};

/** The same for a sale record's lists of missing and reproduction parts; a part in both counts as missing. */
export const recordPartsLog = (record: SaleRecord, losses: Losses): number => {
  if (record.missingParts.length === 0 && record.reproductionParts.length === 0) return 0;
  const state = (part: PartName, originality: PartState['originality']): PartState => ({
    part,
    grade: null,
    originality,
  });
  return partsLog(
    [
      ...record.missingParts.map(part => state(part, 'missing')),
      ...record.reproductionParts.map(part => state(part, 'reproduction')),
    ],
    losses,
  );
};
