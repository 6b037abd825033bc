import { type PartName, singleWheels } from '../words.ts';

const noun = '(?:wheels?|whls?|tyres?|tires?)';
const phrase = new RegExp(
  `(?<![\\p{L}\\d])(?<count>one|two|three|four|both|all|[1-4])?(?: ?x)?(?<said>(?: ?(?:of|the|its|a|front|frt|rear|back|left|right|side)(?![\\p{L}]))*) ?(?<noun>${noun})(?![\\p{L}])`,
  'giu',
);
const numbers: Readonly<Record<string, number>> = { one: 1, two: 2, both: 2, three: 3, four: 4 };

/**
 * The wheels that a text in lower case names by their places: "front left wheel" is that one, "both rear wheels" are those two. Where how many
 * are meant leaves open which, or no place is named, it is of the wheels as they are told together.
 */
export const wheelsIn = (text: string): PartName[] => {
  const found = new Set<PartName>();
  for (const { groups } of text.matchAll(phrase)) {
    const said = groups?.said ?? '';
    const end = /front|frt/.test(said) ? 'front' : /rear|back/.test(said) ? 'rear' : '';
    const side = /left/.test(said) ? 'left' : /right/.test(said) ? 'right' : '';
    const meant = singleWheels.filter(wheel => wheel.includes(end) && wheel.includes(side));
    const count = numbers[groups?.count ?? ''] ?? Number(groups?.count ?? NaN);
    const isOne = !/s$/.test(groups?.noun ?? '');
    const many = Number.isNaN(count) ? (isOne ? 1 : meant.length) : count;
    if ((end === '' && side === '') || many !== meant.length) found.add('wheels');
    else for (const wheel of meant) found.add(wheel);
  }
  return [...found];
};
