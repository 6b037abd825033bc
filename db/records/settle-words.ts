import type { Kysely, Transaction } from 'kysely';
import { readGradeScale, readOnScale } from '../../valuation/reading/grade-scale.ts';
import { readMeaning } from '../../valuation/reading/meanings.ts';
import type { OwnWord } from '../../valuation/reading/sale-line/lexicon.ts';
import {
  type FinishState,
  finishStates,
  type Grade,
  type PartName,
  partNames,
} from '../../valuation/words.ts';
import { featureColumns, loadMatcher, type Matcher } from '../reference/match.ts';
import { plain } from '../reference/plain.ts';
import { listCastings } from '../reference/reference.ts';
import type { Schema } from '../schema.ts';
import { type CarRecord, rowToCar } from './cars.ts';
import { replaceCandidates, updateCars } from './cars-write.ts';
import { carChecks, saveCheck } from './condition-checks.ts';
import { rowToSale, type SaleEntry, updateSale } from './sales.ts';
import { isSaidOf, plainHeading, readUnread, type UnreadText, unreadToJson } from './unread.ts';

/** The rows that an answer changed. */
export interface Settled {
  carIds: number[];
  saleIds: number[];
}

const identityFields: readonly string[] = [
  'maker',
  'series',
  'casting',
  'release_name',
  'release_year',
  ...Object.values(featureColumns),
];

/** What of an unread text its words give, by field, each value as its field writes it. */
type Given = { unread: UnreadText; fields: Map<string, string> };

/** The values that words give to a text: by its own word, or on the scale that was said for its column. */
const given = (unread: UnreadText, words: readonly OwnWord[]): Map<string, string> | null => {
  const fields = new Map<string, string>();
  let isSettled = false;
  for (const word of words) {
    if (word.field === 'grade_scale') {
      const isItsColumn = word.column === '*' || plainHeading(word.column) === plainHeading(unread.column);
      if (!isItsColumn || (unread.field !== '' && unread.field !== 'grade')) continue;
      const scale = readGradeScale(word.meaning);
      const grade = scale.ok ? readOnScale(unread.text, scale.value) : scale;
      if (!grade.ok) continue;
      fields.set('grade', String(grade.value));
      isSettled = true;
    } else if (isSaidOf(word, unread)) {
      const meaning = readMeaning(word.field, word.meaning);
      if (!meaning.ok) continue;
      if (word.field !== 'nothing') fields.set(word.field, meaning.value);
      isSettled = true;
    }
  }
  return isSettled ? fields : null;
};

/** Which unread texts words settle, and which stay. */
const divide = (unread: readonly UnreadText[], words: readonly OwnWord[]) => {
  const settled: Given[] = [];
  const rest: UnreadText[] = [];
  for (const entry of unread) {
    const fields = given(entry, words);
    if (fields) settled.push({ unread: entry, fields });
    else rest.push(entry);
  }
  return { settled, rest };
};

/**
 * The texts of a car or sale with what was settled: only where its owner has not written
 * something else meanwhile.
 */
const textsAfter = (texts: Record<string, string>, settled: Given[]): Record<string, string> => {
  const after = { ...texts };
  for (const { unread, fields } of settled) {
    const stands = after[unread.field];
    const isAsUnread = stands !== undefined && plain(stands) === plain(unread.text);
    // A text that means something of another field does not stay in its own.
    if (isAsUnread && identityFields.includes(unread.field) && !fields.has(unread.field))
      delete after[unread.field];
    for (const [field, value] of fields) {
      if (!identityFields.includes(field)) continue;
      const before = after[field] ?? '';
      if (before === '' || plain(before) === plain(unread.text)) after[field] = value;
    }
  }
  return after;
};

const settledValue = (settled: Given[], field: string): string | undefined =>
  settled.map(({ fields }) => fields.get(field)).find(value => value !== undefined);

const partsIn = (text: string | undefined): PartName[] =>
  partNames.filter(part => (text ?? '').split(',').includes(part));

const finishOf = (settled: Given[]): FinishState | undefined =>
  finishStates.find(state => state === settledValue(settled, 'finish_state'));

const gradeOf = (settled: Given[]): Grade | undefined => {
  const value = settledValue(settled, 'grade');
  return value === undefined ? undefined : (Number(value) as Grade);
};

/** Adds missing and reproduction parts to the newest check of a car, or to a first one. */
const addParts = async (trx: Transaction<Schema>, car: CarRecord, settled: Given[], at: string) => {
  const missing = partsIn(settledValue(settled, 'missing_parts'));
  const reproductions = partsIn(settledValue(settled, 'reproduction_parts'));
  if (missing.length + reproductions.length === 0) return;
  const [newest] = await carChecks(trx, car.id);
  const known = newest?.parts ?? [];
  const part = (originality: 'missing' | 'reproduction') => (name: PartName) =>
    known.some(one => one.part === name) ? [] : [{ part: name, grade: null, originality, note: '' }];
  await saveCheck(trx, car.id, {
    id: newest?.id ?? null,
    checkedOn: newest?.checkedOn ?? at.slice(0, 10),
    grade: newest?.grade ?? car.grade,
    notes: newest?.notes ?? '',
    parts: [...known, ...missing.flatMap(part('missing')), ...reproductions.flatMap(part('reproduction'))],
  });
};

interface Naming {
  match: Matcher;
  castings: Map<number, { name: string; maker: string; series: string }>;
}

/** What the texts say together with the casting that is known already. */
const matched = ({ match, castings }: Naming, castingId: number | null, texts: Record<string, string>) => {
  const found = match(texts);
  const known = castingId === null ? undefined : castings.get(castingId);
  if (!known || found.castingId === castingId) return found;
  return match({ ...texts, casting: known.name, maker: known.maker, series: known.series });
};

const settleCar = async (
  trx: Transaction<Schema>,
  car: CarRecord,
  { settled, rest }: ReturnType<typeof divide>,
  naming: Naming,
  at: string,
): Promise<void> => {
  const texts = textsAfter(car.asWritten, settled);
  const changes: Partial<Omit<CarRecord, 'id'>> = {};
  const grade = gradeOf(settled);
  if (grade !== undefined && car.grade === null) changes.grade = grade;
  const finish = finishOf(settled);
  // Until it is settled, a finish stands as original.
  if (finish && car.finishState === 'original') changes.finishState = finish;
  const location = settledValue(settled, 'location');
  if (location && car.location === '') changes.location = location;
  if (JSON.stringify(texts) !== JSON.stringify(car.asWritten)) {
    changes.asWritten = texts;
    if (car.variationId === null) {
      const { castingId, releaseId, variationId, candidates } = matched(naming, car.castingId, texts);
      Object.assign(changes, { castingId: castingId ?? car.castingId, releaseId, variationId });
      await replaceCandidates(trx, car.id, candidates.slice(0, 500));
    }
  }
  await updateCars(trx, [{ id: car.id, changes }], at);
  await addParts(trx, { ...car, ...changes }, settled, at);
  await trx
    .updateTable('car')
    .set({ unread: unreadToJson(rest), updated_at: at })
    .where('id', '=', car.id)
    .execute();
};

/** What a record says that was left out because its finish was not settled. */
export const finishNotSettled = 'Its finish is not settled: ';

const settleSale = async (
  trx: Transaction<Schema>,
  sale: SaleEntry,
  { settled, rest }: ReturnType<typeof divide>,
  naming: Naming,
): Promise<void> => {
  const texts = textsAfter(sale.asWritten, settled);
  const after: SaleEntry = { ...sale, asWritten: texts };
  after.grade ??= gradeOf(settled) ?? null;
  const finish = finishOf(settled);
  if (finish && sale.finishState === 'original') after.finishState = finish;
  if (finish && sale.excludedWhy.startsWith(finishNotSettled))
    Object.assign(after, { excluded: false, excludedWhy: '' });
  const parts = (before: PartName[], field: string) =>
    partNames.filter(part => before.includes(part) || partsIn(settledValue(settled, field)).includes(part));
  after.missingParts = parts(sale.missingParts, 'missing_parts');
  after.reproductionParts = parts(sale.reproductionParts, 'reproduction_parts');
  after.source ||= settledValue(settled, 'source') ?? '';
  if (JSON.stringify(texts) !== JSON.stringify(sale.asWritten) && sale.variationId === null) {
    const { castingId, variationId } = matched(naming, sale.castingId, texts);
    Object.assign(after, { castingId: castingId ?? sale.castingId, variationId });
  }
  await updateSale(trx, after);
  await trx
    .updateTable('sale_record')
    .set({ unread: unreadToJson(rest) })
    .where('id', '=', sale.id)
    .execute();
};

const namingOf = async (db: Kysely<Schema>): Promise<Naming> => ({
  match: await loadMatcher(db),
  castings: new Map((await listCastings(db)).map(casting => [casting.id, casting])),
});

/**
 * Applies words to all cars and sale records in which their texts were not understood, and to no other: each
 * takes what the text means where its owner has not given that himself meanwhile, and is identified anew
 * where the text names what it is.
 */
export const settleWords = async (
  trx: Transaction<Schema>,
  words: readonly OwnWord[],
  at: string,
): Promise<Settled> => {
  const cars = await trx.selectFrom('car').selectAll().where('unread', '!=', '[]').orderBy('id').execute();
  const sales = await trx
    .selectFrom('sale_record')
    .selectAll()
    .where('unread', '!=', '[]')
    .orderBy('id')
    .execute();
  const done: Settled = { carIds: [], saleIds: [] };
  if (words.length === 0 || cars.length + sales.length === 0) return done;
  const naming = await namingOf(trx);
  for (const row of cars) {
    const divided = divide(readUnread(row.unread), words);
    if (divided.settled.length === 0) continue;
    await settleCar(trx, rowToCar(row), divided, naming, at);
    done.carIds.push(row.id);
  }
  for (const row of sales) {
    const divided = divide(readUnread(row.unread), words);
    if (divided.settled.length === 0) continue;
    await settleSale(trx, rowToSale(row), divided, naming);
    done.saleIds.push(row.id);
  }
  return done;
};
