import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { cautions } from '../../../valuation/wording/cautions.ts';
import {
  closureText,
  departureText,
  gradesText,
  heldDownText,
  plannedPartText,
  workReasonText,
} from '../../../valuation/wording/work-text.ts';
import { workKinds } from '../../../valuation/words.ts';
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
    expect(gradesText(plan.grades)).toBe('C7.5 in 80 of 100 cases, C7 in 12, C6 in 8');
    expect(gradesText([{ grade: 4.5, share: 1 }])).toBe('C4.5');
    expect(closureText('as made')).toBe('closed as it was made');
  });

  it('have a caution for every hazard of every step', () => {
    for (const kind of workKinds)
      for (const hazard of planFromCar(car, assumptions, kind).hazards)
        expect(cautions[hazard].sentences.length).toBeGreaterThan(0);
  });
});
