import { expect, it } from 'vitest';
import {
  colourStandingText,
  proposedColoursText,
} from '../../../renderer/screens/decide/season/colours/colours-text.ts';

const kept = { own: 'Ember', colour: 'Ember' };
const other = { own: 'Ember', colour: 'Damson' };
const unknown = { own: '', colour: 'Damson' };

it('a car whose own colour nobody knows is never said to leave the colour that it was made in', () => {
  expect(proposedColoursText([kept, kept], 'en-GB')).toBe('Each car keeps the colour that it was made in');
  expect(proposedColoursText([kept, other], 'en-GB')).toBe(
    '1 of 2 cars in another colour than it was made in',
  );
  expect(proposedColoursText([kept, unknown], 'en-GB')).toBe(
    'Of 2 cars, a colour is proposed for 1 whose own is not known; none is painted in another colour than it was made in',
  );
  expect(proposedColoursText([other, other, unknown], 'en-GB')).toBe(
    'Of 3 cars, 2 in another colour than they were made in; a colour is proposed for 1 whose own is not known',
  );
});

it('a colour is to specification only where the car is known to be made in it', () => {
  expect(colourStandingText({ own: 'Ember', standing: 'own' }, 'en-GB')).toBe('to specification');
  expect(colourStandingText({ own: '', standing: 'own' }, 'en-GB')).toBe(
    'a colour of its casting; its own is not known',
  );
  expect(colourStandingText({ own: 'Ember', standing: 'factory' }, 'en-GB')).toMatch(
    /a departure for this car$/,
  );
  expect(colourStandingText({ own: '', standing: 'other' }, 'en-GB')).toBe('a departure');
});
