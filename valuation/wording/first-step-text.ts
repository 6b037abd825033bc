import { counted } from './reader.ts';
import { helpfulText, type NamedAnswer } from './values/helpful-text.ts';

/** What is known of a first step; every number is counted or tried. */
export type FirstStepFacts =
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

export const firstStepTitles: Record<FirstStepFacts['kind'], string> = {
  cars: 'Cars in',
  names: 'Names settled',
  words: 'Words settled',
  prices: 'Prices entered',
  decide: 'First decisions',
};

const cars = (count: number) => counted(count, 'car', 'cars');
const sales = (count: number) => counted(count, 'sale record', 'sale records');
const both = (ofCars: number, ofSales: number): string =>
  [...(ofCars > 0 ? [cars(ofCars)] : []), ...(ofSales > 0 ? [sales(ofSales)] : [])].join(' and ');
const giveValue = (count: number) => `${cars(count)} a value`;

const namesText = (step: FirstStepFacts & { kind: 'names' }): string => {
  const { names, telling, together } = step;
  if (names === 0) return 'Every name is settled.';
  if (telling.names > 0) {
    const first =
      telling.names === 1
        ? `Settling this one name gives ${giveValue(telling.cars)}`
        : `Settling these ${telling.names} names gives ${giveValue(telling.cars)}`;
    return together > telling.cars
      ? `${first}; all ${names} together give ${giveValue(together)}.`
      : `${first}.`;
  }
  const wait = `${counted(names, 'name waits', 'names wait')}, of ${both(step.cars, step.sales)}`;
  return together > 0
    ? `${wait}; settling ${names === 1 ? 'it' : 'all of them'} gives ${giveValue(together)}.`
    : `${wait}. Cars and sales can be compared only once their names are settled.`;
};

/** What a step would bring, or has brought where it is `done`, as a sentence or two. */
export const firstStepText = (step: FirstStepFacts & { done: boolean }): string => {
  switch (step.kind) {
    case 'cars':
      return step.cars === 0
        ? 'Import your list as it is, paste it, or enter a lot.'
        : `${cars(step.cars)} in the collection.`;
    case 'names':
      return step.names === 0 && !step.done
        ? 'Names that the reference does not know yet will wait here, from cars and sales together.'
        : namesText(step);
    case 'words':
      return step.words === 0
        ? step.done
          ? 'Every word was understood.'
          : 'What your list says in words of your own is asked once, for all its rows.'
        : `${counted(step.words, 'text was', 'texts were')} not understood; saying what ${step.words === 1 ? 'it means' : 'they mean'} tells more of ${both(step.cars, step.sales)}.`;
    case 'prices': {
      if (step.cars === 0)
        return 'Sales that you saw, what you paid, or what you believe: values rest on these.';
      const have =
        step.valued === 0 ? 'No car has a value yet.' : `${step.valued} of ${cars(step.cars)} have a value.`;
      return step.best ? `${have} ${helpfulText(step.best)}` : have;
    }
    case 'decide':
      if (step.decided > 0) return `${counted(step.decided, 'car is', 'cars are')} decided on.`;
      if (step.pays > 0)
        return `${counted(step.pays, 'car is', 'cars are')} worth working on, by the figures.`;
      return step.valued > 0
        ? `${counted(step.valued, 'car can', 'cars can')} be decided on.`
        : 'Decisions follow once cars have a value.';
  }
};
