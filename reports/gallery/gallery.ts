import type { IsoDate } from '../../valuation/types.ts';

/** A photograph for the gallery, by the path of its file. */
export interface GalleryPhoto {
  path: string;
  view: string;
  caption: string;
  /** "before", "after", or what the owner wrote. */
  state: string;
  takenOn: IsoDate | null;
}

/** A car as everybody may see it: no value, no price, no place, no person. */
export interface GalleryCar {
  inventoryNumber: string;
  name: string;
  series: string | null;
  /** What it wears now, and what it was made in where that is another. */
  colour: string;
  swatch: string | null;
  /** Grade and finish state. */
  condition: string;
  /** What must be said of its finish and the work on it. */
  statement: string;
  /** True where its factory finish is not whole, or it was worked on. */
  disclosed: boolean;
  facts: { label: string; value: string }[];
  /** Parts that were looked at: what each is and its grade. */
  parts: { part: string; grade: string; originality: string }[];
  photos: GalleryPhoto[];
}

export interface Gallery {
  title: string;
  locale: string;
  cars: GalleryCar[];
}

/** Two photographs of one view, before the work and after it. */
export interface GalleryPair<T> {
  before: T;
  after: T;
}

/** The views that were taken both before and after; of several the first before and the last after. */
export const galleryPairs = <T extends Pick<GalleryPhoto, 'view' | 'state'>>(
  photos: readonly T[],
): GalleryPair<T>[] =>
  [...Map.groupBy(photos, photo => photo.view).values()].flatMap(ofView => {
    const before = ofView.find(photo => photo.state === 'before');
    const after = ofView.findLast(photo => photo.state === 'after');
    return before && after ? [{ before, after }] : [];
  });

/** A name for each car's page that every system and address takes, each once. */
export const pageNames = (cars: readonly Pick<GalleryCar, 'inventoryNumber'>[]): string[] => {
  const taken = new Set<string>();
  return cars.map(({ inventoryNumber }, i) => {
    const plain = inventoryNumber
      .normalize('NFKD')
      .toLowerCase()
      .replace(/[^a-z0-9]+/g, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 40);
    const name = plain && !taken.has(plain) ? plain : [plain || 'car', i + 1].join('-n');
    taken.add(name);
    return name;
  });
};
