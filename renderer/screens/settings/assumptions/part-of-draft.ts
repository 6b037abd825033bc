import type { AssumptionSet, Currency } from '../../../../valuation/types.ts';

/** What a part of the assumptions needs: the draft as it stands, and a way to change some of it. */
export interface PartOfDraft {
  draft: AssumptionSet;
  set: (change: Partial<AssumptionSet>) => void;
  currency: Currency;
}
