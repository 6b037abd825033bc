import { mostMistyped, spellingsApart } from './likeness.ts';
import { type NameKey, nameKey } from './name-key.ts';

/** Two texts that their owner has said are not one name. */
export type Parted = readonly [string, string];

interface Node {
  text: string;
  key: NameKey;
  /** How often it has each letter, so that most pairs are told apart without being compared. */
  letters: Uint8Array;
}

const kinds = 32;

const lettersOf = (joined: string): Uint8Array => {
  const counts = new Uint8Array(kinds);
  for (let at = 0; at < joined.length; at++) counts[joined.charCodeAt(at) % kinds]! += 1;
  return counts;
};

/**
 * False where the letters alone tell that two spellings are too far apart: a mistyped letter is one less here
 * and one more there.
 */
const mayBeOneName = (a: Node, b: Node): boolean => {
  const most = mostMistyped(Math.min(a.key.joined.length, b.key.joined.length));
  let differ = 0;
  for (let kind = 0; kind < kinds; kind++) differ += Math.abs(a.letters[kind]! - b.letters[kind]!);
  return differ <= 2 * most;
};

const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** Each text once, in order. */
const nodesOf = (texts: readonly string[]): Node[] =>
  [...new Set(texts)].sort(byText).map(text => {
    const key = nameKey(text);
    return { text, key, letters: lettersOf(key.joined) };
  });

/**
 * Groups the spellings of names: each group has texts of which every two are like each other and none are
 * parted. Groups and their texts are in the order of their characters, whatever the order they come in; a
 * text without a letter or figure stands alone.
 */
export const groupNames = (texts: readonly string[], parted: readonly Parted[] = []): string[][] => {
  const apart = new Map<string, Set<string>>();
  for (const [one, other] of parted)
    for (const [from, to] of [
      [one, other],
      [other, one],
    ] as const)
      apart.set(from, (apart.get(from) ?? new Set()).add(to));
  const isParted = (some: string[], others: string[]) =>
    some.some(text => {
      const from = apart.get(text);
      return from !== undefined && others.some(other => from.has(other));
    });

  const nodes = nodesOf(texts);
  const pairs: { one: number; other: number; away: number }[] = [];
  const near = new Map<number, Set<number>>();
  for (const bucket of Map.groupBy(nodes.keys(), at => nodes[at]!.key.marks).values())
    for (const [place, one] of bucket.entries())
      for (const other of bucket.slice(place + 1)) {
        const a = nodes[one]!;
        const b = nodes[other]!;
        if (!mayBeOneName(a, b)) continue;
        const away = spellingsApart(a.key, b.key);
        if (away === null) continue;
        pairs.push({ one, other, away });
        for (const [from, to] of [
          [one, other],
          [other, one],
        ] as const)
          near.set(from, (near.get(from) ?? new Set()).add(to));
      }
  pairs.sort((a, b) => a.away - b.away || a.one - b.one || a.other - b.other);

  const groupOf = nodes.map((_, at) => [at]);
  const textsOf = (group: number[]) => group.map(at => nodes[at]!.text);
  for (const { one, other } of pairs) {
    const first = groupOf[one]!;
    const second = groupOf[other]!;
    if (first === second) continue;
    // Every two of a group are like each other, so that no chain of small steps joins names far apart.
    if (!first.every(at => second.every(to => near.get(at)?.has(to)))) continue;
    if (isParted(textsOf(first), textsOf(second))) continue;
    const whole = [...first, ...second];
    for (const at of whole) groupOf[at] = whole;
  }
  return [...new Set(groupOf)]
    .map(group => textsOf(group).sort(byText))
    .sort((a, b) => byText(a[0] ?? '', b[0] ?? ''));
};

/**
 * For each text the known name that is spelled like it, the nearest and then the first in order; a text
 * without one is absent.
 */
export const nearestKnown = (texts: readonly string[], known: readonly string[]): Map<string, string> => {
  const names = nodesOf(known);
  const found = new Map<string, string>();
  for (const node of nodesOf(texts)) {
    let best: { text: string; away: number } | null = null;
    for (const name of names) {
      const away = mayBeOneName(node, name) ? spellingsApart(node.key, name.key) : null;
      if (away !== null && (best === null || away < best.away)) best = { text: name.text, away };
    }
    if (best) found.set(node.text, best.text);
  }
  return found;
};
