import { nameKey } from '../../../valuation/reading/names/name-key.ts';
import { findNames } from '../../../valuation/reading/sale-line/casting.ts';
import { makeLexicon } from '../../../valuation/reading/sale-line/lexicon.ts';
import { newLine } from '../../../valuation/reading/sale-line/text.ts';
import type { LoadedReference } from '../../reference/match.ts';
import { plain } from '../../reference/plain.ts';

const mostRemembered = 5000;
const wordsAlone = /[\p{L}\p{N}]+/gu;
/** Common practice, no source. */
const pickup = /(?<!\p{L})p\/u(?!\p{L})/giu;

/**
 * The one name of the reference that a whole text shortens or mistypes, such as "Otterholt Wgn" or "Skerow GT", or that
 * has its maker or series beside it, such as "Thornby Otterholt"; null where none is, where two are, and where its owner has said that they are different names. It goes by the
 * rules by which sale lines find a name, but the text must be that name and nothing else.
 */
export const nearNames = (reference: LoadedReference): ((text: string) => string | null) => {
  let lexicon: ReturnType<typeof makeLexicon> | null = null;
  const known = new Map<string, string | null>();
  /** The words of its maker's and its series' names, which people write before a car's own. */
  const rangesOf = (castingId: number): ReadonlySet<string> => {
    const casting = reference.castingOf(castingId);
    return new Set((`${casting?.maker} ${casting?.series}`.match(wordsAlone) ?? []).map(plain));
  };
  const find = (text: string): string | null => {
    lexicon ??= makeLexicon(
      reference.castings().map(casting => ({ ...casting, features: {} })),
      [],
      [],
    );
    const shown = text.trim().replace(pickup, 'pickup');
    const found = findNames(newLine(shown), lexicon);
    const [first] = found;
    if (!first || new Set(found.map(({ name }) => name.castingId)).size > 1) return null;
    const { span, name } = first;
    const beside = `${shown.slice(0, span.start)} ${shown.slice(span.end)}`;
    const itself = shown.slice(span.start, span.end);
    const words = itself.match(wordsAlone) ?? [];
    const ranges = rangesOf(name.castingId);
    const isWhole =
      !beside.includes('?') &&
      (beside.match(wordsAlone) ?? []).every(word => ranges.has(plain(word))) &&
      words.length >= name.words.length;
    if (!isWhole || nameKey(itself).marks !== nameKey(name.name).marks) return null;
    return reference.areParted(text, name.name) ? null : name.name;
  };
  return text => {
    const before = known.get(text);
    if (before !== undefined) return before;
    const name = find(text);
    if (known.size >= mostRemembered) known.clear();
    known.set(text, name);
    return name;
  };
};
