import { jobDetails } from '../../../db/records/job-details.ts';
import { type Job, type JobStep, listJobs } from '../../../db/records/jobs.ts';
import { listSeasons } from '../../../db/records/seasons.ts';
import {
  amountCell,
  type DataTable,
  dateCell,
  type ListColumn,
  listTable,
  numberCell,
  textCell,
} from '../../../reports/tables/data-table.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import { carColumns, type OfCar, withNumbers } from './car-of-row.ts';

type Use = Job['uses'][number];

interface JobRow {
  carId: number;
  job: Job;
  season: string;
  who: string;
  notes: string;
  /** Null where what was used belongs to no step, or the job has none. */
  step: JobStep | null;
  /** Place of the step in its job, from 1. */
  place: number | null;
  /** Whether the row tells of the step itself, and not only of what it used in one more currency. */
  told: boolean;
  /** In one currency. */
  uses: readonly Use[];
}

const dayOf = (instant: string | null | undefined) => dateCell(instant?.slice(0, 10));

/** Of a step that the row tells of, so that no minute stands twice in the list. */
const ofStep =
  <Cell>(value: (step: JobStep) => Cell) =>
  ({ step, told }: JobRow): Cell | null =>
    step && told ? value(step) : null;

const columns: readonly ListColumn<OfCar<JobRow>>[] = [
  ...carColumns,
  { name: 'work', width: 12, value: ({ job }) => textCell(job.kind) },
  { name: 'job_state', width: 11, value: ({ job }) => textCell(job.state) },
  { name: 'season', width: 18, value: ({ season }) => textCell(season) },
  { name: 'added_on', width: 12, value: ({ job }) => dayOf(job.addedAt) },
  { name: 'started_on', width: 12, value: ({ job }) => dayOf(job.startedAt) },
  { name: 'ended_on', width: 12, value: ({ job }) => dayOf(job.endedAt) },
  { name: 'step_number', width: 12, value: ({ place }) => numberCell(place) },
  { name: 'step', width: 30, value: ({ step }) => textCell(step?.name) },
  { name: 'part', width: 12, value: ({ step }) => textCell(step?.part) },
  { name: 'step_state', width: 11, value: ({ step }) => textCell(step?.state) },
  {
    name: 'planned_minutes',
    width: 15,
    value: ofStep(step => numberCell(step.hands.likely)),
  },
  {
    name: 'planned_waiting_minutes',
    width: 23,
    value: ofStep(step => numberCell(step.waiting.likely)),
  },
  {
    name: 'done_minutes',
    width: 13,
    value: ofStep(step => (step.seconds === 0 ? null : numberCell(Math.round(step.seconds / 60)))),
  },
  {
    name: 'times_not_counted',
    width: 17,
    value: ofStep(step => (step.uncounted === 0 ? null : numberCell(step.uncounted))),
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
  { name: 'who', width: 16, value: ({ who }) => textCell(who) },
  { name: 'given_up_why', width: 24, value: ({ job }) => textCell(job.reason) },
  { name: 'job_notes', width: 30, value: ({ notes }) => textCell(notes) },
];

/** A row for each step, and one more for each further currency in which it used something. */
const rowsOf = (job: Job): Pick<JobRow, 'step' | 'place' | 'told' | 'uses'>[] => {
  const known = new Set(job.steps.map(({ id }) => id));
  const ofNoStep = job.uses.filter(({ stepId }) => stepId === null || !known.has(stepId));
  const each = job.steps.map((step, i) => ({
    step: step as JobStep | null,
    place: (i + 1) as number | null,
    uses: job.uses.filter(({ stepId }) => stepId === step.id),
  }));
  if (ofNoStep.length > 0 || each.length === 0) each.push({ step: null, place: null, uses: ofNoStep });
  return each.flatMap(({ uses, ...row }) => {
    const byCurrency = [...Map.groupBy(uses, ({ currency }) => currency).values()];
    return (byCurrency.length === 0 ? [[]] : byCurrency).map((ofOne, i) => ({
      ...row,
      told: i === 0,
      uses: ofOne,
    }));
  });
};

/** The jobs, a row for each step: what was planned, what was done, what it used. */
export const jobsTable = async (session: Session): Promise<DataTable> => {
  const { db } = openOf(session).read;
  const details = await jobDetails(db);
  const seasons = new Map((await listSeasons(db)).map(season => [season.id, season.name]));
  const rows = (await listJobs(db)).flatMap(job => {
    const { who = '', notes = '' } = details.get(job.id) ?? {};
    const season = (job.seasonId === null ? undefined : seasons.get(job.seasonId)) ?? '';
    return rowsOf(job).map(row => ({ carId: job.carId, job, season, who, notes, ...row }));
  });
  return listTable('Jobs', columns, await withNumbers(session, rows));
};
