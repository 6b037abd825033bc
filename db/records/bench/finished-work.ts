import type { Kysely, Transaction } from 'kysely';
import type { IsoDate } from '../../../valuation/types.ts';
import {
  type Closure,
  type DeviationKind,
  deviationKinds,
  type FidelityGrade,
  type FinishState,
  type Grade,
  type WorkKind,
} from '../../../valuation/words.ts';
import { gradeToHalf, halfToGrade, inChunks, readWords } from '../../codec.ts';
import type { Schema } from '../../schema.ts';

/** What was done to a car when work on it was finished, as it is recorded. */
export interface FinishedWork {
  id: number;
  carId: number;
  jobId: number | null;
  checkId: number | null;
  finishedOn: IsoDate;
  kind: WorkKind;
  finishState: FinishState;
  finishBefore: FinishState;
  gradeBefore: Grade | null;
  /** What it wears since; empty where that is what it was made in. */
  colour: string;
  bodyFinish: string;
  basePaint: string;
  roof: string;
  closure: Closure | 'not opened' | '';
  bearings: string;
  axles: string;
  fidelity: FidelityGrade | null;
  departures: DeviationKind[];
  leftAsWas: string;
  minutes: number | null;
  materials: string;
  parts: string;
  who: string;
  mark: string;
  notes: string;
}

/** Finished work by car id, each car's newest first; of all cars, or of those given. */
export const listFinishedWork = async (
  db: Kysely<Schema>,
  carIds?: number[],
): Promise<Map<number, FinishedWork[]>> => {
  const rows = await inChunks(carIds, ids => {
    const query = db
      .selectFrom('finished_work')
      .selectAll()
      .orderBy('finished_on', 'desc')
      .orderBy('id', 'desc');
    return (ids ? query.where('car_id', 'in', ids) : query).execute();
  });
  const read = rows.map(
    (row): FinishedWork => ({
      id: row.id,
      carId: row.car_id,
      jobId: row.job_id,
      checkId: row.check_id,
      finishedOn: row.finished_on,
      kind: row.kind,
      finishState: row.finish_state,
      finishBefore: row.finish_before,
      gradeBefore: halfToGrade(row.grade_before_half),
      colour: row.colour,
      bodyFinish: row.body_finish,
      basePaint: row.base_paint,
      roof: row.roof,
      closure: row.closure,
      bearings: row.bearings,
      axles: row.axles,
      fidelity: row.fidelity,
      departures: readWords(row.departures, deviationKinds),
      leftAsWas: row.left_as_was,
      minutes: row.minutes,
      materials: row.materials,
      parts: row.parts,
      who: row.who,
      mark: row.mark,
      notes: row.notes,
    }),
  );
  return Map.groupBy(read, one => one.carId);
};

/** Adds a record of finished work. Returns its id. */
export const insertFinishedWork = async (
  trx: Transaction<Schema>,
  work: Omit<FinishedWork, 'id'>,
): Promise<number> => {
  const { id } = await trx
    .insertInto('finished_work')
    .values({
      car_id: work.carId,
      job_id: work.jobId,
      check_id: work.checkId,
      finished_on: work.finishedOn,
      kind: work.kind,
      finish_state: work.finishState,
      finish_before: work.finishBefore,
      grade_before_half: gradeToHalf(work.gradeBefore),
      colour: work.colour,
      body_finish: work.bodyFinish,
      base_paint: work.basePaint,
      roof: work.roof,
      closure: work.closure,
      bearings: work.bearings,
      axles: work.axles,
      fidelity: work.fidelity,
      departures: JSON.stringify(work.departures),
      left_as_was: work.leftAsWas,
      minutes: work.minutes,
      materials: work.materials,
      parts: work.parts,
      who: work.who,
      mark: work.mark,
      notes: work.notes,
    })
    .returning('id')
    .executeTakeFirstOrThrow();
  return id;
};
