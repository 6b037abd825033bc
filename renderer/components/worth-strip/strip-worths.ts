import type { OwnRest } from '../../../electron/api/views.ts';
import type { Minor, Range } from '../../../valuation/types.ts';

/** What a strip shows: three worths in their fixed order; null where there is not enough evidence. */
export interface StripWorths {
  asFound: Range | null;
  /** Net of the cost of restoring; `gross` is the high end before that cost, drawn as the whisker. */
  restored: (Range & { gross: Minor }) | null;
  originalFinish: (Range & { attainable: boolean }) | null;
  /** What they mainly rest on, where that is no sale records. */
  restsOn?: OwnRest | undefined;
}

type WorthLike = Range & { attainable?: boolean };

/** The three worths of a car and the cost of the plan behind `restored`, as the API gives them. */
export interface CarWorths {
  asFound: WorthLike | null;
  restored: WorthLike | null;
  originalFinish: WorthLike | null;
  cost: Range | null;
  restsOn?: OwnRest | undefined;
}

const bounds = ({ low, mid, high }: Range): Range => ({ low, mid, high });

/**
 * Takes the likely cost off the restored worth, so that the hatched bar is what restoring
 * would leave in hand.
 */
export const stripWorths = ({ asFound, restored, originalFinish, cost, restsOn }: CarWorths): StripWorths => {
  const spent = cost?.mid ?? 0;
  return {
    asFound: asFound && bounds(asFound),
    restored: restored && {
      low: restored.low - spent,
      mid: restored.mid - spent,
      high: restored.high - spent,
      gross: restored.high,
    },
    originalFinish: originalFinish && {
      ...bounds(originalFinish),
      attainable: originalFinish.attainable ?? true,
    },
    ...(restsOn && { restsOn }),
  };
};

/** True when none of the three can be told. */
export const isUnknown = (worths: StripWorths): boolean =>
  !worths.asFound && !worths.restored && !worths.originalFinish;
