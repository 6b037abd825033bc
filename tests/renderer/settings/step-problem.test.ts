import { describe, expect, it } from 'vitest';
import { fieldProblems, newStep, stepProblem } from '../../../renderer/screens/settings/steps/draft-steps.ts';
import type { WorkStep } from '../../../valuation/types.ts';
import { startingSteps } from '../../../valuation/work/steps/index.ts';

const steps = startingSteps('USD');
/** The starting steps with one more, or with one changed. */
const having = (change: Partial<WorkStep>) => [...steps, { ...newStep('Warm the room', steps), ...change }];
const changed = (id: string, change: Partial<WorkStep>) =>
  steps.map(step => (step.id === id ? { ...step, ...change } : step));

describe('what keeps steps from being saved', () => {
  it('is nothing for the starting steps, and for a new one with a name', () => {
    expect(stepProblem(steps)).toBeNull();
    expect(stepProblem(having({}))).toBeNull();
  });

  it('is a name or a kind that is missing, of a step or a material', () => {
    expect(stepProblem(having({ name: ' ' }))).toContain('needs a name');
    expect(stepProblem(having({ kinds: [] }))).toBe(
      '“Warm the room” belongs to no kind of work. Choose one or remove the step.',
    );
    const cost = { low: 0, likely: 0, high: 0 };
    expect(stepProblem(having({ materials: [{ name: '', kind: 'tool', cost }] }))).toBe(
      'A material of “Warm the room” needs a name.',
    );
  });

  it('is a step before itself, over others too', () => {
    const ring = changed('take-apart', { after: ['strip'] });
    expect(stepProblem(ring)).toMatch(/^“.+” would come before itself/);
    expect(stepProblem(having({ id: 'warm', after: ['warm'] }))).toMatch(
      /^“Warm the room” would come before/,
    );
  });

  it('is a pair of grades that no part can have', () => {
    expect(stepProblem(having({ part: 'axles', call: { below: 4, from: 6 } }))).toBe(
      'Nothing calls for “Warm the room”: no part is below C4 and at least C6.',
    );
    expect(stepProblem(having({ part: 'axles', call: { below: 6, from: 4 } }))).toBeNull();
  });
});

it('is said of each field of a step, of every step of a ring', () => {
  const of = (list: readonly WorkStep[], id: string) =>
    fieldProblems(list.find(step => step.id === id)!, list);
  for (const { id } of steps) expect(of(steps, id)).toEqual({});
  const ring = changed('take-apart', { after: ['strip'] });
  for (const id of ['take-apart', 'strip']) expect(of(ring, id).after).toContain('before itself');
  expect(of(ring, 'look-and-photograph')).toEqual({});
  const empty = { ...newStep(' ', steps), id: 'warm', kinds: [], call: { below: 4, from: 6 } as const };
  expect(Object.keys(fieldProblems(empty, [...steps, empty])).sort()).toEqual(['from', 'kinds', 'name']);
});
