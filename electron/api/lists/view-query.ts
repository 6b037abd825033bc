import { finishStates, listedStatuses, rarities, recommendations } from '../../../valuation/words.ts';

/** What a view's filter may name that can go or be called otherwise. */
export interface NamedThings {
  lot: ReadonlyMap<number, string>;
  casting: ReadonlyMap<number, string>;
  variation: ReadonlyMap<number, string>;
  series: ReadonlySet<string>;
  source: ReadonlySet<string>;
}

const byNumber = ['lot', 'casting', 'variation'] as const;
const byText = ['series', 'source'] as const;
const fixedWords: Record<string, readonly string[]> = {
  finish: finishStates,
  status: listedStatuses,
  recommendation: recommendations,
  rarity: rarities,
};

const valuesOf = (query: URLSearchParams, name: string): string[] =>
  name === 'series' || name === 'source'
    ? query.getAll(name).filter(Boolean)
    : query.getAll(name).flatMap(text => text.split(',').filter(Boolean));

/** The names of all that a query names by number, to be said when it is gone: "lot 3" → "Loft". */
export const namesIn = (text: string, things: NamedThings): Record<string, string> => {
  const query = new URLSearchParams(text);
  return Object.fromEntries(
    byNumber.flatMap(kind =>
      valuesOf(query, kind).flatMap(value => {
        const name = things[kind].get(Number(value));
        return name === undefined ? [] : [[`${kind} ${value}`, name]];
      }),
    ),
  );
};

/**
 * A view's query without what its filter names and is no longer there; `leftOut` says each thing that went,
 * `noted` each that now has another name.
 */
export const standingQuery = (
  text: string,
  named: Readonly<Record<string, string>>,
  things: NamedThings,
): { query: string; leftOut: string[]; noted: string[] } => {
  const query = new URLSearchParams(text);
  const leftOut: string[] = [];
  const noted: string[] = [];
  const keep = (kind: string, stands: (value: string) => boolean, says: (value: string) => string) => {
    const values = valuesOf(query, kind);
    const standing = values.filter(stands);
    if (standing.length === values.length) return;
    leftOut.push(...values.filter(value => !stands(value)).map(says));
    query.delete(kind);
    if (kind === 'series' || kind === 'source') for (const value of standing) query.append(kind, value);
    else if (standing.length > 0) query.set(kind, standing.join(','));
  };
  for (const kind of byNumber) {
    for (const value of valuesOf(query, kind)) {
      const [was, is] = [named[`${kind} ${value}`], things[kind].get(Number(value))];
      if (was !== undefined && is !== undefined && was !== is)
        noted.push(`the ${kind} “${was}” is now “${is}”`);
    }
    keep(
      kind,
      value => things[kind].has(Number(value)),
      value => `the ${kind} “${named[`${kind} ${value}`] ?? value}”`,
    );
  }
  for (const kind of byText)
    keep(
      kind,
      value => things[kind].has(value),
      value => `the ${kind} “${value}”`,
    );
  for (const [kind, words] of Object.entries(fixedWords))
    keep(
      kind,
      value => words.includes(value),
      value => `${kind} “${value}”`,
    );
  return { query: query.toString(), leftOut, noted };
};
