import type { FinishKind, PlannedDeparture, PlannedPart, WorkPlan, WorkReason } from '../../types.ts';
import {
  type Closure,
  carGradeLabel,
  deviationLabel,
  type FinishState,
  finishAfter,
  type Grade,
  gradeLabel,
  type PartName,
} from '../../words.ts';
import { spell } from '../dialect.ts';
import { sentenceCase } from '../reader.ts';

const finishWords: Record<FinishKind, string> = {
  lacquer: 'lacquer over bright metal',
  enamel: 'enamel',
  plate: 'bright plate',
  bare: 'bare metal',
  unknown: 'body finish not recorded',
};

/** How the body was finished at the factory: "lacquer over bright metal". */
export const finishText = (finish: FinishKind): string => finishWords[finish];

const closureWords: Record<Closure, string> = {
  screw: 'closed with screws',
  rivet: 'closed with reproduction rivets',
  glue: 'closed with glue',
  'as made': 'closed as it was made',
};

/** How a car is closed: "closed with screws". */
export const closureText = (closure: Closure): string => closureWords[closure];

/** What of a part a variation's specification speaks of, where that is not the part itself. */
const specified: Partial<Record<PartName, string>> = { base: 'base paint', 'body finish': 'rear end' };

const uncapitalised = (text: string): string => `${text.charAt(0).toLowerCase()}${text.slice(1)}`;

/** Why a line stands in a plan, in a few words: "axles C3, to C9"; empty where there is nothing to say. */
export const workReasonText = (why: WorkReason, locale: string): string => {
  switch (why.kind) {
    case 'always':
      return 'part of every such job';
    case 'part-grade': {
      const grade = why.assumed
        ? `${why.part} not graded, taken as ${gradeLabel(why.grade)}`
        : `${why.part} ${gradeLabel(why.grade)}`;
      return spell(why.after === null ? grade : `${grade}, to ${gradeLabel(why.after)}`, locale);
    }
    case 'part-originality':
      return spell(
        why.originality === 'missing' ? `${why.part} missing` : `${why.part}: ${why.originality}`,
        locale,
      );
    case 'lost-in-stripping':
      return spell(`${why.part} go with the old finish`, locale);
    case 'lost-in-step':
      return spell(`${why.part} go when you ${uncapitalised(why.step)}`, locale);
    case 'finish-state':
      return `finish ${spell(why.finishState, locale)}`;
    case 'body-finish':
      return why.words === '' ? finishWords[why.finish] : `made in ${why.words}`;
    case 'closure':
      return closureWords[why.closure];
    case 'bearings':
      return why.captive ? 'the bearings come off with the wheels' : 'the wheels come off their axles';
    case 'specification':
      return `${specified[why.part] ?? spell(why.part, locale)} as made: ${why.words}`;
    case 'owner':
      return 'as you want it';
  }
};

/** A part that a plan fits, as a line: "Reproduction glazing, to buy". */
export const plannedPartText = ({ part, from, name, originality }: PlannedPart, locale: string): string => {
  const what = spell(part, locale);
  switch (from) {
    case 'shelf':
      return `${name}, from the shelf (${originality})`;
    case 'buy':
      return `${sentenceCase(originality)} ${what}, to buy`;
    case 'leave off':
      return `${sentenceCase(what)}, left off`;
  }
};

/** A departure and what brings it: "visible post closure (close it with countersunk screws)". */
export const departureText = (
  { kind, from }: PlannedDeparture,
  plan: Pick<WorkPlan, 'lines'>,
  locale: string,
): string => {
  const what = spell(deviationLabel(kind), locale);
  if ('part' in from) return what;
  const line = plan.lines.find(({ id }) => id === from.step);
  return line ? spell(`${what} (${uncapitalised(line.name)})`, locale) : what;
};

/** What holds the grade down: "at most C7: the weakest part is the glazing"; empty where nothing does. */
export const heldDownText = (
  { aim, heldBy, grades }: Pick<WorkPlan, 'aim' | 'heldBy' | 'grades'>,
  locale: string,
): string => {
  const [best] = grades;
  return heldBy === null || !best || best.grade >= aim
    ? ''
    : `At most ${gradeLabel(best.grade)}: the weakest part is the ${spell(heldBy, locale)}.`;
};

/**
 * The grades in which work on a car of this finish can end, in words, with the finish that it has then: "C9,
 * restored, in 35 of 100 cases, C8.5 in 25, C8 in 20"; "C9, restored" where there is one.
 */
export const gradesText = (
  { kind, grades }: Pick<WorkPlan, 'kind' | 'grades'>,
  before: FinishState,
  locale: string,
): string => {
  const after = finishAfter(kind, before);
  const first = (grade: Grade) => spell(carGradeLabel(grade, after), locale);
  const [best, ...others] = grades;
  if (!best || others.length === 0) return best ? first(best.grade) : '';
  const cases = (share: number) => Math.round(share * 100);
  return [
    `${first(best.grade)}${after === 'original' ? '' : ','} in ${cases(best.share)} of 100 cases`,
    ...others.map(({ grade, share }) => `${gradeLabel(grade)} in ${cases(share)}`),
  ].join(', ');
};
