import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { workToRow } from '../../../db/records/plans/work-step.ts';
import { workSteps } from '../../../electron/api/inputs/work.ts';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import type { FactorySpecification, PartState, StepCall, WorkStep } from '../../../valuation/types.ts';
import { plainLocale } from '../../../valuation/wording/reader.ts';
import { stepCallText } from '../../../valuation/wording/work/step-call-text.ts';
import type { FinishState, WorkKind } from '../../../valuation/words.ts';
import { planFromCar, restorationPlanOf } from '../../../valuation/work/plan-from-car.ts';
import { step, three } from '../../../valuation/work/steps/step.ts';
import { planFidelity } from '../../../valuation/worth/fidelity.ts';
import { subjectOf } from '../../helpers/markets/market-arbitrary.ts';
import { graded, spec } from '../../helpers/part-states.ts';

const assumptions = defaultAssumptions('USD');

/** The fields of a schema, those within it too: "call.below", "materials[].cost.low". */
const fieldsOf = (schema: unknown, path = ''): string[] => {
  if (schema instanceof z.ZodNullable || schema instanceof z.ZodOptional || schema instanceof z.ZodDefault)
    return fieldsOf(schema.unwrap(), path);
  if (schema instanceof z.ZodObject)
    return Object.entries(schema.shape).flatMap(([name, field]) =>
      fieldsOf(field, path === '' ? name : `${path}.${name}`),
    );
  if (schema instanceof z.ZodArray && schema.element instanceof z.ZodObject)
    return fieldsOf(schema.element, `${path}[]`);
  return [path];
};

interface Car {
  parts?: PartState[];
  spec?: Partial<FactorySpecification>;
  finishState?: FinishState;
}

/** What comes of a plan, by what a reader of it asks. */
const outcome = (steps: readonly WorkStep[], { parts = [], spec: known = {}, finishState }: Car) => {
  const plan = planFromCar(
    subjectOf({ grade: 6, parts, spec: spec(known), ...(finishState && { finishState }) }),
    { ...assumptions, work: { ...assumptions.work, steps } },
  );
  const weighed = restorationPlanOf(plan);
  return {
    steps: plan.lines.map(({ id }) => id),
    bench: plan.lines.map(workToRow),
    hours: plan.hours,
    waiting: plan.waiting,
    cost: plan.cost,
    'cost by what it is for': weighed.lines.map(({ name, kind }) => [name, kind]),
    parts: plan.parts,
    'parts afterwards': plan.partsAfter,
    grade: plan.grades,
    departures: plan.departures,
    fidelity: planFidelity(weighed, assumptions.deviationLoss),
    spoiling: [plan.spoilChance, plan.spoiledShare],
    cautions: plan.hazards,
  };
};
type Seen = keyof ReturnType<typeof outcome>;

interface Trial {
  /** The step with and without what the field says. */
  from: Partial<WorkStep>;
  to: Partial<WorkStep>;
  car?: Car;
  changes: Seen[];
}

const kinds: readonly WorkKind[] = ['restore', 'customise'];
const minutes = three(10, 20, 40);
/** A step beside the one that is tried. */
const beside = step({ id: 'beside', name: 'Beside', kinds, hands: three(1, 2, 3) });
/** What fits another base where the base is missing or goes. */
const fitting = step({
  id: 'fitting',
  name: 'Fit a base',
  kinds,
  part: 'base',
  call: { replace: true },
  hands: three(1, 2, 3),
});

const called = (fact: StepCall, car: Car, more: Partial<WorkStep> = {}): Trial => ({
  from: more,
  to: { ...more, call: { ...more.call, ...fact } },
  car,
  changes: ['steps', 'bench', 'hours'],
});
const worked = { part: 'base' as const, call: { below: 9 } };
const base = (grade: number): Car => ({ parts: [graded('base', grade)] });
const point = (
  field: string,
  of: (one: { low: number; likely: number; high: number }) => Partial<WorkStep>,
  changes: Seen[],
  car?: Car,
): Record<string, Trial> =>
  Object.fromEntries(
    (['low', 'likely', 'high'] as const).map(name => [
      `${field}.${name}`,
      {
        from: of(minutes),
        to: of({ ...minutes, [name]: minutes[name] + 5 }),
        changes,
        ...(car && { car }),
      },
    ]),
  );
const material = (name: string, kind: 'material' | 'tool', cost = minutes): Partial<WorkStep> => ({
  materials: [{ name, kind, cost }],
});
const noGlazing: Car = { parts: [graded('glazing', null, 'missing')] };
const gaining = (gain: number, upTo: number): Partial<WorkStep> => ({ ...worked, grade: { gain, upTo } });
const buying = (originality: 'original' | 'reproduction', cost = minutes): Partial<WorkStep> => ({
  part: 'glazing',
  call: { replace: true },
  buys: { originality, cost },
});

const trials: Record<string, Trial> = {
  id: { from: {}, to: { id: 'renamed' }, changes: ['steps', 'bench'] },
  name: { from: {}, to: { name: 'Otherwise' }, changes: ['bench'] },
  kinds: { from: {}, to: { kinds: ['conserve'] }, changes: ['steps', 'bench', 'hours'] },
  part: {
    from: { part: 'base', call: { below: 5 } },
    to: { part: 'wheels', call: { below: 5 } },
    car: { parts: [graded('base', 3), graded('wheels', 8)] },
    changes: ['steps', 'bench', 'hours'],
  },
  'call.below': called({ below: 5 }, base(6), { part: 'base' }),
  'call.from': called({ from: 7 }, base(6), { part: 'base' }),
  'call.originality': called({ originality: ['reproduction'] }, base(6), { part: 'base' }),
  'call.finishStates': called({ finishStates: ['stripped'] }, { finishState: 'restored' }),
  'call.bodyFinish': called({ bodyFinish: ['enamel'] }, { spec: { bodyFinish: 'candy lacquer' } }),
  'call.closures': called({ closures: ['glue'] }, {}),
  'call.captiveBearings': called({ captiveBearings: true }, { spec: { captiveBearings: false } }),
  'call.specified': called({ specified: 'roof apart' }, { spec: { roof: 'body colour' } }),
  'call.replace': {
    ...called({ replace: true }, { parts: [graded('glazing', 3)] }, { part: 'glazing', call: { below: 5 } }),
    changes: ['parts', 'parts afterwards', 'cost', 'departures', 'fidelity'],
  },
  'call.graded': called({ graded: true }, {}, worked),
  'call.asked': called({ asked: true }, {}),
  after: { from: {}, to: { after: ['beside'] }, changes: ['steps', 'bench'] },
  ...point('hands', hands => ({ hands }), ['hours', 'bench']),
  ...point('waiting', waiting => ({ waiting }), ['waiting', 'bench']),
  'materials[].name': {
    from: material('Wax', 'material'),
    to: material('Polish', 'material'),
    changes: ['cost by what it is for'],
  },
  'materials[].kind': {
    from: material('Wax', 'material'),
    to: material('Wax', 'tool'),
    changes: ['cost by what it is for'],
  },
  ...point('materials[].cost', cost => material('Wax', 'material', cost), ['cost']),
  hazards: { from: {}, to: { hazards: ['spray'] }, changes: ['cautions', 'bench'] },
  spoilChance: { from: {}, to: { spoilChance: 0.1 }, changes: ['spoiling'] },
  spoiledShare: {
    from: { spoilChance: 0.1 },
    to: { spoilChance: 0.1, spoiledShare: 0.5 },
    changes: ['spoiling'],
  },
  'grade.gain': {
    from: gaining(1, 9),
    to: gaining(3, 9),
    car: base(5),
    changes: ['parts afterwards', 'grade'],
  },
  'grade.upTo': {
    from: gaining(4, 6),
    to: gaining(4, 9),
    car: base(5),
    changes: ['parts afterwards', 'grade'],
  },
  leaves: {
    from: { ...worked, part: 'wheels' },
    to: { ...worked, part: 'wheels', leaves: 'reproduction' },
    car: { parts: [graded('wheels', 5)] },
    changes: ['parts afterwards', 'departures', 'fidelity'],
  },
  takes: {
    from: {},
    to: { takes: ['base'] },
    car: base(6),
    changes: ['steps', 'bench', 'parts', 'parts afterwards', 'cost'],
  },
  'buys.originality': {
    from: buying('reproduction'),
    to: buying('original'),
    car: noGlazing,
    changes: ['parts', 'parts afterwards', 'departures', 'fidelity'],
  },
  ...point('buys.cost', cost => buying('reproduction', cost), ['cost', 'parts'], noGlazing),
  insteadOf: { from: {}, to: { insteadOf: ['beside'] }, changes: ['steps', 'bench', 'hours'] },
  brings: { from: {}, to: { brings: ['other part'] }, changes: ['departures', 'fidelity'] },
};

describe('every field of a step', () => {
  it('is tried', () => {
    const fields = fieldsOf(workSteps.element);
    expect(fields.length).toBeGreaterThan(30);
    expect(Object.keys(trials).toSorted()).toEqual(fields.toSorted());
  });

  it.each(Object.entries(trials))('changes what follows from it: %s', (field, trial) => {
    const withStep = (change: Partial<WorkStep>) => {
      const tried = step({ id: 'tried', name: 'Tried', kinds, hands: minutes, ...change });
      // What comes after the step, by its key, stands behind it wherever it is in the list.
      const behind = { ...beside, id: 'behind', name: 'Behind', after: ['tried'] };
      return [behind, tried, beside, fitting];
    };
    const [from, to] = [withStep(trial.from), withStep(trial.to)];
    for (const steps of [from, to]) expect(workSteps.parse(steps)).toEqual(steps);
    const [before, after] = [outcome(from, trial.car ?? {}), outcome(to, trial.car ?? {})];
    const changed = (Object.keys(before) as Seen[]).filter(
      seen => JSON.stringify(before[seen]) !== JSON.stringify(after[seen]),
    );
    for (const seen of trial.changes) expect(changed).toContain(seen);
    const words = [from, to].map(steps => stepCallText(steps[1]!, plainLocale));
    expect(words[0] !== words[1]).toBe(field === 'part' || field.startsWith('call.'));
  });
});
