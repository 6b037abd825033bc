import { expect, it } from 'vitest';
import { finishLeft } from '../../../valuation/work/finish-left.ts';

it('a car whose work is given up has its factory finish only where that was not touched', () => {
  expect(finishLeft('restore', ['look-and-photograph', 'drill-posts'], 'original')).toBe('original');
  expect(finishLeft('restore', ['strip'], 'original')).toBe('stripped');
  expect(finishLeft('restore', ['strip', 'coat-light'], 'original')).toBe('restored');
  expect(finishLeft('customise', ['coat-light'], 'stripped')).toBe('customised');
  expect(finishLeft('conserve', ['wash-outside'], 'touched up')).toBe('touched up');
});
