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
      return 'Bring in the reference: castings and their variations';
    case 'add-lot':
      return 'Add a first lot';
    case 'add-sale-records':
      return 'Bring in sale records, so that cars can be valued';
    case 'decide':
      return counted(
        count,
        'car pays for work and waits for your decision',
        'cars pay for work and wait for your decision',
      );
    case 'identify':
      return counted(count, 'car is not identified', 'cars are not identified');
    case 'choose-variation':
      return counted(count, 'car has its variation open', 'cars have their variation open');
    case 'grade':
      return counted(count, 'car has no grade', 'cars have no grade');
    case 'find-evidence':
      return counted(
        count,
        'car has not enough evidence for a value',
        'cars have not enough evidence for a value',
      );
    case 'photograph':
      return counted(count, 'car has no photograph', 'cars have no photograph');
  }
};
