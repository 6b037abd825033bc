import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import { planFromCar } from '../../../valuation/work/plan-from-car.ts';
import { startingSteps } from '../../../valuation/work/steps/index.ts';
import { subjectOf } from '../../helpers/markets/market-arbitrary.ts';

describe('the starting steps', () => {
  const steps = startingSteps('USD');
  it('have names of their own, times in order, and nothing behind them that is not there', () => {
    expect(new Set(steps.map(({ id }) => id)).size).toBe(steps.length);
    for (const step of steps) {
      const { id, after, insteadOf, hands, waiting, materials, buys, spoilChance, kinds: of } = step;
      expect(id).toMatch(/^[a-z]+(?:-[a-z]+)*$/);
      expect(of.length).toBeGreaterThan(0);
      for (const before of [...after, ...insteadOf])
        expect(
          steps.some(one => one.id === before),
          `${id} after ${before}`,
        ).toBe(true);
      for (const { low, likely, high } of [
        hands,
        waiting,
        ...[...materials, ...(buys ? [buys] : [])].map(({ cost }) => cost),
      ]) {
        expect(low).toBeGreaterThanOrEqual(0);
        expect(likely).toBeGreaterThanOrEqual(low);
        expect(high).toBeGreaterThanOrEqual(likely);
      }
      expect(spoilChance).toBeLessThan(0.05);
    }
  });
  it('cover the trade from the closed car to the closed car', () => {
    const said = (...words: RegExp[]) => {
      for (const word of words)
        expect(
          steps.some(({ name }) => word.test(name)),
          String(word),
        ).toBe(true);
    };
    // Opening, taking apart, wheels and axles.
    said(
      /mark in the middle of each post/i,
      /drill the rivet heads/i,
      /grind the rivet heads/i,
      /cut a thread for a screw/i,
    );
    said(
      /take it apart/i,
      /pull the wheels/i,
      /cut the axles.*bearings/i,
      /take the axles out/i,
      /straighten/i,
    );
    // The metal.
    said(/old paint/i, /pick .* clean/i, /degrease/i, /base and brighten/i, /paper/i, /mesh/i, /wool/i);
    said(/plate .* sessions/i, /polish the bare metal/i, /last cleaning before paint/i);
    // Paint, and the parts.
    said(/coat, light/i, /coat, medium/i, /coat, wet/i, /mask .* roof/i, /mask .* trim/i);
    said(/polish the glazing/i, /interior/i, /labels/i);
    // Back to the closed car.
    said(
      /wheels, snug/i,
      /order that the casting asks for/i,
      /rivets, set/i,
      /screws/i,
      /glue on each post/i,
    );
  });

  it('tell of waste wherever sludge, rags or cans are left', () => {
    const leaves =
      /\b(?:paint|lacquer|primer|prime|coat|strip|degrease|polish the bare|smooth the body|cleaning before paint|pick grooves)/i;
    const found = startingSteps('USD').filter(
      ({ name, hazards }) =>
        leaves.test(name) && hazards.some(hazard => hazard !== 'tools' && hazard !== 'resins'),
    );
    expect(found.length).toBeGreaterThan(10);
    expect(found.filter(({ hazards }) => !hazards.includes('waste')).map(({ id }) => id)).toEqual([]);
  });

  it('cost as many minor units in every currency as its decimals make them', () => {
    const cost = (currency: string) => planFromCar(subjectOf({}), defaultAssumptions(currency)).cost.likely;
    expect(cost('BHD')).toBe(cost('USD') * 10);
    expect(cost('JPY')).toBe(cost('USD'));
  });
});
