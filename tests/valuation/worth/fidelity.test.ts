import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import type { RestorationPlan } from '../../../valuation/types.ts';
import {
  fidelityLog,
  planFidelity,
  plannedPartsLog,
  standingLog,
} from '../../../valuation/worth/fidelity.ts';
import { standardPlan } from '../../../valuation/worth/standard-plan.ts';
import { subjectOf } from '../../helpers/markets/market-arbitrary.ts';

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
    // The base 20 %, the labels that are gone 10 %.
    expect(plannedPartsLog(reproduced, assumptions)).toBeCloseTo(Math.log(0.8 * 0.9), 12);
  });

  it('counts "other part" and the parts that it stands for once, by what costs more', () => {
    const { deviationLoss } = assumptions;
    const left = (known: Partial<RestorationPlan>) =>
      plannedPartsLog(plan(known), assumptions) + fidelityLog(plan(known), deviationLoss);
    const deviations = ['other part' as const];
    const axles = { part: 'axles', grade: 9, originality: 'reproduction' } as const;
    const base = { ...axles, part: 'base' } as const;
    const gone = { part: 'roof', grade: null, originality: 'missing' } as const;
    const closed = { closure: 'as made' } as const;
    expect(left({ ...closed, deviations, partsAfter: [axles] })).toBeCloseTo(Math.log(0.9), 12);
    expect(left({ ...closed, deviations, partsAfter: [base] })).toBeCloseTo(Math.log(0.8), 12);
    expect(left({ ...closed, deviations, partsAfter: [axles, gone] })).toBeCloseTo(Math.log(0.9 * 0.7), 12);
    // However small the rest is, a departure never adds to it.
    const all = { ...closed, partsAfter: [base] };
    const worthless = { ...assumptions, deviationLoss: { ...deviationLoss, 'polished body': 1 } };
    const least = (more: typeof deviations | []) => {
      const of = plan({ ...all, deviations: ['polished body', ...more] });
      return plannedPartsLog(of, worthless) + fidelityLog(of, worthless.deviationLoss);
    };
    expect(least(deviations)).toBeLessThanOrEqual(least([]) + 1e-12);
  });

  it('calls a customised car custom', () => {
    expect(planFidelity(plan({ kind: 'customise' }), assumptions.deviationLoss).grade).toBe('custom');
  });
});

describe('standingLog', () => {
  const { deviationLoss } = assumptions;
  const of = (change: Partial<Parameters<typeof standingLog>[0]>) =>
    standingLog({ finishState: 'restored', parts: [], ...change }, deviationLoss);
  const loss = (kind: keyof typeof deviationLoss) => Math.log(1 - (deviationLoss[kind] ?? 0));

  it('counts each departure that is recorded once, and nothing that its parts tell', () => {
    expect(of({})).toBe(0);
    expect(of({ departures: ['another colour', 'visible post closure'] })).toBeCloseTo(
      loss('another colour') + loss('visible post closure'),
      12,
    );
    const parts = [{ part: 'wheels', grade: 9, originality: 'reproduction' }] as const;
    const departures = ['reproduction wheels', 'other part', 'visible post closure'] as const;
    expect(of({ departures, parts: [...parts] })).toBeCloseTo(loss('visible post closure'), 12);
    expect(of({ departures })).toBeLessThan(loss('visible post closure'));
  });

  it('leaves a customised car what it is', () => {
    expect(of({ finishState: 'customised', departures: ['another colour'] })).toBe(0);
  });
});
