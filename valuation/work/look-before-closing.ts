import type { PartName } from '../words.ts';

/** Something to look at before a car is closed. */
export interface LookItem {
  /** Stays the same, so that what was ticked is known again. */
  key: string;
  part: PartName;
  text: string;
}

/** What is seen too late once the posts are closed. Common practice, no source. */
const usual: readonly LookItem[] = [
  {
    key: 'glazing-front',
    part: 'glazing',
    text: 'Glazing in front: seated, clear, nothing trapped behind it',
  },
  {
    key: 'glazing-rear',
    part: 'glazing',
    text: 'Glazing at the rear: seated, clear, nothing trapped behind it',
  },
  { key: 'roof', part: 'roof', text: 'Roof: whole, its edge clean, no mark from masking' },
  { key: 'interior', part: 'interior', text: 'Interior: the right way round, flat, nothing loose in it' },
  { key: 'base', part: 'base', text: 'Base: clean inside, nothing between it and the body' },
  { key: 'axles', part: 'axles', text: 'Axles: straight, in their channels' },
  { key: 'wheels', part: 'wheels', text: 'Wheels: all turn freely, none rubs' },
  { key: 'accessory', part: 'accessory', text: 'Accessory: seated' },
];

/**
 * What to look at before a car is closed: the usual places, and what is noted of the casting's own parts.
 * `without` are parts that this car never had.
 */
export const lookBeforeClosing = (
  parts: readonly { part: PartName; lookAt: string }[],
  without: readonly PartName[] = [],
): LookItem[] => {
  const noted = new Map(parts.map(({ part, lookAt }) => [part, lookAt.trim()]));
  const places = usual.filter(({ part }) => !without.includes(part) || noted.get(part));
  const own = [...noted].flatMap(([part, text]) =>
    text === ''
      ? []
      : [
          {
            key: `own-${part.replaceAll(' ', '-')}`,
            part,
            text: `${part[0]!.toUpperCase()}${part.slice(1)}: ${text}`,
          },
        ],
  );
  return places
    .flatMap((item, at) => {
      const last = places.findLastIndex(({ part }) => part === item.part) === at;
      return [item, ...(last ? own.filter(({ part }) => part === item.part) : [])];
    })
    .concat(own.filter(({ part }) => !places.some(item => item.part === part)));
};
