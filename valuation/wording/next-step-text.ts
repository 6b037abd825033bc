import { counted } from './reader.ts';

/** What an owner can do next; `count` is the number of cars that it is about, 1 where it is about none. */
export interface NextStep {
  kind:
    | 'add-reference'
    | 'add-lot'
    | 'add-sale-records'
    | 'decide'
    | 'identify'
    | 'choose-variation'
    | 'grade'
    | 'find-evidence'
    | 'photograph';
  count: number;
}

/** What to do next, as a line that leads there. */
export const nextStepText = ({ kind, count }: NextStep): string => {
  switch (kind) {
    case 'add-reference':
      return 'Import or enter the reference: castings and their variations';
    case 'add-lot':
      return 'Add your first lot';
    case 'add-sale-records':
      return 'Add sale records, so that cars can be valued';
    case 'decide':
      return counted(count, 'car is worth working on: decide', 'cars are worth working on: decide');
    case 'identify':
      return counted(count, 'car is not identified', 'cars are not identified');
    case 'choose-variation':
      return counted(count, 'car has no variation chosen', 'cars have no variation chosen');
    case 'grade':
      return counted(count, 'car has no grade', 'cars have no grade');
    case 'find-evidence':
      return counted(
        count,
        'car does not have enough evidence for a value',
        'cars do not have enough evidence for a value',
      );
    case 'photograph':
      return counted(count, 'car has no photograph', 'cars have no photograph');
  }
};
