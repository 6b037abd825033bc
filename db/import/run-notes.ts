import type { RunOptions } from './types.ts';

/** Lines that are named where rows are known already; further ones are counted. */
const mostKnownLines = 20;

/** Says which rows were taken for what is there already, and by what. */
export const knownNote = ({ as }: RunOptions, lines: readonly number[]): string | null => {
  if (lines.length === 0) return null;
  const by = {
    lot: 'of cars that the collection has already, by their number and what else they say, or by all that they say where they have no number',
    sales: 'of sales that are recorded already, by all that they say',
    reference: 'of what the reference has already, by all that they say',
  }[as];
  const shown = lines.slice(0, mostKnownLines).map(String);
  const more = lines.length - shown.length;
  const all = more > 0 ? [...shown, `${more} more`] : shown;
  const places =
    all.length === 1 ? `line ${all[0]}` : `lines ${all.slice(0, -1).join(', ')} and ${all.at(-1)}`;
  return `${lines.length === 1 ? 'One row is' : `${lines.length} rows are`} ${by}: ${places}. Nothing of ${lines.length === 1 ? 'it' : 'those'} was changed.`;
};

/** Says what the reference, grown by the import, now tells of records that waited for it. */
export const followedNote = (cars: number, sales: number): string =>
  `${[
    cars > 0 && (cars === 1 ? 'one car' : `${cars} cars`),
    sales > 0 && (sales === 1 ? 'one sale record' : `${sales} sale records`),
  ]
    .filter(Boolean)
    .join(' and ')} that waited for the reference are identified further now.`;

/** Says that a lot of this name keeps what it cost. */
export const lotStaysNote = (name: string): string =>
  `The lot "${name}" was there already; its price and costs were left as they are.`;

/** Says that cars went to this many lots of their own, one at least. */
export const ownLotsNote = (lots: number): string =>
  `${lots === 1 ? 'One lot of its own holds' : `${lots} lots of their own hold`} the cars that were bought together, by seller and day; the others were bought one by one.`;

/** Says that lots, one at least, were made of cars that were only seen. */
export const seenLotsNote = (lots: number): string =>
  `${lots === 1 ? 'One lot holds' : `${lots} lots hold`} cars that were only seen; they count among yours when it is saved as bought.`;

/** Says that rows name lots, one at least, that the collection does not have. */
export const unknownLotsNote = (names: readonly string[]): string =>
  `The collection has no lot ${names.map(name => `“${name}”`).join(', ')}: ${names.length === 1 ? 'its cars' : 'their cars'} are in the lot of this file. Import the list of lots first, and cars come into their own lots.`;
