/** A car that colours were proposed for: what it was made in, empty where that is not known, and what is proposed. */
interface ProposedColour {
  own: string;
  colour: string;
  standing: 'own' | 'factory' | 'other';
}

/**
 * Of how many cars another colour is proposed than they were made in, and of how many one because nobody knows
 * what they were made in: "1 of 4 cars in another colour than they were made in; 2 whose own colour is not known
 * in a proposed one".
 */
export const proposedColoursText = (cars: readonly Pick<ProposedColour, 'own' | 'colour'>[]): string => {
  const unknown = cars.filter(({ own }) => own === '').length;
  const others = cars.filter(({ own, colour }) => own !== '' && own !== colour).length;
  const of = `${cars.length} ${cars.length === 1 ? 'car' : 'cars'}`;
  if (unknown === 0)
    return others === 0
      ? 'Each car keeps the colour that it was made in'
      : `${others} of ${of} in another colour than ${others === 1 ? 'it was' : 'they were'} made in`;
  const guessed = `a colour is proposed for ${unknown} whose own is not known`;
  return others === 0
    ? `Of ${of}, ${guessed}; none is painted in another colour than it was made in`
    : `Of ${of}, ${others} in another colour than ${others === 1 ? 'it was' : 'they were'} made in; ${guessed}`;
};

/** How a proposed colour stands to the factory specification of the car. */
export const colourStandingText = ({ own, standing }: Pick<ProposedColour, 'own' | 'standing'>): string => {
  switch (standing) {
    case 'factory':
      return 'a colour of its casting, a departure for this car';
    case 'other':
      return 'a departure';
    case 'own':
      return own === '' ? 'a colour of its casting; its own is not known' : 'to specification';
  }
};
