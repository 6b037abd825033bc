import type { CarRow, DealtPhoto } from '../../../../electron/api/views.ts';

const plain = (text: string) =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\d]+/gu, ' ')
    .replace(/\d+/g, digits => digits.replace(/^0+(?=\d)/, ''))
    .trim();

/**
 * The car that an owner means by a number: the whole inventory number, or its last digits where one car alone
 * has them.
 */
export const carOfNumber = <T extends Pick<CarRow, 'inventoryNumber'>>(
  rows: readonly T[],
  text: string,
): T | null => {
  const wanted = plain(text);
  if (wanted === '') return null;
  const whole = rows.filter(({ inventoryNumber }) => plain(inventoryNumber) === wanted);
  const ending = rows.filter(({ inventoryNumber }) => plain(inventoryNumber).match(/\d+$/)?.[0] === wanted);
  const found = whole.length > 0 ? whole : ending;
  return found.length === 1 ? found[0]! : null;
};

/** Whence the car of a photograph is known, or why it is not. */
export const sourceText = ({ reason }: DealtPhoto, row: Pick<CarRow, 'casting'> | null): string => {
  if (row && reason === null) return `By its name${row.casting ? `: ${row.casting}` : ''}`;
  switch (reason) {
    case 'by the order taken alone':
      return 'By the order taken: check it';
    case 'number names several cars':
      return 'Its name fits several cars';
    case 'no number, and no time taken':
      return 'No number and no time in it';
    default:
      return 'No gap tells the cars apart';
  }
};

/** How many photographs have a car, and how many of those the owner should look at first. */
export const dealtCounts = (
  photos: readonly Pick<DealtPhoto, 'doubtful'>[],
  cars: readonly (number | null)[],
  settled: ReadonlySet<number>,
): { dealt: number; doubtful: number } => {
  const dealt = photos.flatMap((photo, place) => (cars[place] === null ? [] : [{ photo, place }]));
  return {
    dealt: dealt.length,
    doubtful: dealt.filter(({ photo, place }) => photo.doubtful && !settled.has(place)).length,
  };
};
