import type { ImportKind } from '../../../../electron/api/views.ts';
import { readerWords } from '../../../components/words.ts';
import { BeforeList, type WaysIn } from './before-list.tsx';

const about: Record<ImportKind, { reads: string; columns: string }> = {
  lot: {
    reads:
      'One row for each car, or for several of a kind. A name is all that a row needs; whatever is not understood is saved as you wrote it and asked about once.',
    columns:
      'number · casting · release · year · colour · base paint · rear end · grade · finish state · price paid · bought on · seller · own estimate · sold on · sold for · quantity · missing parts · location · notes · description',
  },
  sales: {
    reads:
      'One row for each sale you have seen: its date, its price, and what was sold, in columns or in words. They are the evidence behind every value.',
    columns:
      'date · price · currency · casting · colour · base paint · rear end · grade · finish state · missing parts · source · description',
  },
  reference: {
    reads: 'One row for each variation: the casting, and what tells this one apart.',
    columns:
      'maker · series · casting · release · year · colour · body finish · base paint · rear end · roof · interior · wheels · rarity',
  },
};

/** Before there is a list of cars, sales or the reference. */
export const ChooseFile = ({ as, ways }: { as: ImportKind; ways: WaysIn }) => (
  <BeforeList
    as={as}
    facts="In any layout: you see what happens to every row before anything is imported"
    ways={ways}
  >
    <dt>What it reads</dt>
    <dd>{about[as].reads}</dd>
    <dt>Columns it knows</dt>
    <dd>
      {readerWords().spell(about[as].columns)}. Yours may have other names and another order; you say what
      each means where it is not clear.
    </dd>
    <dt>It can handle</dt>
    <dd>
      Titles, blank lines, totals, several blocks or sheets, no headings at all; days and amounts in any order
      and with either sign; “C7.5”, “7/10”, stars, letters and “mint” for grades; several facts in one cell;
      ticks; “ditto”. A line is left out only where nothing in it says which car it is, or where it says that
      the car is not yours, and you see which and why.
    </dd>
  </BeforeList>
);
