import type { ListedStatus } from '../../words.ts';

/** What a car's status is called on screen: a `kept` car is "in collection". */
export const statusText = (status: ListedStatus): string =>
  status === 'kept' ? 'in collection' : status === 'seen' ? 'seen, not bought' : status;
