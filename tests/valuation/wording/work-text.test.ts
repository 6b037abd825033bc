import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { cautions } from '../../../valuation/wording/work/cautions.ts';
import {
  closureText,
  departureText,
  gradesText,
  heldDownText,
  plannedPartText,
  workReasonText,
} from '../../../valuation/wording/work/work-text.ts';
import { type FinishState, type PartName, workKinds } from '../../../valuation/words.ts';
import { planFromCar } from '../../../valuation/work/plan-from-car.ts';
import { subjectOf } from '../../helpers/markets/market-arbitrary.ts';

const assumptions = defaultAssumptions('USD');
const car = subjectOf({
  grade: 4,
  parts: [
    { part: 'axles', grade: 3, originality: 'original' },
    { part: 'wheels', grade: 4.5, originality: 'original' },
    { part: 'glazing', grade: null, originality: 'missing' },
  ],
});
const plan = planFromCar(car, assumptions);

describe('the words of a plan', () => {
  it('say why each line stands there', () => {
    const why = (id: string) => workReasonText(plan.lines.find(line => line.id === id)!.why, 'en-GB');
    expect(why('straighten-axles')).toBe('axles C3, to C9');
    expect(why('clean-interior')).toBe('interior not graded, taken as C4, to C7');
    expect(why('fit-glazing')).toBe('glazing missing');
    expect(why('close-screw')).toBe('closed with screws');
    for (const kind of workKinds)
      for (const line of planFromCar(car, assumptions, kind).lines)
        expect(workReasonText(line.why, 'en-US'), line.id).toMatch(/^[a-z]/);
  });

  it('say what is fitted, what departs, and what holds the grade down', () => {
    expect(plan.parts.map(part => plannedPartText(part, 'en-GB'))).toEqual(['Reproduction glazing, to buy']);
    expect(plan.departures.map(one => departureText(one, plan, 'en-GB'))).toEqual([
      'visible post closure (close it with countersunk screws)',
      'reproduction glazing',
    ]);
    expect(heldDownText(plan, 'en-GB')).toBe('At most C7.5: the weakest part is the wheels.');
    expect(closureText('as made')).toBe('closed as it was made');
  });

  it('name the grades in which work can end with the finish that the car has then', () => {
    const care = (finish: FinishState) =>
      gradesText({ kind: 'conserve', grades: [{ grade: 4.5, share: 1 }] }, finish, 'en-US');
    expect(gradesText(plan, 'original', 'en-GB')).toBe(
      'C7.5, restored, in 80 of 100 cases, C7 in 12, C6 in 8',
    );
    expect(gradesText({ ...plan, kind: 'customise' }, 'original', 'en-US')).toMatch(
      /^C7\.5, customized, in 80 /,
    );
    expect(care('original')).toBe('C4.5');
    expect(care('customised')).toBe('C4.5, customized');
  });

  it('say what of the specification calls for a step', () => {
    const why = (part: PartName, words: string) =>
      workReasonText({ kind: 'specification', part, words }, 'en-GB');
    expect(why('body finish', 'ducktail')).toBe('rear end as made: ducktail');
    expect(why('base', 'front quarter')).toBe('base paint as made: front quarter');
    expect(why('roof', 'textured black')).toBe('roof as made: textured black');
  });

  it('have a caution for every hazard of every step', () => {
    for (const kind of workKinds)
      for (const hazard of planFromCar(car, assumptions, kind).hazards)
        expect(cautions[hazard].sentences.length).toBeGreaterThan(0);
  });
});
