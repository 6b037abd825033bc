import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import { variationFeatures } from '../../../valuation/words.ts';
import { comparableTexts, plainBasePaint, seenText } from '../feature-columns.ts';
import { plain } from '../plain.ts';
import type { ReferenceTables } from './tables.ts';

type Written = Record<string, string>;

/** What text says a car is. Nothing is guessed: what fits more than one thing stays open. */
export interface Match {
  castingId: number | null;
  releaseId: number | null;
  /** Set where exactly one variation fits. */
  variationId: number | null;
  /** Variations that the text leaves open, where it narrows them to some but not to one. */
  candidates: number[];
}

/** Finds the variations of a casting that have all that a text says; `release` is plain, or empty for any. */
export const variationFinder = ({
  castings,
  releasesByCasting,
  plainByCasting,
  settledSeen,
}: ReferenceTables) => {
  const findReleases = (castingId: number, name: string, written: Written) => {
    const year = (written.release_year ?? '').trim();
    return (releasesByCasting.get(castingId) ?? []).filter(
      release =>
        (name === '' || plain(release.name) === name) && (year === '' || String(release.year ?? '') === year),
    );
  };

  const fittingOf = (castingId: number, release: string, written: Written) => {
    const fittingReleases = findReleases(castingId, release, written);
    const releaseId = fittingReleases.length === 1 ? (fittingReleases[0]?.id ?? null) : null;
    const releaseIds = new Set(fittingReleases.map(release => release.id));
    const wanted = variationFeatures.flatMap(feature => {
      const text = written[featureColumns[feature]] ?? '';
      const value = feature === 'basePaint' ? plainBasePaint(text) : plain(text);
      return value === '' ? [] : [[feature, value] as const];
    });
    const all = plainByCasting.get(castingId) ?? [];
    const fitting = all.filter(
      variation =>
        releaseIds.has(variation.releaseId) &&
        wanted.every(([feature, value]) => variation.features[feature] === value),
    );
    return { all, fitting, releaseId };
  };
  /** The variation that the owner has settled such texts to mean. */
  const meantBy = (castingId: number, written: Written) => {
    const name = castings.get(castingId)?.name ?? '';
    const id = settledSeen.get(`${castingId} ${seenText(comparableTexts(written, name))}`);
    return id === undefined ? undefined : plainByCasting.get(castingId)?.find(one => one.id === id);
  };
  const within = (castingId: number, release: string, written: Written): Match => {
    const { all, fitting, releaseId } = fittingOf(castingId, release, written);
    const only = fitting.length === 1 ? fitting[0] : undefined;
    if (only) return { castingId, releaseId: only.releaseId, variationId: only.id, candidates: [] };
    const meant = settledSeen.size > 0 ? meantBy(castingId, written) : undefined;
    if (meant) return { castingId, releaseId: meant.releaseId, variationId: meant.id, candidates: [] };
    const narrowed = fitting.length < all.length ? fitting.map(variation => variation.id) : [];
    return { castingId, releaseId, variationId: null, candidates: narrowed };
  };
  return { fittingOf, meantBy, within };
};
