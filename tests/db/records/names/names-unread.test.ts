import { describe, expect, it } from 'vitest';
import { nameOfUnread, namesOfUnread } from '../../../../db/records/names/names-unread.ts';

const unread = (...texts: string[]) => texts.map(text => ({ column: 'Title', text, field: '' }));
const names = new Set(['brackenhall van', 'van', 'silver kite']);

describe('the name in what was not understood of a sale', () => {
  it.each([
    ['nice Brackenhall Van', 'Brackenhall Van'],
    ['Rare brackenhall van', 'brackenhall van'],
    ['from a loft, Brackenhall Van, as seen', 'Brackenhall Van'],
    ['Nice Van', 'Van'],
    // The name may go on.
    ['nice Brackenhall Van II', null],
    ['nice Brackenhall Van 2', null],
    ['the Little Silver Kite', null],
    // One word of many says too little.
    ['ice cream van', null],
    ['Brackenhall Van or Silver Kite', null],
    ['nice vanguard', null],
  ])('%s: %s', (text, name) => {
    expect(nameOfUnread(unread(text), names)).toBe(name);
  });

  it('is none where two texts name two, or where the text was read for another field', () => {
    expect(nameOfUnread(unread('nice Brackenhall Van', 'Silver Kite'), names)).toBeNull();
    expect(nameOfUnread([{ column: 'Cond.', text: 'Silver Kite', field: 'grade' }], names)).toBeNull();
  });

  it('is the words with a capital where nobody else has the name, and is none where the reference has it', () => {
    const found = (inReference: string[]) =>
      namesOfUnread(
        [unread('nice Tern Coupe'), unread('very rare tern coupe'), unread('sealed')],
        [],
        new Set(inReference),
      );
    expect(found([])).toEqual(['Tern Coupe', 'tern coupe', null]);
    expect(found(['tern coupe'])).toEqual([null, null, null]);
  });
});
