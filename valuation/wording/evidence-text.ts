import type { Evidence, Help } from '../types.ts';
import { counted } from './reader.ts';

/** What a value rests on, as a phrase without a full stop: "62 % this variation’s 4 sales, 38 % its casting’s 31". */
export const evidenceText = ({ shares, sales, castingSales, seriesSales }: Evidence): string => {
  const parts: [number, string][] = [
    [shares.variation, `this variation’s ${counted(sales, 'sale')}`],
    [shares.casting, `its casting’s ${castingSales}`],
    [shares.series, `its series’ ${seriesSales}`],
    [shares.everything, 'all records together'],
  ];
  return parts
    .filter(([share]) => Math.round(share * 100) > 0)
    .map(([share, what]) => `${Math.round(share * 100)} % ${what}`)
    .join(', ');
};

/** The doubtful records behind a value, as a sentence; null where there are none. */
export const doubtfulText = ({ doubtful }: Evidence): string | null => {
  if (doubtful.length === 0) return null;
  return doubtful.length === 1
    ? '1 record of its casting is doubtful and counts little.'
    : `${doubtful.length} records of its casting are doubtful and count little.`;
};

/** What a report says that a value rests on: the evidence, or that the figure is its owner's own. */
export const reportedEvidence = (evidence: Evidence, own: boolean): string =>
  own ? 'The owner’s own figure; there is not enough evidence for another.' : evidenceText(evidence);

/** What would let a car be valued, or valued more closely, as a sentence. */
export const helpText = (help: Help): string => {
  switch (help) {
    case 'identify':
      return 'Identify the casting: without it no sale record can be compared with this car.';
    case 'sale-records':
      return 'Add sale records of this casting or of others in its series; three or so of a known grade already help.';
    case 'choose-variation':
      return 'Choose its variation, or the few that it can be: the range narrows at once.';
    case 'grade':
      return 'Grade the car: until then it is taken at the usual grade of ungraded cars, with a wide range.';
    case 'own-figure':
      return 'Or enter your own figure; it then stands in, marked as yours.';
  }
};
