import type { Transaction } from 'kysely';
import { readEstimate } from '../../../valuation/reading/amounts.ts';
import type { Currency } from '../../../valuation/types.ts';
import { type CarStatus, carStatuses, type PartName } from '../../../valuation/words.ts';
import type { Schema } from '../../schema.ts';
import type { CarRecord } from '../cars/cars.ts';
import { replaceCandidates, updateCars } from '../cars/cars-write.ts';
import { carChecks, saveCheck } from '../cars/condition-checks.ts';
import type { HeardText, UnreadText } from '../unread.ts';
import { type MoneySettled, settleMoney, unsettleMoney } from './car-money.ts';
import { valueGiven } from './divide.ts';
import {
  finishGiven,
  gradeGiven,
  identityWithout,
  matched,
  type Naming,
  partsIn,
  textsAfter,
  textsBefore,
  withNote,
  withoutNote,
} from './texts.ts';

type Changes = Partial<Omit<CarRecord, 'id'>>;

/** What is needed beside the car itself. */
export interface SettleTerms {
  naming: Naming;
  /** Of estimates. */
  reporting: Currency;
  /** ISO instant of the change. */
  at: string;
}

const statusGiven = (settled: readonly HeardText[]): CarStatus | undefined => {
  const said = valueGiven(settled, 'status');
  return said === 'sold' ? undefined : carStatuses.find(status => status === said);
};

const estimateGiven = (settled: readonly HeardText[], reporting: Currency) => {
  const said = valueGiven(settled, 'own_estimate');
  const read = said === undefined ? undefined : readEstimate(said, reporting, {});
  return read?.ok ? read.value : undefined;
};

/** Adds missing and reproduction parts to the newest check of a car, or to a first one. */
const addParts = async (
  trx: Transaction<Schema>,
  car: Pick<CarRecord, 'id' | 'grade'>,
  settled: readonly HeardText[],
  at: string,
) => {
  const missing = partsIn(valueGiven(settled, 'missing_parts'));
  const reproductions = partsIn(valueGiven(settled, 'reproduction_parts'));
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

/** Takes parts that were given out of the newest check; a check that held nothing else goes. */
const removeParts = async (
  trx: Transaction<Schema>,
  car: Pick<CarRecord, 'id' | 'grade'>,
  heard: readonly HeardText[],
) => {
  const missing = partsIn(valueGiven(heard, 'missing_parts'));
  const reproductions = partsIn(valueGiven(heard, 'reproduction_parts'));
  const checks = await carChecks(trx, car.id);
  const [newest] = checks;
  if (missing.length + reproductions.length === 0 || !newest) return;
  const parts = newest.parts.filter(
    ({ part, originality, grade, note }) =>
      grade !== null ||
      note !== '' ||
      !(originality === 'missing' ? missing : originality === 'reproduction' ? reproductions : []).includes(
        part,
      ),
  );
  const isBare = parts.length === 0 && newest.notes === '' && newest.grade === car.grade;
  if (isBare && checks.length === 1)
    await trx.deleteFrom('condition_check').where('id', '=', newest.id).execute();
  else await saveCheck(trx, car.id, { ...newest, parts });
};

/** Gives a car what was settled of its texts, where its owner has not given that himself meanwhile. */
export const settleCar = async (
  trx: Transaction<Schema>,
  car: CarRecord,
  { settled, rest }: { settled: readonly HeardText[]; rest: readonly UnreadText[] },
  { naming, reporting, at }: SettleTerms,
): Promise<MoneySettled> => {
  const texts = textsAfter(car.asWritten, settled);
  const changes: Changes = {};
  const grade = gradeGiven(settled);
  if (grade !== undefined && car.grade === null) changes.grade = grade;
  const finish = finishGiven(settled);
  // Until it is settled, a finish stands as original.
  if (finish && car.finishState === 'original') changes.finishState = finish;
  for (const [field, own] of [
    ['location', 'location'],
    ['seller', 'seller'],
  ] as const) {
    const said = valueGiven(settled, field);
    if (said && car[own] === '') changes[own] = said;
  }
  changes.boughtOn = car.boughtOn ?? valueGiven(settled, 'bought_on') ?? null;
  const status = statusGiven(settled);
  if (status && car.status === 'kept') changes.status = status;
  changes.ownWorth = car.ownWorth ?? estimateGiven(settled, reporting) ?? null;
  changes.notes = settled.reduce((notes, { gave }) => withNote(notes, gave.notes), car.notes);
  if (JSON.stringify(texts) !== JSON.stringify(car.asWritten)) {
    changes.asWritten = texts;
    if (car.variationId === null) {
      const { castingId, releaseId, variationId, candidates } = matched(naming, car.castingId, texts);
      Object.assign(changes, { castingId: castingId ?? car.castingId, releaseId, variationId });
      await replaceCandidates(trx, car.id, candidates.slice(0, 500));
    }
  }
  changes.unread = [...rest];
  await updateCars(trx, [{ id: car.id, changes }], at);
  await addParts(trx, { ...car, ...changes }, settled, at);
  const money = await settleMoney(trx, { ...car, ...changes }, { settled, rest }, reporting, at);
  const sold = money.isSold ? { status: 'sold' as const } : {};
  await updateCars(trx, [{ id: car.id, changes: { ...sold, unread: money.rest } }], at);
  return money;
};

/** Takes from a car what words gave it, where that still stands; lots to share come back. */
export const unsettleCar = async (
  trx: Transaction<Schema>,
  car: CarRecord,
  { heard, unread }: { heard: readonly HeardText[]; unread: readonly UnreadText[] },
  { naming, reporting, at }: SettleTerms,
): Promise<number[]> => {
  const texts = textsBefore(car.asWritten, heard);
  const changes: Changes = {};
  const gave = (field: string) => valueGiven(heard, field);
  if (car.grade !== null && car.grade === gradeGiven(heard)) changes.grade = null;
  if (car.finishState === finishGiven(heard)) changes.finishState = 'original';
  if (car.location !== '' && car.location === gave('location')) changes.location = '';
  if (car.seller !== '' && car.seller === gave('seller')) changes.seller = '';
  if (car.boughtOn !== null && car.boughtOn === gave('bought_on')) changes.boughtOn = null;
  if (car.status === statusGiven(heard)) changes.status = 'kept';
  const estimate = estimateGiven(heard, reporting);
  if (estimate && JSON.stringify(estimate) === JSON.stringify(car.ownWorth)) changes.ownWorth = null;
  for (const entry of heard)
    if (entry.gave.notes !== undefined)
      changes.notes = withoutNote(changes.notes ?? car.notes, entry.gave.notes);
  if (JSON.stringify(texts) !== JSON.stringify(car.asWritten)) {
    changes.asWritten = texts;
    const is = identityWithout(naming, car, { before: car.asWritten, after: texts });
    if (is) {
      const { castingId, releaseId, variationId, candidates } = is;
      Object.assign(changes, { castingId, releaseId, variationId });
      await replaceCandidates(trx, car.id, candidates.slice(0, 500));
    }
  }
  await removeParts(trx, car, heard);
  const money = await unsettleMoney(trx, car, heard, unread, reporting);
  if (car.status === 'sold' && !money.isSold) changes.status = 'kept';
  await updateCars(trx, [{ id: car.id, changes: { ...changes, unread: money.rest } }], at);
  return money.toShare;
};
