import type { BasePaint } from '../../../valuation/words.ts';
import type { Suggestion } from '../views.ts';
import type { ReferenceIndex } from './reference-index.ts';

const wordsOf = (text: string): string[] =>
  text
    .normalize('NFKC')
    .toLowerCase()
    .split(/[\s,;/]+/)
    .filter(Boolean);

/**
 * How well the typed words fit: every one must begin a word of the text; words at the start of the
 * name count more.
 */
const fitOf = (typed: string[], name: string, rest: string): number => {
  const inName = wordsOf(name);
  const inRest = wordsOf(rest);
  let score = 0;
  for (const word of typed) {
    if (inName.some(candidate => candidate === word)) score += 4;
    else if (inName.some(candidate => candidate.startsWith(word))) score += 3;
    else if (inRest.some(candidate => candidate === word)) score += 2;
    else if (inRest.some(candidate => candidate.startsWith(word))) score += 1;
    else return 0;
  }
  return name.toLowerCase().startsWith(typed.join(' ')) ? score + 4 : score;
};

/**
 * Type-ahead over the reference: words in any order, each the beginning of a word of the casting, its
 * releases, its series, or a variation's features. Castings come before their variations until the
 * words tell of one.
 */
export const suggestFrom = (
  index: ReferenceIndex,
  { text, castingId, limit }: { text: string; castingId?: number; limit: number },
): Suggestion[] => {
  const typed = wordsOf(text);
  const found: (Suggestion & { score: number })[] = [];
  for (const casting of index.castings.values()) {
    if (castingId !== undefined && casting.id !== castingId) continue;
    const releases = index.releasesOf.get(casting.id) ?? [];
    const names = releases.map(release => `${release.name} ${release.year ?? ''}`).join(' ');
    const ofCasting = index.ofCasting.get(casting.id) ?? [];
    const score =
      typed.length === 0 ? 1 : fitOf(typed, casting.name, `${casting.series} ${casting.maker} ${names}`);
    if (castingId === undefined && score > 0)
      found.push({
        kind: 'casting',
        castingId: casting.id,
        variationId: null,
        label: casting.name,
        detail: `${casting.series} · ${ofCasting.length} variations`,
        swatch: null,
        basePaint: '',
        // A casting comes before its own variations when both fit alike.
        score: score + 0.5,
      });
    if (typed.length === 0 && castingId === undefined) continue;
    for (const variation of ofCasting) {
      const features = Object.values(variation.features).join(' ');
      const line = `${variation.releaseName} ${variation.releaseYear ?? ''}`;
      const own =
        typed.length === 0
          ? 1
          : fitOf(typed, `${casting.name} ${variation.features.colour}`, `${features} ${line}`);
      if (own === 0) continue;
      found.push({
        kind: 'variation',
        castingId: casting.id,
        variationId: variation.id,
        label: castingId === undefined ? `${casting.name}, ${variation.label}` : variation.label,
        detail: [variation.releaseName, variation.releaseYear, variation.rarity].filter(Boolean).join(' · '),
        swatch: variation.swatch,
        basePaint: variation.features.basePaint as BasePaint | '',
        score: own,
      });
    }
  }
  return found
    .sort((a, b) => b.score - a.score || a.label.localeCompare(b.label, 'en'))
    .slice(0, limit)
    .map(({ score: _, ...suggestion }) => suggestion);
};
