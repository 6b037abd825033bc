import {
  listWorkRecords,
  type WholeJob,
  type WholeStep,
  type WholeUse,
  type WholeWork,
} from '../../../db/records/bench/whole-jobs.ts';
import {
  amountCell,
  type CellValue,
  type DataTable,
  dateCell,
  type ListColumn,
  listTable,
  numberCell,
  textCell,
} from '../../../reports/tables/data-table.ts';
import { photosText, timesText, usesText } from '../../../valuation/reading/work-cells.ts';
import type { ThreePoint } from '../../../valuation/types.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import { carColumns, chosenOf, type OfCar, withNumbers } from './car-of-row.ts';

interface JobRow {
  carId: number;
  /** Null where work was finished that was no job. */
  job: WholeJob | null;
  /** Place of the job in the list, from 1. */
  number: number | null;
  /** What was finished; on the first row of its job alone. */
  work: WholeWork | null;
  /** Null where what was used belongs to no step, or the job has none. */
  step: WholeStep | null;
  /** Place of the step in its job, from 1. */
  place: number | null;
  /** Whether the row tells of the step itself, and not only of what it used in one more currency. */
  told: boolean;
  /** In one currency. */
  uses: readonly WholeUse[];
  /** All that was used at the step, on the row that tells of it. */
  allUses: readonly WholeUse[];
}
type Column = ListColumn<OfCar<JobRow>>;

const dayOf = (instant: string | null | undefined) => dateCell(instant?.slice(0, 10));

/** Of a step that the row tells of, so that no minute stands twice in the list. */
const ofStep =
  (value: (step: WholeStep) => CellValue) =>
  ({ step, told }: JobRow): CellValue =>
    step && told ? value(step) : null;
const ofWork =
  (value: (work: WholeWork) => CellValue) =>
  ({ work }: JobRow): CellValue =>
    work && value(work);

const minutes = (seconds: number): CellValue => (seconds === 0 ? null : numberCell(Math.round(seconds / 60)));
const counted = ({ times }: WholeStep): number =>
  times.reduce((sum, { seconds, sharedBy }) => sum + Math.round((seconds ?? 0) / sharedBy), 0);
const uncounted = ({ times }: WholeStep): number =>
  times.filter(({ endedAt, seconds }) => endedAt !== null && seconds === null).length;

const planned = (name: string, of: (step: WholeStep) => ThreePoint): Column[] => [
  { name, width: 15, value: ofStep(step => numberCell(of(step).likely)) },
  { name: `${name}_low`, width: 15, value: ofStep(step => numberCell(of(step).low)) },
  { name: `${name}_high`, width: 15, value: ofStep(step => numberCell(of(step).high)) },
];

/** What is said of the job, alike on each of its rows. */
const jobColumns: readonly Column[] = [
  { name: 'work', width: 12, value: ({ job, work }) => textCell(job?.kind ?? work?.kind) },
  { name: 'job_state', width: 11, value: ({ job }) => textCell(job?.state) },
  { name: 'season', width: 18, value: ({ job }) => textCell(job?.season) },
  { name: 'added_on', width: 12, value: ({ job }) => dayOf(job?.addedAt) },
  { name: 'started_on', width: 12, value: ({ job }) => dayOf(job?.startedAt) },
  { name: 'ended_on', width: 12, value: ({ job }) => dayOf(job?.endedAt) },
];

const stepColumns: readonly Column[] = [
  { name: 'step_number', width: 12, value: ({ place }) => numberCell(place) },
  { name: 'step', width: 30, value: ({ step }) => textCell(step?.name) },
  { name: 'part', width: 12, value: ({ step }) => textCell(step?.part) },
  { name: 'step_state', width: 11, value: ({ step }) => textCell(step?.state) },
  { name: 'cautions', width: 20, value: ofStep(({ hazards }) => textCell(hazards.join('; '))) },
  ...planned('planned_minutes', ({ hands }) => hands),
  ...planned('planned_waiting_minutes', ({ waiting }) => waiting),
  { name: 'done_minutes', width: 13, value: ofStep(step => minutes(counted(step))) },
  {
    name: 'times_not_counted',
    width: 17,
    value: ofStep(step => (uncounted(step) === 0 ? null : numberCell(uncounted(step)))),
  },
  { name: 'done_on', width: 12, value: ofStep(step => dayOf(step.doneAt)) },
  { name: 'went_wrong', width: 11, value: ofStep(step => textCell(step.spoiled ? 'yes' : '')) },
  {
    name: 'materials',
    width: 36,
    value: ({ uses }) =>
      textCell(
        uses
          .map(({ name, part }) => (part && part.quantity > 1 ? `${part.quantity} × ${name}` : name))
          .join('; '),
      ),
  },
  {
    name: 'cost',
    width: 12,
    value: ({ uses }) =>
      uses.length === 0
        ? null
        : amountCell(
            uses.reduce((sum, use) => sum + use.minor, 0),
            uses[0]?.currency,
          ),
  },
  { name: 'currency', width: 10, value: ({ uses }) => textCell(uses[0]?.currency) },
  { name: 'note', width: 30, value: ofStep(step => textCell(step.note)) },
];

const aboutJobColumns: readonly Column[] = [
  { name: 'who', width: 16, value: ({ job }) => textCell(job?.who) },
  { name: 'given_up_why', width: 24, value: ({ job }) => textCell(job?.reason) },
  { name: 'job_notes', width: 30, value: ({ job }) => textCell(job?.notes) },
];

/** What was finished, by which a car is known as restored and in what it departs. */
const workColumns: readonly Column[] = [
  { name: 'finished_on', width: 12, value: ofWork(work => dateCell(work.finishedOn)) },
  { name: 'finished_work', width: 13, value: ofWork(work => textCell(work.kind)) },
  { name: 'finish_before', width: 13, value: ofWork(work => textCell(work.finishBefore)) },
  { name: 'finish_after', width: 13, value: ofWork(work => textCell(work.finishState)) },
  { name: 'grade_before', width: 12, value: ofWork(work => numberCell(work.gradeBefore)) },
  { name: 'fidelity', width: 16, value: ofWork(work => textCell(work.fidelity)) },
  { name: 'departures', width: 36, value: ofWork(work => textCell(work.departures.join('; '))) },
  { name: 'left_as_was', width: 24, value: ofWork(work => textCell(work.leftAsWas)) },
  { name: 'new_colour', width: 16, value: ofWork(work => textCell(work.colour)) },
  { name: 'new_body_finish', width: 16, value: ofWork(work => textCell(work.bodyFinish)) },
  { name: 'new_base_paint', width: 16, value: ofWork(work => textCell(work.basePaint)) },
  { name: 'new_roof', width: 12, value: ofWork(work => textCell(work.roof)) },
  { name: 'closure', width: 12, value: ofWork(work => textCell(work.closure)) },
  { name: 'bearings', width: 16, value: ofWork(work => textCell(work.bearings)) },
  { name: 'axles', width: 16, value: ofWork(work => textCell(work.axles)) },
  { name: 'work_minutes', width: 13, value: ofWork(work => numberCell(work.minutes)) },
  { name: 'work_materials', width: 30, value: ofWork(work => textCell(work.materials)) },
  { name: 'work_parts', width: 30, value: ofWork(work => textCell(work.parts)) },
  { name: 'restored_by', width: 16, value: ofWork(work => textCell(work.who)) },
  { name: 'restorer_mark', width: 16, value: ofWork(work => textCell(work.mark)) },
  { name: 'work_notes', width: 30, value: ofWork(work => textCell(work.notes)) },
  { name: 'parts_checked', width: 13, value: ofWork(work => textCell(work.isChecked ? 'yes' : '')) },
];

/** What an import needs to make the same job again, and a reader can leave aside. */
const againColumns: readonly Column[] = [
  { name: 'job_number', width: 11, value: ({ number }) => numberCell(number) },
  { name: 'aims_at', width: 8, value: ({ job }) => numberCell(job?.aim) },
  { name: 'paint_colour', width: 16, value: ({ job }) => textCell(job?.colour) },
  {
    name: 'planned_cost',
    width: 13,
    value: ({ job }) => amountCell(job?.plannedCost?.minor, job?.plannedCost?.currency),
  },
  { name: 'planned_currency', width: 16, value: ({ job }) => textCell(job?.plannedCost?.currency) },
  { name: 'looked_at', width: 24, value: ({ job }) => textCell(job?.lookedAt.join('\n')) },
  { name: 'added_at', width: 26, value: ({ job }) => textCell(job?.addedAt) },
  { name: 'started_at', width: 26, value: ({ job }) => textCell(job?.startedAt) },
  { name: 'ended_at', width: 26, value: ({ job }) => textCell(job?.endedAt) },
  { name: 'step_key', width: 20, value: ofStep(step => textCell(step.step)) },
  { name: 'because', width: 30, value: ofStep(step => textCell(step.why && JSON.stringify(step.why))) },
  { name: 'done_at', width: 26, value: ofStep(step => textCell(step.doneAt)) },
  { name: 'waits_until', width: 26, value: ofStep(step => textCell(step.waitsUntil)) },
  { name: 'heard_at', width: 26, value: ofStep(step => textCell(step.heardAt)) },
  { name: 'times', width: 60, value: ofStep(step => textCell(timesText(step.times))) },
  { name: 'used', width: 60, value: ({ allUses }) => textCell(usesText(allUses)) },
  { name: 'photographs', width: 60, value: ofStep(step => textCell(photosText(step.photos))) },
  { name: 'job_photographs', width: 60, value: ({ job }) => textCell(job && photosText(job.photos)) },
];

const columns: readonly Column[] = [
  ...carColumns,
  ...jobColumns,
  ...stepColumns,
  ...aboutJobColumns,
  ...workColumns,
  ...againColumns,
];

type StepRow = Pick<JobRow, 'step' | 'place' | 'told' | 'uses' | 'allUses'>;

/** A row for each step, and one more for each further currency in which it used something. */
const rowsOf = (job: WholeJob): StepRow[] => {
  const each: Pick<StepRow, 'step' | 'place' | 'uses'>[] = job.steps.map((step, i) => ({
    step,
    place: i + 1,
    uses: step.uses,
  }));
  if (job.uses.length > 0 || each.length === 0) each.push({ step: null, place: null, uses: job.uses });
  return each.flatMap(({ uses, ...row }) => {
    const byCurrency = [...Map.groupBy(uses, ({ currency }) => currency).values()];
    return (byCurrency.length === 0 ? [[]] : byCurrency).map((ofOne, i) => ({
      ...row,
      told: i === 0,
      uses: ofOne,
      allUses: i === 0 ? uses : [],
    }));
  });
};

const noStep: StepRow = { step: null, place: null, told: true, uses: [], allUses: [] };

/**
 * The jobs, a row for each step: what was planned, what was done, what it used; with the job's first row what was
 * finished by it. Finished work that was no job has a row of its own. With `ids`, these jobs alone, in this order.
 */
export const jobsTable = async (session: Session, ids?: readonly number[]): Promise<DataTable> => {
  const all = await listWorkRecords(openOf(session).read.db);
  const records = ids ? chosenOf(all, ids, ({ jobId }) => jobId ?? 0) : all;
  const rows = records.flatMap(({ carId, job, work }, i) =>
    (job ? rowsOf(job) : [noStep]).map(
      (row, at): JobRow => ({
        carId,
        job,
        number: job && i + 1,
        work: at === 0 ? work : null,
        ...row,
      }),
    ),
  );
  return listTable('Jobs', columns, await withNumbers(session, rows));
};
