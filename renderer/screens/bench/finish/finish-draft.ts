import type { CarPage, JobView } from '../../../../electron/api/views.ts';
import type { IsoDate } from '../../../../valuation/types.ts';
import type { DisclosureFacts } from '../../../../valuation/wording/cars/disclosure-text.ts';
import { standingWork, type WorkRecord } from '../../../../valuation/wording/cars/disclosure-work.ts';
import {
  type DeviationKind,
  type FinishState,
  finishAfter,
  type PartName,
  paintsCar,
  partNames,
  partsToShow,
  type WorkKind,
} from '../../../../valuation/words.ts';
import {
  finishedDepartures,
  finishedFidelity,
  sameColour,
  type WorkDone,
} from '../../../../valuation/work/finished-departures.ts';
import { wasOpened } from '../../../../valuation/work/was-opened.ts';
import type { api } from '../../../api/client.ts';
import {
  type ConditionDraft,
  draftOfCheck,
  newestCheck,
  readGrade,
} from '../../../components/condition/condition-draft.ts';

type FinishInput = Parameters<typeof api.cars.finishWork>[0];

/**
 * What is written down when work on a car is finished: what `cars.finishWork` takes, with every field there, the
 * condition as it is edited, and the minutes as they are typed (empty takes those that were counted on the job).
 */
export interface FinishDraft
  extends Omit<
    Required<FinishInput>,
    'carId' | 'jobId' | 'grade' | 'parts' | 'costs' | 'minutes' | 'departures'
  > {
  condition: ConditionDraft;
  departures: readonly DeviationKind[];
  minutes: string;
  /** It was opened, by the steps of its job that are done. */
  opened: boolean;
}

/** How the car was closed, by the step that was ticked off, else by the one that is planned for a car that was opened. */
const closureOf = (job: JobView | null, opened: boolean): FinishDraft['closure'] => {
  const closing = job?.steps.filter(({ step, state }) => step.startsWith('close-') && state !== 'left out');
  const done = closing?.findLast(({ state }) => state === 'done') ?? (opened ? closing?.at(-1) : undefined);
  switch (done?.step) {
    case 'close-screw':
      return 'screw';
    case 'close-rivet':
      return 'rivet';
    case 'close-glue':
      return 'glue';
    case 'close-as-made':
      return 'as made';
    default:
      return '';
  }
};

const minutesOf = (job: JobView | null): string => {
  const seconds = job?.steps.reduce((sum, step) => sum + step.seconds, 0) ?? 0;
  return seconds > 0 ? String(Math.round(seconds / 60)) : '';
};

/** Parts whose surface is the body's paint: a roof is painted with the body, or after it. */
const underPaint: readonly string[] = ['body finish', 'roof'] satisfies PartName[];

const list = (names: readonly string[]): string => [...new Set(names)].join(', ');

/**
 * The record as far as the job and the car tell it. A part that was worked on has no grade until its owner
 * gives it one; one that was fitted has its origin.
 */
export const beginFinish = (car: CarPage, job: JobView | null, today: IsoDate): FinishDraft => {
  const kind: WorkKind = job?.kind ?? 'restore';
  const done = job?.steps.filter(({ state }) => state === 'done') ?? [];
  const worked = new Set(done.map(({ part }) => part));
  const opened = wasOpened(done.map(({ step }) => step));
  const painted = paintsCar(kind) && worked.has('body finish');
  const made = car.variationId === null ? '' : car.features.colour;
  const fitted = new Map(
    job?.uses.flatMap(({ part }) => (part?.part ? [[part.part, part.originality]] : [])),
  );
  const newest = newestCheck(car.checks);
  // What its casting has, what was looked at, and what the job touched.
  const looked = new Set<string>(newest?.parts.map(({ part }) => part));
  const seen = partNames.filter(part => looked.has(part) || worked.has(part) || fitted.has(part));
  const before = draftOfCheck(newest, null, partsToShow(car.castingParts, seen));
  const uses = job?.uses ?? [];
  return {
    kind,
    finishedOn: today,
    finishState: finishAfter(kind, car.finishState),
    condition: {
      ...before,
      notes: '',
      parts: before.parts.map(part => {
        const origin = fitted.get(part.part);
        // What was noted of another part, or of the old paint, says nothing of what is there now.
        if (origin) return { ...part, originality: origin, grade: '', note: '' };
        if (painted && underPaint.includes(part.part)) return { ...part, grade: '', note: '' };
        return worked.has(part.part) ? { ...part, grade: '' } : part;
      }),
    },
    // A job without a colour of its own paints a car in the one that it was made in.
    colour: job?.colour || (painted ? made : car.wornColour),
    // What its old paint was says nothing of the new.
    bodyFinish: paintsCar(kind) ? '' : car.wornFinish,
    basePaint: '',
    roof: '',
    closure: closureOf(job, opened),
    opened,
    bearings: '',
    axles: done.some(({ step }) => step === 'fit-axles')
      ? 'replaced'
      : done.some(({ step }) => step === 'straighten-axles')
        ? 'straightened'
        : '',
    departures: [],
    fidelity: null,
    leftAsWas: '',
    minutes: minutesOf(job),
    materials: list(uses.filter(({ part }) => part === null).map(({ name }) => name)),
    partsUsed: list(
      uses.flatMap(({ name, part }) =>
        part ? [`${part.quantity > 1 ? `${part.quantity} × ` : ''}${name}`] : [],
      ),
    ),
    who: job?.who ?? '',
    mark: car.restorerMark,
    notes: '',
  };
};

/** Another kind of work, with the finish that follows from it. */
export const withKind = (draft: FinishDraft, kind: WorkKind, before: FinishState): FinishDraft => ({
  ...draft,
  kind,
  finishState: finishAfter(kind, before),
});

const partsOf = ({ condition }: FinishDraft): NonNullable<FinishInput['parts']> =>
  condition.parts.flatMap(({ part, grade, originality, note }) =>
    grade.trim() === '' && originality === 'original' && note.trim() === ''
      ? []
      : [
          {
            part,
            grade: originality === 'missing' ? null : (readGrade(grade) ?? null),
            originality,
            note: note.trim(),
          },
        ],
  );

const workDone = (draft: FinishDraft): WorkDone => ({
  kind: draft.kind,
  finishState: draft.finishState,
  colour: draft.colour.trim(),
  closure: draft.closure,
  opened: draft.opened,
  parts: partsOf(draft).map(({ part, grade, originality }) => ({ part, grade: grade ?? null, originality })),
  departures: draft.departures,
  fidelity: draft.fidelity,
});

/** The departures that follow from the rest, which cannot be taken off. */
export const impliedDepartures = (draft: FinishDraft, madeColour: string): DeviationKind[] =>
  finishedDepartures({ ...workDone(draft), departures: [] }, madeColour);

/** What will be said of the car, before it is recorded; `earlier` is the work on it that is recorded. */
export const disclosureBefore = (
  draft: FinishDraft,
  madeColour: string,
  earlier: readonly WorkRecord[],
): DisclosureFacts => {
  const done = workDone(draft);
  const departures = finishedDepartures(done, madeColour);
  return {
    finishState: draft.finishState,
    madeColour,
    wornColour: sameColour(done.colour, madeColour) ? '' : done.colour,
    wornFinish: draft.bodyFinish.trim(),
    parts: done.parts,
    mark: draft.mark.trim(),
    work: standingWork(
      [
        {
          kind: draft.kind,
          finishedOn: draft.finishedOn,
          fidelity: finishedFidelity(done, departures),
          departures,
          closure: draft.closure,
          bearings: draft.bearings.trim(),
          axles: draft.axles.trim(),
          leftAsWas: draft.leftAsWas.trim(),
          colour: done.colour,
          who: draft.who.trim(),
        },
        ...earlier,
      ].sort((a, b) => b.finishedOn.localeCompare(a.finishedOn)),
    ),
  };
};

/** What is wrong with it, as one sentence; null where it can be recorded. */
export const problemOf = (draft: FinishDraft): string | null => {
  const { overall, parts } = draft.condition;
  if ([overall, ...parts.map(({ grade }) => grade)].some(text => readGrade(text) === undefined))
    return 'Grades go from C1 to C10 in half points.';
  if (!/^\d{4}-\d{2}-\d{2}$/.test(draft.finishedOn)) return 'Say on which day it was finished.';
  if (!/^\d{0,6}$/.test(draft.minutes.trim())) return 'Minutes are a whole number.';
  if (paintsCar(draft.kind) && draft.finishState === 'original')
    return 'A car that was painted no longer has its original finish: say what it has now.';
  return null;
};

/** What `cars.finishWork` takes. */
export const finishInput = (draft: FinishDraft, carId: number, jobId: number | null): FinishInput => {
  const { condition, minutes, departures, opened: _, ...rest } = draft;
  return {
    ...rest,
    carId,
    jobId,
    grade: readGrade(condition.overall) ?? null,
    parts: partsOf(draft),
    departures: [...departures],
    minutes: minutes.trim() === '' ? null : Number(minutes),
    colour: draft.colour.trim(),
    bodyFinish: draft.bodyFinish.trim(),
  };
};
