import { expect, it } from 'vitest';
import { purchasesText, purchaseText } from '../../../valuation/wording/values/purchase-text.ts';

const counts = { cars: 1, aside: null, why: '' };
const unknown = { cars: 1, aside: { kind: 'unidentified-cars' as const, cars: 1 }, why: '' };

it('says of what was paid whether it counts, and why not', () => {
  expect(purchaseText(counts, 'en')).toBe('What was paid for it counts as a sale of it.');
  expect(purchaseText({ ...counts, cars: 16 }, 'en')).toBe(
    'What was paid for it counts as one sale, shared by its 16 cars.',
  );
  expect(purchaseText({ cars: 2, aside: { kind: 'left-out' }, why: 'a gift' }, 'en')).toBe(
    'What was paid for it does not count: you have left it out: a gift.',
  );
  expect(purchaseText({ cars: 2, aside: { kind: 'left-out' }, why: '' }, 'en')).toBe(
    'What was paid for it does not count: you have left it out.',
  );
});

it('says of several purchases how many count, and the reason where it is the same for all', () => {
  expect(purchasesText([counts, counts], 'en')).toBe('All its 2 purchases count as sales.');
  expect(purchasesText([counts, unknown, unknown], 'en')).toBe('1 of its 3 purchases counts as a sale.');
  expect(purchasesText([unknown, unknown], 'en')).toBe(
    'None of its 2 purchases counts: 2 cars of it are not identified.',
  );
  expect(purchasesText([unknown], 'en')).toBe(
    'What was paid for it does not count: 1 car of it is not identified.',
  );
});
