import { spell } from '../../../../../valuation/wording/dialect.ts';

/** A car that colours were proposed for: what it was made in, empty where that is not known, and what is proposed. */
interface ProposedColour {
  own: string;
  colour: string;
  standing: 'own' | 'factory' | 'other';
}

/**
 * For how many cars another colour is proposed than they were made in, and for how many one because nobody
 * knows what they were made in.
 */
export const proposedColoursText = (
  cars: readonly Pick<ProposedColour, 'own' | 'colour'>[],
  locale: string,
): string => {
  const unknown = cars.filter(({ own }) => own === '').length;
  const others = cars.filter(({ own, colour }) => own !== '' && own !== colour).length;
  const of = `${cars.length} ${cars.length === 1 ? 'car' : 'cars'}`;
  const made = others === 1 ? 'it was' : 'they were';
  if (unknown === 0)
    return others === 0
      ? spell('Each car keeps the colour that it was made in', locale)
      : spell(`${others} of ${of} in another colour than ${made} made in`, locale);
  const guessed = spell(`a colour is proposed for ${unknown} whose own is not known`, locale);
  return others === 0
    ? spell(`Of ${of}, ${guessed}; none is painted in another colour than it was made in`, locale)
    : spell(`Of ${of}, ${others} in another colour than ${made} made in; ${guessed}`, locale);
};

/** How a proposed colour stands to the factory specification of the car. */
export const colourStandingText = (
  { own, standing }: Pick<ProposedColour, 'own' | 'standing'>,
  locale: string,
): string => {
  switch (standing) {
    case 'factory':
      return spell('a colour of its casting, a departure for this car', locale);
    case 'other':
      return 'a departure';
    case 'own':
      return own === '' ? spell('a colour of its casting; its own is not known', locale) : 'to specification';
  }
};
