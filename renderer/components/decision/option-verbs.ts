import type { Option } from '../../../valuation/words.ts';

/** What is done with a car under each option, as a button says it. */
export const optionVerbs: Record<Option, string> = {
  leave: 'Leave it',
  conserve: 'Conserve it',
  restore: 'Restore it',
  customise: 'Customise it',
  donor: 'Use it for parts',
};
