import { nearest } from '../../../valuation/reading/nearest.ts';
import type { LoadedReference, Match } from '../../reference/match.ts';
import { plain } from '../../reference/plain.ts';

/** Beyond this many different mistakes each is looked up again, so that memory stays bounded. */
const mostMistakes = 10_000;

/** Explains why text led to no variation, with the nearest colour where it looks mistyped. */
export const matchExplainer = ({ coloursOf }: LoadedReference) => {
  // A list repeats its mistakes; each is looked up once.
  const meant = new Map<string, string | null>();
  const nearestColour = (castingId: number, colour: string): string | null => {
    const mistake = `${castingId} ${colour}`;
    const before = meant.get(mistake);
    if (before !== undefined) return before;
    const close = nearest(colour, [...coloursOf(castingId).values()]);
    if (meant.size < mostMistakes) meant.set(mistake, close);
    return close;
  };
  return (written: Record<string, string>, match: Match): string | null => {
    if (match.variationId !== null) return null;
    if (match.castingId === null) {
      const name = written.casting || written.release_name;
      if (!name) return 'unidentified: no casting is given; the text is saved';
      const range = [written.maker, written.series].flatMap(one => (one ? [` of "${one}"`] : [])).join('');
      return `unidentified: "${name}"${range} is not in the reference; the text is saved`;
    }
    const { colour } = written;
    if (colour && !coloursOf(match.castingId).has(plain(colour))) {
      const close = nearestColour(match.castingId, colour);
      return `variation unidentified: this casting has no variation in "${colour}"${close ? ` (did you mean "${close}"?)` : ''}; the text is saved`;
    }
    const fitting = match.candidates.length;
    return fitting > 0
      ? `variation unidentified: ${fitting === 1 ? 'one variation fits what was understood' : `${fitting} variations fit`}; the text is saved`
      : 'variation unidentified: the text fits no variation of this casting, or all of them; it is saved';
  };
};
