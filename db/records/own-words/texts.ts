import type { Kysely } from 'kysely';
import { featureColumns } from '../../../valuation/reading/feature-columns.ts';
import {
  type FinishState,
  finishStates,
  type Grade,
  type PartName,
  partNames,
} from '../../../valuation/words.ts';
import { loadMatcher, type Match, type Matcher } from '../../reference/match.ts';
import { plain } from '../../reference/plain.ts';
import { listCastings } from '../../reference/reference.ts';
import type { Schema } from '../../schema.ts';
import type { HeardText } from '../unread.ts';
import { valueGiven } from './divide.ts';

export const identityFields: readonly string[] = [
  'maker',
  'series',
  'casting',
  'release_name',
  'release_year',
  ...Object.values(featureColumns),
];

/**
 * The texts of a car or sale with what was settled: only where its owner has not written something else
 * meanwhile.
 */
export const textsAfter = (
  texts: Record<string, string>,
  settled: readonly HeardText[],
): Record<string, string> => {
  const after = { ...texts };
  for (const { field: own, text, gave } of settled) {
    const stands = after[own];
    const isAsUnread = stands !== undefined && plain(stands) === plain(text);
    // A text that means something of another field does not stay in its own.
    if (isAsUnread && identityFields.includes(own) && gave[own] === undefined) delete after[own];
    for (const [field, value] of Object.entries(gave)) {
      if (!identityFields.includes(field)) continue;
      const before = after[field] ?? '';
      if (before === '' || plain(before) === plain(text)) after[field] = value;
    }
  }
  return after;
};

/** The same without what was given: only where that still stands. */
export const textsBefore = (
  texts: Record<string, string>,
  heard: readonly HeardText[],
): Record<string, string> => {
  const before = { ...texts };
  for (const { gave } of heard)
    for (const [field, value] of Object.entries(gave))
      if (identityFields.includes(field) && plain(before[field] ?? '') === plain(value)) delete before[field];
  return before;
};

export const partsIn = (text: string | undefined): PartName[] =>
  partNames.filter(part => (text ?? '').split(',').includes(part));

export const finishGiven = (settled: readonly HeardText[]): FinishState | undefined =>
  finishStates.find(state => state === valueGiven(settled, 'finish_state'));

export const gradeGiven = (settled: readonly HeardText[]): Grade | undefined => {
  const value = valueGiven(settled, 'grade');
  return value === undefined ? undefined : (Number(value) as Grade);
};

/** A note with another line, unless it stands there. */
export const withNote = (notes: string, line: string | undefined): string =>
  line === undefined || notes.split('\n').includes(line) ? notes : [notes, line].filter(Boolean).join('\n');

/** A note without a line. */
export const withoutNote = (notes: string, line: string): string =>
  notes
    .split('\n')
    .filter(one => one !== line)
    .join('\n');

export interface Naming {
  match: Matcher;
  castings: Map<number, { name: string; maker: string; series: string }>;
}

export const namingOf = async (db: Kysely<Schema>): Promise<Naming> => ({
  match: await loadMatcher(db),
  castings: new Map((await listCastings(db)).map(casting => [casting.id, casting])),
});

/** What the texts say together with the casting that is known already. */
export const matched = (
  { match, castings }: Naming,
  castingId: number | null,
  texts: Record<string, string>,
): Match => {
  const found = match(texts);
  const known = castingId === null ? undefined : castings.get(castingId);
  if (!known || found.castingId === castingId) return found;
  return match({ ...texts, casting: known.name, maker: known.maker, series: known.series });
};

/**
 * What a row is after some of its texts are gone: what the texts had led to goes with them, what its owner
 * has chosen by hand stays. Null where nothing changes.
 */
export const identityWithout = (
  naming: Naming,
  row: { castingId: number | null; variationId: number | null },
  texts: { before: Record<string, string>; after: Record<string, string> },
): Match | null => {
  const was = matched(naming, row.castingId, texts.before);
  if (was.variationId !== row.variationId && row.variationId !== null) return null;
  const ledToCasting = naming.match(texts.before).castingId === row.castingId;
  const is = ledToCasting ? naming.match(texts.after) : matched(naming, row.castingId, texts.after);
  return is.castingId === null && !ledToCasting ? null : is;
};
