import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import type { RestorationPlan } from '../../../valuation/types.ts';
import { partsBesidesDeviations, planFidelity } from '../../../valuation/worth/fidelity.ts';
import { standardPlan } from '../../../valuation/worth/standard-plan.ts';
import { subjectOf } from '../../helpers/market-arbitrary.ts';

const assumptions = defaultAssumptions('USD');
const plan = (known: Partial<RestorationPlan>): RestorationPlan => ({
  ...standardPlan(subjectOf({}), assumptions),
  ...known,
});

describe('planFidelity', () => {
  it('counts the visible closure of every opened car, whatever its plan or the assumption set says', () => {
    const opened = { grade: 'with deviations', factor: 0.92, deviations: ['visible post closure'] };
    expect(planFidelity(plan({ deviations: [] }), assumptions.deviationLoss)).toEqual(opened);
    expect(planFidelity(plan({}), assumptions.deviationLoss)).toEqual(opened);
    const restore = { ...assumptions.standardPlan.restore, deviations: [] };
    const older = { ...assumptions, standardPlan: { ...assumptions.standardPlan, restore } };
    expect(standardPlan(subjectOf({}), older).deviations).toEqual(['visible post closure']);
  });

  it('multiplies the losses of deviations, each once, in the order of the list', () => {
    const found = planFidelity(
      plan({ deviations: ['polished body', 'another colour', 'polished body'] }),
      assumptions.deviationLoss,
    );
    expect(found).toMatchObject({
      grade: 'with deviations',
      deviations: ['another colour', 'polished body', 'visible post closure'],
    });
    expect(found.factor).toBeCloseTo(0.7 * 0.9 * 0.92, 12);
  });

  it('finds the deviations that reproduction parts are, and does not count those parts again', () => {
    const reproduced = plan({
      partsAfter: [
        { part: 'wheels', grade: null, originality: 'reproduction' },
        { part: 'base', grade: null, originality: 'reproduction' },
        { part: 'labels', grade: null, originality: 'missing' },
      ],
    });
    const named = plan({ deviations: ['reproduction wheels'] });
    expect(planFidelity(reproduced, assumptions.deviationLoss)).toEqual(
      planFidelity(named, assumptions.deviationLoss),
    );
    expect(partsBesidesDeviations(reproduced).map(({ part }) => part)).toEqual(['base', 'labels']);
  });

  it('calls a customised car custom', () => {
    expect(planFidelity(plan({ kind: 'customise' }), assumptions.deviationLoss).grade).toBe('custom');
  });
});
