import type { LookUp } from '../../decision/look-up-next.ts';
import { gradeLabel } from '../../words.ts';
import { counted, moneyText, type Reader } from '../reader.ts';

/** A kind of sales to look up, by name: of a variation also the casting's, and what tells it from others. */
export type NamedLookUp = LookUp & { name: string };

/** What to look up, as a phrase: "3 sales of a restored Larkspur Van in about C8". */
export const lookUpText = ({ sales, state, name, of, grade }: NamedLookUp): string => {
  const what = of === 'series' ? `cars of ${name}` : name;
  return `${counted(sales, 'sale', 'sales')} of ${what}, ${state === 'restored' ? 'restored' : 'with factory finish'}, in about ${gradeLabel(grade)}`;
};

/** What that is expected to be worth, as a phrase. */
export const lookUpWorthText = ({ worth, cars }: LookUp, reader: Reader): string =>
  `worth some ${moneyText(worth, reader)} to what you decide on ${counted(cars, 'car', 'cars')}`;
