import type { SettledNames, WaitingName } from '../../../../electron/api/views.ts';

/** A group of spellings by the one that is written most often. */
export const keyOf = (name: WaitingName): string => name.spellings[0]?.text ?? name.name;

const counted = (number: number, what: string) =>
  number === 0 ? [] : [`${number.toLocaleString()} ${number === 1 ? what : `${what}s`}`];

/** "2 cars and 3 sale records", of what there is. */
export const rowsText = (cars: number, sales: number, and = ' and '): string =>
  [...counted(cars, 'car'), ...counted(sales, 'sale record')].join(and);

/** What settling names did, in a few words. */
export const said = ({ name, names, casting, cars, sales }: SettledNames): string => {
  const what = names === 1 ? name : `${names} names`;
  if (casting === null) return names === 1 ? `${what} is not a car` : `${what} are not cars`;
  const known = rowsText(cars, sales);
  return known ? `${what} settled: ${known} identified` : `${what} settled`;
};
