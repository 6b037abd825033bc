import { expect, it } from 'vitest';
import { actionLabel } from '../../../valuation/wording/action-label.ts';

it('spells what the program says in a label as its reader does, and leaves the names of an owner', () => {
  const inUS = (label: string) => actionLabel(label, 'en-US');
  expect(inUS('Decided to customise Grey-1')).toBe('Decided to customize Grey-1');
  expect(inUS('Changed the colour of 12 cars')).toBe('Changed the color of 12 cars');
  expect(inUS('Did a step: Spray the colour')).toBe('Did a step: Spray the color');
  for (const label of ['Added the lot Grey tyres', 'Changed the lot Colour of tyres', 'Removed Grey-1'])
    expect(inUS(label)).toBe(label);
  expect(actionLabel('Decided to customise Grey-1', 'en-GB')).toBe('Decided to customise Grey-1');
});
