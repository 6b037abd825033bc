/** What the procedures answer about the owner's words. */
import type { WordRecord } from '../../../db/records/own-words/words.ts';

export type { WordRecord };

/** A word, and how many cars and sale records were read by it. */
export interface UsedWord extends WordRecord {
  cars: number;
  sales: number;
}

export interface WordsView {
  words: UsedWord[];
  /** The fields that a word can be about, by the names of imports; `grade_scale` and `nothing` among them. */
  fields: string[];
}

/** A text that was not understood, wherever it stands. */
export interface WaitingWordView {
  /** As its file named it. */
  column: string;
  text: string;
  /** The field that it is most likely about; '' where nobody can tell. */
  field: string;
  /** A meaning where one is near, to be confirmed; '' where people mean the text differently. */
  meaning: string;
  cars: number;
  sales: number;
  /** The first hundred of each. */
  carIds: number[];
  saleIds: number[];
}

/** How many cars and sale records an answer changed. */
export interface SettledWords {
  cars: number;
  sales: number;
}
