import {
  isInstant,
  readPhotos,
  readReason,
  readTimes,
  readUses,
} from '../../../valuation/reading/work-cells.ts';
import type { ThreePoint } from '../../../valuation/types.ts';
import {
  closures,
  deviationKinds,
  fidelityGrades,
  finishStates,
  type Grade,
  hazards,
  isGrade,
  jobStates,
  jobStepStates,
  partNames,
  type WorkKind,
  workKinds,
} from '../../../valuation/words.ts';
import type {
  StepTime,
  WholeJob,
  WholePhoto,
  WholeStep,
  WholeUse,
  WholeWork,
} from '../../records/bench/whole-jobs.ts';
import { amountOf, currencyOf, day, Refusal, type Row, type Terms, text } from './row.ts';

const oneOf = <Word extends string>(row: Row, column: string, words: readonly Word[]): Word => {
  const said = text(row, column).toLowerCase();
  const word = words.find(known => known === said);
  if (word === undefined) throw new Refusal(column, `"${said}" is none of ${words.join(', ')}`);
  return word;
};

const wordsOf = <Word extends string>(row: Row, column: string, words: readonly Word[]): Word[] =>
  row(column)
    .split(';')
    .map(said => said.trim())
    .filter(Boolean)
    .map(said => oneOf(() => said, column, words));

const wholeNumber = (row: Row, column: string): number | null => {
  const said = row(column);
  if (said === '') return null;
  if (!/^\d{1,9}$/.test(said)) throw new Refusal(column, `"${said}" is not a whole number such as 25`);
  return Number(said);
};

const gradeOf = (row: Row, column: string): Grade | null => {
  const said = row(column);
  if (said === '') return null;
  const grade = Number(said);
  if (!isGrade(grade)) throw new Refusal(column, `"${said}" is not a grade from 1 to 10 such as 7.5`);
  return grade;
};

const isYes = (row: Row, column: string): boolean => /^(yes|y|true|1)$/i.test(row(column));

/** The instant in a column of its own, or noon of the day in another; null where neither says anything. */
const instantOf = (row: Row, name: string, { today }: Terms): string | null => {
  const instant = row(`${name}_at`);
  if (instant !== '') {
    if (!isInstant(instant))
      throw new Refusal(`${name}_at`, `"${instant}" is not an instant such as 2026-05-06T10:00:00.000Z`);
    return instant;
  }
  return row(`${name}_on`) === '' ? null : `${day(row, `${name}_on`, today)}T12:00:00.000Z`;
};

const loneInstant = (row: Row, column: string): string | null => {
  const said = row(column);
  if (said !== '' && !isInstant(said))
    throw new Refusal(column, `"${said}" is not an instant such as 2026-05-06T10:00:00.000Z`);
  return said === '' ? null : said;
};

const minutesOf = (row: Row, column: string): ThreePoint => {
  const likely = wholeNumber(row, column) ?? 0;
  const [low, high] = [wholeNumber(row, `${column}_low`), wholeNumber(row, `${column}_high`)];
  const said = { low: low ?? likely, likely, high: high ?? likely };
  if (said.low > likely || said.high < likely)
    throw new Refusal(column, `${likely} is not between ${said.low} and ${said.high}`);
  return said;
};

/** The first of a record's rows that says something of each column: what is said once holds for all. */
const together =
  (rows: readonly Row[]): Row =>
  column =>
    rows.map(row => row(column)).find(said => said !== '') ?? '';

/** Reads a row; what is wrong with it is said of that row. */
const of = <Read>(rows: readonly Row[], row: Row, read: () => Read): Read => {
  try {
    return read();
  } catch (error) {
    if (error instanceof Refusal) error.row = Math.max(0, rows.indexOf(row));
    throw error;
  }
};

const reasonOf = (row: Row) => {
  const said = row('because');
  const why = said === '' ? null : readReason(said);
  if (said !== '' && why === null)
    throw new Refusal('because', 'this is not a reason as an export writes it; leave it blank');
  return why;
};

const timesOf = (row: Row, terms: Terms, day: string): StepTime[] => {
  if (terms.has('times')) {
    const read = readTimes(row('times'));
    if ('line' in read)
      throw new Refusal(
        'times',
        `"${read.line}" is not a time such as "2026-05-06T10:00:00.000Z to 2026-05-06T10:25:00.000Z: 1500 s"`,
      );
    return read.items;
  }
  const minutes = wholeNumber(row, 'done_minutes');
  return minutes === null ? [] : [{ startedAt: day, endedAt: day, seconds: minutes * 60, sharedBy: 1 }];
};

/** What each row says was used; `on`: the day where the row does not say it. */
const usesOf = (rows: readonly Row[], terms: Terms, on: string): WholeUse[] =>
  rows.flatMap(row => {
    if (terms.has('used')) {
      const read = readUses(row('used'));
      if ('line' in read)
        throw new Refusal(
          'used',
          `"${read.line}" is not what was used, such as "2026-05-06 material 1.40 USD: Lacquer"`,
        );
      return read.items;
    }
    if (row('materials') === '' && row('cost') === '') return [];
    terms.note(
      'The list has no column "used": what a step used is taken as one material, and parts that were fitted are not told apart.',
    );
    const currency = currencyOf(row);
    const minor = row('cost') === '' ? 0 : amountOf(row('cost'), 'cost', currency);
    const name = row('materials').slice(0, 200) || 'Materials';
    return [{ usedOn: on.slice(0, 10), name, minor, currency, part: null }];
  });

const photosOf = (row: Row, column: string): WholePhoto[] => {
  const read = readPhotos(row(column));
  if ('line' in read)
    throw new Refusal(
      column,
      `"${read.line}" is not a photograph such as "before" and the SHA-256 of its file`,
    );
  return read.items;
};

const stepOf = (all: readonly Row[], rows: readonly Row[], terms: Terms, jobDay: string): WholeStep => {
  const row = together(rows);
  return of(all, rows[0]!, () => {
    if (!terms.has('cautions'))
      terms.note(
        'The list has no column "cautions": its steps say nothing of what to mind. Read the cautions of your own steps and the safety data sheets before you work on.',
      );
    const doneAt = instantOf(row, 'done', terms);
    const part = row('part') === '' ? '' : oneOf(row, 'part', partNames);
    return {
      step: row('step_key'),
      name: text(row, 'step'),
      part,
      state: row('step_state') === '' ? 'to do' : oneOf(row, 'step_state', jobStepStates),
      hands: minutesOf(row, 'planned_minutes'),
      waiting: minutesOf(row, 'planned_waiting_minutes'),
      hazards: wordsOf(row, 'cautions', hazards),
      why: reasonOf(row),
      waitsUntil: loneInstant(row, 'waits_until'),
      doneAt,
      heardAt: loneInstant(row, 'heard_at'),
      spoiled: isYes(row, 'went_wrong'),
      note: row('note'),
      times: timesOf(row, terms, doneAt ?? jobDay),
      uses: usesOf(rows, terms, doneAt ?? jobDay),
      photos: photosOf(row, 'photographs'),
    };
  });
};

/** The rows of each step, in the order of their numbers; those without a number each by itself, behind. */
const stepsOf = (rows: readonly Row[]): Row[][] => {
  const numbered = new Map<number, Row[]>();
  const others: Row[][] = [];
  for (const row of rows) {
    const number = of(rows, row, () => wholeNumber(row, 'step_number'));
    if (number === null) others.push([row]);
    else numbered.set(number, [...(numbered.get(number) ?? []), row]);
  }
  return [...[...numbered].sort(([one], [other]) => one - other).map(([, ofStep]) => ofStep), ...others];
};

/** The job that the rows tell of; null where they tell of none. Throws Refusal where a row cannot stand. */
export const jobOf = (rows: readonly Row[], terms: Terms): WholeJob | null => {
  const row = together(rows);
  const kind = oneOf(row, 'work', workKinds);
  if (row('job_state') === '') return null;
  const startedAt = instantOf(row, 'started', terms);
  const endedAt = instantOf(row, 'ended', terms);
  const addedAt = instantOf(row, 'added', terms) ?? startedAt ?? endedAt ?? terms.at;
  const state = oneOf(row, 'job_state', jobStates);
  if ((state === 'finished' || state === 'given up') && endedAt === null)
    throw new Refusal('ended_on', 'the day on which the job ended is missing');
  const jobDay = endedAt ?? startedAt ?? addedAt;
  const ofSteps = rows.filter(one => one('step') !== '' || one('step_number') !== '');
  const ofNone = rows.filter(one => !ofSteps.includes(one));
  const plannedCurrency = row('planned_cost') === '' ? null : currencyOf(() => row('planned_currency'));
  return {
    kind,
    state,
    addedAt,
    startedAt,
    endedAt,
    reason: row('given_up_why'),
    aim: gradeOf(row, 'aims_at'),
    plannedCost: plannedCurrency && {
      minor: amountOf(row('planned_cost'), 'planned_cost', plannedCurrency),
      currency: plannedCurrency,
    },
    colour: row('paint_colour'),
    season: row('season'),
    notes: row('job_notes'),
    who: row('who'),
    lookedAt: row('looked_at').split('\n').filter(Boolean),
    steps: stepsOf(ofSteps).map(ofStep => stepOf(rows, ofStep, terms, jobDay)),
    uses: ofNone.flatMap(one => of(rows, one, () => usesOf([one], terms, jobDay))),
    photos: photosOf(row, 'job_photographs'),
  };
};

/** The finished work that the rows tell of; null where none was finished. */
export const workOf = (
  rows: readonly Row[],
  { today }: Terms,
  jobKind: WorkKind | null,
): WholeWork | null => {
  const row = together(rows);
  if (row('finished_on') === '') return null;
  const kind = row('finished_work') === '' ? jobKind : oneOf(row, 'finished_work', workKinds);
  return {
    finishedOn: day(row, 'finished_on', today),
    kind: kind ?? oneOf(row, 'work', workKinds),
    // Never taken to be original: what the work has left of the finish must be said.
    finishState: oneOf(row, 'finish_after', finishStates),
    finishBefore: oneOf(row, 'finish_before', finishStates),
    gradeBefore: gradeOf(row, 'grade_before'),
    colour: row('new_colour'),
    bodyFinish: row('new_body_finish'),
    basePaint: row('new_base_paint'),
    roof: row('new_roof'),
    closure: row('closure') === '' ? '' : oneOf(row, 'closure', [...closures, 'not opened'] as const),
    bearings: row('bearings'),
    axles: row('axles'),
    fidelity: row('fidelity') === '' ? null : oneOf(row, 'fidelity', fidelityGrades),
    departures: wordsOf(row, 'departures', deviationKinds),
    leftAsWas: row('left_as_was'),
    minutes: wholeNumber(row, 'work_minutes'),
    materials: row('work_materials'),
    parts: row('work_parts'),
    who: row('restored_by'),
    mark: row('restorer_mark'),
    notes: row('work_notes'),
    isChecked: isYes(row, 'parts_checked'),
  };
};
