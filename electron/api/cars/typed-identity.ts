import type { CarRecord } from '../../../db/records/cars/cars.ts';
import type { Match, Matcher } from '../../../db/reference/match.ts';
import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import { variationFeatures } from '../../../valuation/words.ts';
import type { ReferenceIndex } from '../reference/reference-index.ts';

export type Identity = Match & { asWritten: Record<string, string> };

type Texts = Record<string, string>;

const without = (texts: Texts, ...columns: string[]): Texts =>
  Object.fromEntries(Object.entries(texts).filter(([column]) => !columns.includes(column)));

const said = (texts: Texts): Texts =>
  Object.fromEntries(Object.entries(texts).filter(([, text]) => text.trim() !== ''));

/** An identified car's casting, release and features as text, by our import columns. */
const asColumns = (index: ReferenceIndex, car: CarRecord): { casting: Texts; features: Texts } => {
  const casting = car.castingId === null ? undefined : index.castings.get(car.castingId);
  const variation = car.variationId === null ? undefined : index.variations.get(car.variationId);
  return {
    casting: casting ? { casting: casting.name, series: casting.series, maker: casting.maker } : {},
    features: variation
      ? said({
          release_name: variation.releaseName,
          release_year: variation.releaseYear === null ? '' : String(variation.releaseYear),
          ...Object.fromEntries(
            variationFeatures.map(feature => [featureColumns[feature], variation.features[feature]]),
          ),
        })
      : {},
  };
};

/**
 * What a car is after its owner has typed into some of its columns. The typed text is matched against the
 * reference together with what is known of the car; where that fits nothing, without the release, and then by
 * the typed text alone. Text that fits nothing is kept as written, and what was known of the car is written
 * beside it, so that nothing is lost from sight.
 */
export const typedIdentity = (
  index: ReferenceIndex,
  match: Matcher,
  car: CarRecord,
  typed: Record<string, string>,
): Identity => {
  const known = asColumns(index, car);
  if ('casting' in typed) {
    // Another casting: its own release, series and maker are not those of the one before.
    const stale = ['release_name', 'release_year', 'series', 'maker'].filter(column => !(column in typed));
    const carried = said({ ...without(car.asWritten, ...stale), ...typed });
    return { ...match(carried), asWritten: carried };
  }
  const asWritten = said({ ...car.asWritten, ...typed });
  const typedRelease = 'release_name' in typed || 'release_year' in typed;
  const everything = said({ ...asWritten, ...known.casting, ...known.features, ...typed });
  const attempts = [
    everything,
    ...(typedRelease ? [] : [without(everything, 'release_name', 'release_year')]),
    said({ ...known.casting, ...asWritten }),
    said({ ...known.casting, ...typed }),
  ];
  for (const attempt of attempts) {
    const found = match(attempt);
    if (found.variationId !== null || found.candidates.length > 0) return { ...found, asWritten };
  }
  const { castingId, releaseId } = match(everything);
  return {
    castingId: castingId ?? car.castingId,
    releaseId,
    variationId: null,
    candidates: [],
    asWritten: said({ ...known.features, ...asWritten }),
  };
};
