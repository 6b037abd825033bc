/** What the procedures answer about names that wait for the reference. */

/** A spelling, and how many cars and sale records have it. */
export interface Spelling {
  text: string;
  cars: number;
  sales: number;
}

/** Spellings that are taken for one name. */
export interface WaitingName {
  /** The spelling that is written most often. */
  name: string;
  spellings: Spelling[];
  cars: number;
  sales: number;
  /** Years that the rows give, rising. */
  years: number[];
  maker: string | null;
  series: string | null;
  /** Inventory numbers of some of the cars. */
  examples: string[];
  /** A casting that is spelled like it: likely the same one. */
  near: { castingId: number; name: string; series: string } | null;
  /** Cars that are sure to have a value once it is settled, as its near casting or else as a new one. */
  valued: number;
}

export interface WaitingNames {
  names: WaitingName[];
  cars: number;
  sales: number;
}

export interface NearCasting {
  castingId: number;
  name: string;
  series: string;
  maker: string;
  firstYear: number | null;
}

/** What settling names did. */
export interface SettledNames {
  /** The first that was settled, and how many. */
  name: string;
  names: number;
  /** The casting that the first is now. */
  castingId: number | null;
  casting: string | null;
  /** Cars and sale records that are known better now. */
  cars: number;
  sales: number;
}

/** Colours and features that cars and sale records of a casting have, and none of its variations. */
export interface SeenVariationRow {
  key: string;
  castingId: number;
  casting: string;
  colour: string;
  swatch: string | null;
  /** What else is told, as one line: "rear end twin lamps, interior red". */
  told: string;
  release: string;
  cars: number;
  sales: number;
  /** Cars and sale records that say less, of this alone: they follow it. */
  lesser: number;
  examples: string[];
  /** A colour of the casting that is spelled like it. */
  nearColour: string | null;
}

/** What settling variations did: cars and sale records that are known better. */
export interface SettledSeen {
  cars: number;
  sales: number;
}

/** A text and what its owner has said that it is. */
export interface SettledNameRow {
  id: number;
  text: string;
  means: 'casting' | 'release' | 'not a car';
  castingId: number | null;
  /** The casting that it means. */
  casting: string | null;
  /** The release that it means, where it is one. */
  release: string | null;
  settledAt: string;
}

/** What was settled about names, the newest first. */
export interface SettledList {
  settled: SettledNameRow[];
  /** Two texts each that are never one name. */
  parted: { id: number; one: string; other: string }[];
  /** Descriptions of a casting's cars that mean one of its variations. */
  variations: { id: number; castingId: number; casting: string; told: string; variation: string }[];
}
