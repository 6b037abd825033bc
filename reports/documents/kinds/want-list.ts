import type { Range } from '../../../valuation/types.ts';
import { counted, moneyText } from '../../../valuation/wording/reader.ts';
import { type Grade, gradeLabel } from '../../../valuation/words.ts';
import { footerText } from '../car-facts.ts';
import type { DocumentBlock, PaperDocument } from '../document.ts';
import type { Edition } from './dossier.ts';

export interface WantedCasting {
  series: string;
  casting: string;
  year: number | null;
  /**
   * Variations that are not in the collection, by what tells them apart; empty where the reference
   * knows none of it.
   */
  variations: { label: string; worth: Range | null }[];
  /** True where the collection has no car of it at all. */
  missing: boolean;
  worth: Range | null;
}

export interface WantListFacts {
  wanted: WantedCasting[];
  grade: Grade;
  /** The name of the set of which it is; absent where it is of the whole reference. */
  set?: string;
}

/**
 * What the collection does not have, for a fair: in a pocket, with a box to tick and what one in that
 * grade may bring.
 */
export const wantListDocument = ({ wanted, grade, set }: WantListFacts, edition: Edition): PaperDocument => {
  const { reader, withoutValues } = edition;
  const price = (worth: Range | null) =>
    withoutValues || !worth ? '' : `: ${moneyText(worth.low, reader)} to ${moneyText(worth.high, reader)}`;
  const groups = Map.groupBy(wanted, ({ series }) => series);
  return {
    title: set === undefined ? 'Want list' : `Want list: ${set}`,
    subtitle: withoutValues
      ? counted(wanted.length, 'casting')
      : `${counted(wanted.length, 'casting')}; 80 % ranges for ${gradeLabel(grade)} with its factory finish, in ${reader.currency}`,
    author: edition.owner,
    footer: footerText,
    paper: 'pocket',
    blocks:
      wanted.length === 0
        ? [
            {
              kind: 'paragraph',
              text:
                set === undefined
                  ? 'The collection has every variation that the reference knows.'
                  : 'The collection has every casting of this set.',
            },
          ]
        : [...groups].flatMap(([series, castings]): DocumentBlock[] => [
            { kind: 'heading', level: 2, text: series },
            {
              kind: 'checklist',
              items: castings.flatMap(({ casting, year, variations, missing, worth }) => {
                const name = year === null ? casting : `${casting} (${year})`;
                if (missing) return [`${name}, any${price(worth)}`];
                return variations.map(({ label, worth: own }) => `${name}, ${label}${price(own)}`);
              }),
            },
          ]),
  };
};
