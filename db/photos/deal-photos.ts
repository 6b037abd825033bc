/** A photograph of a batch, as far as dealing asks. */
export interface BatchPhoto {
  /** The name of its file, with or without folders before it. */
  name: string;
  /** When it was taken, "2024-05-31T17:45:00" by the camera's clock; null where the file does not say. */
  takenAt: string | null;
}

/** How a photograph came to its car. */
export type DealtBy = 'number' | 'time';

export interface Deal {
  /** Place of the car among those given; null where only the owner can tell. */
  car: number | null;
  by: DealtBy | null;
  /** True where the owner should look before saying yes. */
  doubtful: boolean;
  /** Why there is a doubt, or no car. */
  reason:
    | 'number names several cars'
    | 'no number, and no time taken'
    | 'the gaps do not tell the cars apart'
    | 'by the order taken alone'
    | null;
}

/**
 * What a number or name is compared by: letters and digits alone, each run of digits without its leading
 * noughts.
 */
const partsOf = (text: string): string[] =>
  (
    text
      .normalize('NFKC')
      .toLowerCase()
      .match(/\p{L}+|\d+/gu) ?? []
  ).map(part => (/^\d/.test(part) ? part.replace(/^0+(?=\d)/, '') : part));

const baseName = (name: string) => name.replace(/^.*[\\/]/, '').replace(/\.[^.]*$/, '');

/**
 * True where a whole inventory number stands in a name: its parts in a row, "q-7" in "Q 007 side" and not in
 * "q-70".
 */
const holds = (name: readonly string[], number: readonly string[]): boolean =>
  number.length > 0 && name.some((_, i) => number.every((part, k) => name[i + k] === part));

/** What cameras write before their own counter; a bare number behind it is no car's. */
const counters = new Set([
  'img',
  'image',
  'dsc',
  'dscn',
  'dscf',
  'pxl',
  'photo',
  'pic',
  'picture',
  'p',
  'mvimg',
  'imag',
  'scan',
]);

/**
 * The cars whose inventory number stands in a name. A number of letters and digits counts wherever it stands;
 * one of digits alone only at the head of the name, because cameras and dates write digits too.
 */
const namedIn = (name: string, numbers: readonly (readonly string[])[]): number[] => {
  const parts = partsOf(baseName(name));
  const found = numbers.flatMap((number, car) => {
    const bare = number.length === 1 && /^\d/.test(number[0]!);
    const there = bare ? parts[0] === number[0] && !counters.has(parts[0]!) : holds(parts, number);
    return there ? [car] : [];
  });
  // "Q-7" stands within "Q-7-2" too: the longest says which is meant.
  const longest = Math.max(...found.map(car => numbers[car]!.length));
  return found.filter(car => numbers[car]!.length === longest);
};

const secondsOf = (time: string) => Date.parse(`${time}Z`) / 1000;

/**
 * The order taken cut at its `cars − 1` longest gaps; null where those are not clearly longer than the
 * others: the shortest gap between cars has to be at least `clear` times the longest within one. Of one car
 * there is nothing to cut.
 */
const clear = 2;
const cutAtGaps = <T extends { at: number }>(ordered: readonly T[], cars: number): T[][] | null => {
  if (cars < 1 || ordered.length < cars) return null;
  const gaps = ordered.slice(1).map((photo, i) => ({ before: i + 1, seconds: photo.at - ordered[i]!.at }));
  const byLength = gaps.toSorted((a, b) => b.seconds - a.seconds || a.before - b.before);
  const cuts = byLength.slice(0, cars - 1);
  const within = byLength[cars - 1]?.seconds ?? 0;
  const between = cuts.at(-1)?.seconds ?? Number.POSITIVE_INFINITY;
  if (between <= 0 || between < clear * within) return null;
  const starts = [0, ...cuts.map(cut => cut.before).sort((a, b) => a - b)];
  return starts.map((start, i) => ordered.slice(start, starts[i + 1]));
};

/**
 * Deals a batch of photographs out to the cars of a lot; the answer has one deal for each photograph, in
 * their order. First by inventory number in the file name. The others, where the cars that no name names can
 * be told apart by the gaps between the times taken, go to those cars in their order; that is always
 * doubtful, because only the order says which car is which. All else is left to the owner. `inventoryNumbers`
 * are those of the cars in the order of the lot.
 */
export const dealPhotos = (photos: readonly BatchPhoto[], inventoryNumbers: readonly string[]): Deal[] => {
  const numbers = inventoryNumbers.map(partsOf);
  const deals: Deal[] = photos.map(({ name, takenAt }) => {
    const cars = namedIn(name, numbers);
    if (cars.length === 1) return { car: cars[0]!, by: 'number', doubtful: false, reason: null };
    if (cars.length > 1) return { car: null, by: null, doubtful: true, reason: 'number names several cars' };
    return {
      car: null,
      by: null,
      doubtful: true,
      reason: takenAt === null ? 'no number, and no time taken' : 'the gaps do not tell the cars apart',
    };
  });
  const taken = new Set(deals.flatMap(({ car }) => car ?? []));
  const free = inventoryNumbers.flatMap((_, car) => (taken.has(car) ? [] : [car]));
  const ordered = photos
    .flatMap(({ takenAt }, place) =>
      deals[place]!.reason === 'the gaps do not tell the cars apart' && takenAt !== null
        ? [{ place, at: secondsOf(takenAt) }]
        : [],
    )
    .sort((a, b) => a.at - b.at || a.place - b.place);
  for (const [i, group] of (cutAtGaps(ordered, free.length) ?? []).entries())
    for (const { place } of group)
      deals[place] = { car: free[i]!, by: 'time', doubtful: true, reason: 'by the order taken alone' };
  return deals;
};
