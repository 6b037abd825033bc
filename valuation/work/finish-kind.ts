import type { FinishKind } from '../types.ts';

const has = (pattern: string): RegExp => new RegExp(pattern, 'i');
const plated = has(String.raw`\bplat(?:e|ed|ing)\b|chrom|vacuum`);
const lacquered = has('lacquer|candy|metallic|translucent|transparent|tinted');
const enamelled = has('enamel|opaque|solid|gloss|matt');
const bare = has(String.raw`\bbare\b|unpainted|polished|raw\b`);

/**
 * How a variation's body was finished, by the words that the reference has for it: plate under clear
 * lacquer is plate, lacquer over bare metal is lacquer. `unknown` where nothing is recorded or the words
 * say none of these.
 */
export const finishKind = (bodyFinish: string): FinishKind => {
  if (plated.test(bodyFinish)) return 'plate';
  if (lacquered.test(bodyFinish)) return 'lacquer';
  if (enamelled.test(bodyFinish)) return 'enamel';
  return bare.test(bodyFinish) ? 'bare' : 'unknown';
};

const none = has('^(?:none|no|-|–|body colou?r|plain|open|as body|matching|same|ribbed|)$');

/** True where the words say that a part is finished apart from the body: a black roof, a painted tail. */
export const finishedApart = (words: string): boolean => !none.test(words.trim());
