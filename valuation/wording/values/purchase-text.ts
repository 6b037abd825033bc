import type { OwnAsideCause } from '../../types.ts';
import { counted } from '../reader.ts';
import { ownAsideText } from './belief-text.ts';

/**
 * What a purchase is asked about: of how many cars it is, why it does not count, and what its owner said to
 * that.
 */
export interface AskedPurchase {
  cars: number;
  aside: OwnAsideCause | null;
  why: string;
}

const lowerCase = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

/** Whether what was paid counts as evidence, and as what, as a sentence. */
export const purchaseText = ({ cars, aside, why }: AskedPurchase, locale: string): string => {
  if (aside === null)
    return cars === 1
      ? 'What was paid for it counts as a sale of it.'
      : `What was paid for it counts as one sale, shared by its ${cars} cars.`;
  const reason =
    aside.kind === 'left-out' && why !== '' ? `You have left it out: ${why}` : ownAsideText(aside, locale);
  return `What was paid for it does not count: ${lowerCase(reason)}${/[.!?]$/.test(reason) ? '' : '.'}`;
};

/** How many of a lot's purchases count, as a sentence. */
export const purchasesText = (purchases: readonly AskedPurchase[], locale: string): string => {
  const [only] = purchases;
  if (only && purchases.length === 1) return purchaseText(only, locale);
  const counting = purchases.filter(({ aside }) => aside === null).length;
  const all = counted(purchases.length, 'purchase');
  const kinds = new Set(purchases.map(({ aside }) => aside?.kind));
  if (only?.aside && kinds.size === 1) {
    const cars = purchases.reduce((sum, { aside }) => sum + (aside && 'cars' in aside ? aside.cars : 0), 0);
    const together = 'cars' in only.aside ? { ...only.aside, cars } : only.aside;
    return `None of its ${all} counts: ${lowerCase(ownAsideText(together, locale))}.`;
  }
  return counting === purchases.length
    ? `All its ${all} count as sales.`
    : `${counting} of its ${all} ${counting === 1 ? 'counts as a sale' : 'count as sales'}.`;
};

/** What a purchase needs to be evidence, as a sentence. */
export const lacksText = (lacks: 'cars' | 'cost' | 'day'): string => {
  switch (lacks) {
    case 'cars':
      return 'Once it has cars, what was paid for them shows what such cars sell for.';
    case 'cost':
      return 'What was paid does not count yet: its cost is not entered.';
    case 'day':
      return 'What was paid does not count yet: the day of buying is not entered.';
  }
};
