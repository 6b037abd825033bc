/** What the procedures answer about a collection that is not valued yet: what would help, and its first steps. */
import type { NamedAnswer } from '../../../valuation/wording/helpful-text.ts';

export type { NamedAnswer } from '../../../valuation/wording/helpful-text.ts';

/** A first step of a young collection; every number is counted or tried, none is guessed. */
export type FirstStep =
  | { kind: 'cars'; cars: number }
  | {
      kind: 'names';
      /** Names that wait, and the cars and sale records under them. */
      names: number;
      cars: number;
      sales: number;
      /** Of the names those that give cars a value by themselves, and their cars. */
      telling: { names: number; cars: number };
      /** Cars that have a value once all are settled. */
      together: number;
    }
  | { kind: 'words'; words: number; cars: number; sales: number }
  | {
      kind: 'prices';
      /** Cars with a value, of all that are here. */
      valued: number;
      cars: number;
      /** Lots without a price, and the cars in them. */
      unpriced: { lots: number; cars: number };
      saleRecords: number;
      /** The answer about prices that gives the most cars a value; null where none would. */
      best: NamedAnswer | null;
    }
  | { kind: 'decide'; pays: number; valued: number; decided: number };

export interface FirstSteps {
  steps: (FirstStep & { done: boolean; dismissed: boolean })[];
}
