import type { CarStatus } from '../words.ts';

/** What a car's status is called on screen: a `kept` car is "in collection". */
export const statusText = (status: CarStatus): string => (status === 'kept' ? 'in collection' : status);
