import type { Minor, Range } from '../../../valuation/types.ts';
import { spell } from '../../../valuation/wording/dialect.ts';
import { counted, dayText, moneyText, percentText, sentenceCase } from '../../../valuation/wording/reader.ts';
import { type CarFacts, carName, conditionText, footerText, rangeText } from '../car-facts.ts';
import type { PaperDocument } from '../document.ts';
import type { Edition } from './dossier.ts';

export interface BidSheetFacts {
  lot: string;
  cars: (Pick<
    CarFacts,
    'inventoryNumber' | 'casting' | 'releaseName' | 'asWritten' | 'grade' | 'finishState'
  > & {
    /** What it wears. */
    colour: string;
    asFound: Range | null;
  })[];
  bid: Minor;
  /** With premium, tax and carriage. */
  total: Minor;
  /** The sum of its values. */
  expectedWorth: Range;
  margin: number;
  probability: number;
  premiumRate: number;
  taxRate: number;
  carriage: Minor;
}

/** A lot that was seen: what is in it, and the highest bid that leaves the wanted margin. */
export const bidSheetDocument = (facts: BidSheetFacts, edition: Edition): PaperDocument => {
  const { reader } = edition;
  const money = (minor: Minor) => `${reader.currency} ${moneyText(minor, reader)}`;
  const without = facts.cars.filter(car => car.asFound === null).length;
  return {
    title: `Bid sheet, ${facts.lot}`,
    subtitle: `${counted(facts.cars.length, 'car')}, ${dayText(edition.on, reader.locale)}`,
    author: edition.owner,
    footer: footerText,
    paper: edition.paper,
    blocks: [
      { kind: 'paragraph', tone: 'statement', text: `Bid no more than ${money(facts.bid)}.` },
      {
        kind: 'facts',
        facts: [
          {
            label: 'Comes to',
            value: `${money(facts.total)} with premium ${percentText(facts.premiumRate)}, tax ${percentText(facts.taxRate)} and ${money(facts.carriage)} for delivery`,
          },
          { label: 'Value of it all', value: rangeText(facts.expectedWorth, reader) },
          { label: 'Margin wanted', value: percentText(facts.margin) },
          { label: 'Chance of reaching it', value: percentText(facts.probability) },
        ],
      },
      ...(without > 0
        ? [
            {
              kind: 'paragraph' as const,
              tone: 'caution' as const,
              text: `${counted(without, 'car has', 'cars have')} no value yet and ${without === 1 ? 'counts' : 'count'} as nothing in this bid.`,
            },
          ]
        : []),
      {
        kind: 'table',
        columns: [
          { title: 'No' },
          { title: 'Car', width: 'wide' },
          { title: sentenceCase(spell('colour', reader.locale)) },
          { title: 'Condition' },
          { title: 'As found', align: 'right' },
          { title: '80 % range', align: 'right' },
        ],
        rows: facts.cars.map(car => [
          car.inventoryNumber,
          carName(car),
          car.colour,
          conditionText(car, reader.locale),
          car.asFound ? moneyText(car.asFound.mid, reader) : '–',
          car.asFound
            ? `${moneyText(car.asFound.low, reader)} to ${moneyText(car.asFound.high, reader)}`
            : '',
        ]),
      },
    ],
  };
};
