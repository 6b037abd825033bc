import { describe, expect, it } from 'vitest';
import { defaultAssumptions } from '../../../valuation/default-assumptions.ts';
import type { PartState, ShelfPart, Subject } from '../../../valuation/types.ts';
import { closures, type workKinds } from '../../../valuation/words.ts';
import { planFromCar, restorationPlanOf } from '../../../valuation/work/plan-from-car.ts';
import { startingSteps } from '../../../valuation/work/steps/index.ts';
import { plannedCondition } from '../../../valuation/worth/car-worths.ts';
import { planFidelity } from '../../../valuation/worth/fidelity.ts';
import { subjectOf } from '../../helpers/markets/market-arbitrary.ts';
import { graded, spec } from '../../helpers/part-states.ts';

const assumptions = defaultAssumptions('USD');
const ids = (subject: Subject, kind: (typeof workKinds)[number] = 'restore') =>
  planFromCar(subject, assumptions, kind).lines.map(({ id }) => id);

describe('a plan made from the car', () => {
  it('goes from the closed car to the closed car, in order', () => {
    const steps = ids(subjectOf({ grade: 4, spec: spec() }));
    for (const [first, then] of [
      ['look-and-photograph', 'centre-posts'],
      ['centre-posts', 'drill-posts'],
      ['drill-posts', 'thread-posts'],
      ['drill-posts', 'take-apart'],
      ['take-apart', 'pull-wheels'],
      ['pull-wheels', 'straighten-axles'],
      ['strip', 'pick-clean'],
      ['pick-clean', 'degrease'],
      ['degrease', 'smooth'],
      ['smooth', 'polish-metal'],
      ['polish-metal', 'last-clean'],
      ['last-clean', 'coat-light'],
      ['coat-light', 'coat-medium'],
      ['coat-medium', 'coat-wet'],
      ['coat-wet', 'clear-coat'],
      ['clear-coat', 'assemble'],
      ['wheels-on', 'assemble'],
      ['assemble', 'look-before-closing'],
      ['look-before-closing', 'close-screw'],
      ['close-screw', 'photograph-after'],
    ] as const) {
      expect(steps, first).toContain(first);
      expect(steps.indexOf(first), `${first} before ${then}`).toBeLessThan(steps.indexOf(then));
    }
  });

  it('says of each line why it stands there', () => {
    const { lines } = planFromCar(
      subjectOf({ grade: 5, parts: [graded('axles', 3)], spec: spec({ roof: 'textured black' }) }),
      assumptions,
    );
    const why = (id: string) => lines.find(line => line.id === id)?.why;
    expect(why('straighten-axles')).toEqual({
      kind: 'part-grade',
      part: 'axles',
      grade: 3,
      assumed: false,
      after: 9,
    });
    expect(why('clean-wheels')).toMatchObject({ kind: 'part-grade', grade: 5, assumed: true });
    expect(why('mask-roof')).toEqual({ kind: 'specification', part: 'roof', words: 'textured black' });
    expect(why('close-screw')).toEqual({ kind: 'closure', closure: 'screw' });
    expect(why('polish-metal')).toEqual({ kind: 'body-finish', finish: 'lacquer', words: 'candy lacquer' });
    expect(why('strip')).toEqual({ kind: 'finish-state', finishState: 'original' });
  });

  it('answers finish state and specification', () => {
    expect(ids(subjectOf({ finishState: 'stripped' }))).not.toContain('strip');
    const enamel = ids(subjectOf({ spec: spec({ bodyFinish: 'enamel' }) }));
    expect(enamel).toContain('prime');
    expect(enamel).not.toContain('polish-metal');
    const plate = ids(subjectOf({ spec: spec({ bodyFinish: 'bright plate' }) }));
    expect(plate).toContain('plate-body');
    expect(plate).not.toContain('coat-light');
    expect(ids(subjectOf({ spec: spec({ basePaint: 'full' }) }))).toContain('paint-base');
    expect(ids(subjectOf({ spec: spec({ captiveBearings: true }) }))).toContain('cut-axles');
    expect(
      ids(subjectOf({ spec: spec({ parts: ['body finish', 'base', 'wheels', 'axles'] }) })),
    ).not.toContain('polish-glazing');
  });

  it('conserves without opening or paint, and takes a donor apart without painting it', () => {
    const care = planFromCar(subjectOf({ grade: 6 }), assumptions, 'conserve');
    expect(care.lines.map(({ id }) => id)).not.toContain('drill-posts');
    expect(care.departures).toEqual([]);
    expect(care.closure).toBeNull();
    const donor = ids(subjectOf({ grade: 2 }), 'donor');
    expect(donor).toContain('drill-posts');
    expect(donor).toContain('bag-parts');
    expect(donor).not.toContain('strip');
  });

  it('takes parts from the shelf, the nearest to the specification first, before it buys or leaves off', () => {
    const shelf: ShelfPart[] = [
      { name: 'Glazing, cast', part: 'glazing', originality: 'reproduction', cost: 100, grade: null },
      { name: 'Glazing off Q-12', part: 'glazing', originality: 'original', cost: 400, grade: 7 },
    ];
    const missing = subjectOf({ grade: 4, parts: [graded('glazing', null, 'missing')] });
    const [from] = planFromCar({ ...missing, shelf }, assumptions).parts;
    expect(from).toMatchObject({ from: 'shelf', name: 'Glazing off Q-12', originality: 'original' });
    expect(planFromCar({ ...missing, shelf }, assumptions).departures.map(({ kind }) => kind)).toEqual([
      'visible post closure',
    ]);
    const bought = planFromCar(missing, assumptions);
    expect(bought.parts[0]).toMatchObject({ from: 'buy', originality: 'reproduction' });
    expect(bought.departures).toContainEqual({ kind: 'reproduction glazing', from: { part: 'glazing' } });
    const off = planFromCar(missing, assumptions, 'restore', { leaveOff: ['glazing'] });
    expect(off.parts[0]).toMatchObject({ from: 'leave off', originality: 'missing' });
    expect(off.lines.map(({ id }) => id)).not.toContain('fit-glazing');
    expect(off.partsAfter).toContainEqual({ part: 'glazing', grade: null, originality: 'missing' });
  });

  it('works out dents that were noted, at every grade, and none that are only supposed', () => {
    const end = (parts: PartState[]) =>
      planFromCar(subjectOf({ grade: 4, parts, spec: spec() }), assumptions);
    const dents = (parts: PartState[]) =>
      end(parts).lines.filter(({ part }) => part === 'casting metal').length;
    expect(dents([])).toBe(0);
    expect(dents([graded('casting metal', null)])).toBe(0);
    const best = [2.5, 3, 4.5, 6.5].map(grade => {
      const parts = [graded('casting metal', grade)];
      expect(dents(parts), String(grade)).toBe(1);
      return end(parts).grades[0]!.grade;
    });
    // Better metal never ends worse, and never holds the car down to what it was.
    expect(best).toEqual(best.toSorted((a, b) => a - b));
    expect(best[1]).toBeGreaterThan(7);
    expect(dents([graded('casting metal', 7)])).toBe(0);
  });

  it('takes the cheapest of parts that are alike', () => {
    const alike = (name: string, cost: number): ShelfPart => ({
      name,
      part: 'glazing',
      originality: 'original',
      cost,
      grade: 7,
    });
    const shelf = [alike('A', 300), alike('B', 200), alike('C', 250)];
    const car = subjectOf({ grade: 4, parts: [graded('glazing', null, 'missing')] });
    expect(planFromCar({ ...car, shelf }, assumptions).parts[0]).toMatchObject({ name: 'B' });
  });

  it('never replaces a part by a guess', () => {
    expect(planFromCar(subjectOf({ grade: 1 }), assumptions).parts).toEqual([]);
    expect(
      planFromCar(subjectOf({ grade: 1, parts: [graded('wheels', 2)] }), assumptions).parts,
    ).toHaveLength(1);
  });

  it('counts labels as lost with the finish that they are on', () => {
    const car = subjectOf({ parts: [graded('labels', 8)] });
    const plan = planFromCar(car, assumptions);
    expect(plan.departures.map(({ kind }) => kind)).toContain('reproduction labels');
    const without = planFromCar(car, assumptions, 'restore', { without: ['fit-labels'] });
    expect(without.partsAfter).toContainEqual({ part: 'labels', grade: null, originality: 'missing' });
  });

  it('shows its closure unless it is closed as it was made', () => {
    for (const closure of closures) {
      const plan = planFromCar(subjectOf({}), assumptions, 'restore', { closure });
      const fidelity = planFidelity(restorationPlanOf(plan), assumptions.deviationLoss);
      const shows = closure !== 'as made';
      expect(plan.departures.some(({ kind }) => kind === 'visible post closure')).toBe(shows);
      expect(fidelity.grade).toBe(shows ? 'with deviations' : 'to specification');
    }
  });

  it('is held down by its weakest part, and spread by workmanship', () => {
    const held = planFromCar(subjectOf({ grade: 3, parts: [graded('wheels', 4.5)] }), assumptions);
    expect(held.heldBy).toBe('wheels');
    expect(held.grades[0]!.grade).toBe(7.5);
    const free = planFromCar(subjectOf({ grade: 3 }), assumptions);
    expect(free.heldBy).toBeNull();
    expect(free.grades.map(({ grade }) => grade)).toEqual([9, 8.5, 8, 7, 6]);
    expect(free.grades.reduce((sum, { share }) => sum + share, 0)).toBeCloseTo(1, 12);
  });

  it('is not held down by the old finish of a roof, which is painted with the body or after it', () => {
    for (const roof of ['matching', 'open', 'textured black', '']) {
      const rough = subjectOf({ grade: 3, parts: [graded('roof', 2)], spec: spec({ roof }) });
      const plan = planFromCar(rough, assumptions);
      expect(plan.heldBy, roof).not.toBe('roof');
      expect(plan.departures.map(({ kind }) => kind)).toEqual(['visible post closure']);
    }
    // One that is not there holds nothing down either, but stays missing.
    const gone = subjectOf({ grade: 3, parts: [{ part: 'roof', grade: null, originality: 'missing' }] });
    expect(planFromCar(gone, assumptions).partsAfter.find(({ part }) => part === 'roof')?.originality).toBe(
      'missing',
    );
  });

  it('departs in the roof where one that is finished apart is painted with the body', () => {
    const black = subjectOf({ grade: 5, spec: spec({ roof: 'textured black' }) });
    const without = planFromCar(black, assumptions, 'restore', { without: ['mask-roof'] });
    expect(without.departures).toContainEqual({ kind: 'textured roof', from: { part: 'roof' } });
    const matching = subjectOf({ grade: 5, spec: spec({ roof: 'matching' }) });
    const plain = planFromCar(matching, assumptions, 'restore', { without: ['mask-roof'] });
    expect(plain.departures.map(({ kind }) => kind)).not.toContain('textured roof');
  });

  it('adds up its lines', () => {
    const plan = planFromCar(
      subjectOf({ grade: 4, parts: [graded('interior', null, 'missing')] }),
      assumptions,
    );
    for (const point of ['low', 'likely', 'high'] as const) {
      expect(plan.hours[point] * 60).toBeCloseTo(
        plan.lines.reduce((sum, line) => sum + line.hands[point], 0),
        9,
      );
      expect(plan.cost[point]).toBe(
        plan.lines.flatMap(line => line.materials).reduce((sum, { cost }) => sum + cost[point], 0) +
          plan.parts.reduce((sum, { cost }) => sum + cost[point], 0),
      );
      const asWeighed = restorationPlanOf(plan);
      expect(asWeighed.lines.reduce((sum, { cost }) => sum + cost[point], 0)).toBe(plan.cost[point]);
    }
    expect(plan.spoilChance).toBeCloseTo(
      1 - plan.lines.reduce((kept, l) => kept * (1 - l.spoilChance), 1),
      12,
    );
  });

  it('grinds the posts in place of drilling them where its owner asks for it, and not before', () => {
    const car = subjectOf({ grade: 4, parts: [graded('post and rivet closure', 3)], spec: spec() });
    expect(ids(car)).toContain('drill-posts');
    expect(ids(car)).not.toContain('grind-posts');
    const asked = planFromCar(car, assumptions, 'restore', { also: ['grind-posts'] });
    const done = asked.lines.map(({ id }) => id);
    for (const gone of ['flatten-posts', 'centre-posts', 'drill-posts']) expect(done).not.toContain(gone);
    expect(done.indexOf('grind-posts')).toBeLessThan(done.indexOf('thread-posts'));
    expect(done.indexOf('grind-posts')).toBeLessThan(done.indexOf('take-apart'));
    expect(asked.lines.find(({ id }) => id === 'grind-posts')?.why).toEqual({ kind: 'owner' });
  });

  it('fits other axles where they are cut, from the shelf before they are bought', () => {
    const car = subjectOf({
      grade: 5,
      parts: [graded('axles', 6)],
      spec: spec({ captiveBearings: true }),
    });
    const plan = planFromCar(car, assumptions);
    const done = plan.lines.map(({ id }) => id);
    expect(done).toContain('fit-axles');
    expect(done).not.toContain('straighten-axles');
    expect(done.indexOf('cut-axles')).toBeLessThan(done.indexOf('fit-axles'));
    expect(plan.parts).toEqual([
      {
        part: 'axles',
        from: 'buy',
        name: '',
        originality: 'reproduction',
        cost: { low: 20, likely: 40, high: 60 },
        why: {
          kind: 'lost-in-step',
          part: 'axles',
          step: 'Cut the axles, because the bearings would go with the wheels',
        },
      },
    ]);
    expect(plan.partsAfter).toContainEqual({ part: 'axles', grade: 9, originality: 'reproduction' });
    expect(plan.departures.map(({ kind }) => kind)).toContain('other part');
    const shelf: ShelfPart[] = [
      { name: 'Axles off Q-3', part: 'axles', originality: 'original', cost: 10, grade: 8 },
    ];
    const fromShelf = planFromCar({ ...car, shelf }, assumptions);
    expect(fromShelf.parts[0]).toMatchObject({ name: 'Axles off Q-3' });
    // Originals in their place are no other part.
    expect(fromShelf.departures.map(({ kind }) => kind)).not.toContain('other part');
    // Whoever leaves them off has a car without.
    const off = planFromCar(car, assumptions, 'restore', { leaveOff: ['axles'] });
    expect(off.lines.map(({ id }) => id)).not.toContain('fit-axles');
    expect(off.partsAfter).toContainEqual({ part: 'axles', grade: null, originality: 'missing' });
    // A donor's axles are cut as well, and nothing is fitted to it.
    expect(planFromCar(car, assumptions, 'donor').parts).toEqual([]);
  });

  it('counts axles that are cut once: by what they depart in, by minutes and by price', () => {
    const of = (captiveBearings: boolean) =>
      planFromCar(
        subjectOf({
          grade: 5,
          parts: [graded('axles', 9), graded('wheels', 9)],
          spec: spec({ captiveBearings }),
        }),
        assumptions,
      );
    const [cut, pulled] = [of(true), of(false)];
    const minutes = (plan: typeof cut, id: string) =>
      plan.lines.find(line => line.id === id)?.hands.likely ?? 0;
    expect((cut.hours.likely - pulled.hours.likely) * 60).toBeCloseTo(
      minutes(cut, 'cut-axles') + minutes(cut, 'fit-axles') - minutes(pulled, 'pull-wheels'),
      9,
    );
    // Axles and wheels go on in one step, whatever came before it.
    expect(cut.lines.filter(({ name }) => /\bfit\b.*\baxles/i.test(name)).map(({ id }) => id)).toEqual([
      'wheels-on',
    ]);
    expect(cut.cost.likely - pulled.cost.likely).toBe(40);
    const left = (plan: typeof cut) => {
      const { partsLog, fidelityLog } = plannedCondition(restorationPlanOf(plan), assumptions);
      return partsLog + fidelityLog;
    };
    // The departure takes 10 % and other axles alone 4 %: together 10 %, not 13.6 %.
    expect(left(cut) - left(pulled)).toBeCloseTo(Math.log(0.9), 12);
    const light = { ...assumptions, deviationLoss: { ...assumptions.deviationLoss, 'other part': 0.01 } };
    const { partsLog, fidelityLog } = plannedCondition(restorationPlanOf(cut), light);
    expect(partsLog + fidelityLog - left(pulled)).toBeCloseTo(Math.log(0.96), 12);
  });

  it('makes of the origin of a part what a step says', () => {
    const steps = startingSteps('USD').map(step =>
      step.id === 'clean-bumpers' ? { ...step, leaves: 'period replacement' as const } : step,
    );
    const car = subjectOf({ grade: 5, parts: [graded('bumpers', 5)] });
    const originOfBumpers = (of: typeof assumptions) =>
      planFromCar(car, of).partsAfter.find(({ part }) => part === 'bumpers')?.originality;
    expect(originOfBumpers(assumptions)).toBe('original');
    expect(originOfBumpers({ ...assumptions, work: { ...assumptions.work, steps } })).toBe(
      'period replacement',
    );
  });

  it('refuses steps that come before themselves', () => {
    const [first, ...others] = startingSteps('USD');
    const steps = [{ ...first!, after: ['photograph-after'] }, ...others];
    expect(() =>
      planFromCar(subjectOf({}), { ...assumptions, work: { ...assumptions.work, steps } }),
    ).toThrow(/comes before itself/);
  });
});

describe('wheels that were looked at one by one', () => {
  it('are worked on as a set, by the worst of them', () => {
    const car = subjectOf({
      parts: [graded('front left wheel', 8), graded('rear right wheel', null, 'missing')],
    });
    const plan = planFromCar(car, assumptions);
    expect(plan.lines.map(({ id }) => id)).toContain('fit-wheels');
    expect(plan.partsAfter.filter(({ part }) => part.endsWith('wheel'))).toEqual([]);
    expect(planFromCar(subjectOf({ parts: [graded('rear right wheel', 9)] }), assumptions).parts).toEqual([]);
  });

  it('are replaced where their owner asks for it, which ends better than cleaning them and departs further', () => {
    const car = subjectOf({ grade: 4, parts: [graded('wheels', 4)], spec: spec() });
    const [cleaned, replaced] = [{}, { also: ['fit-wheels'] }].map(wishes =>
      planFromCar(car, assumptions, 'restore', wishes),
    );
    const ids = (plan = cleaned) => plan!.lines.map(({ id }) => id);
    expect(ids()).toContain('clean-wheels');
    expect(cleaned).toMatchObject({ heldBy: 'wheels', grades: [{ grade: 7 }, {}] });
    expect(ids(replaced)).not.toContain('clean-wheels');
    expect(replaced).toMatchObject({ heldBy: null, parts: [{ part: 'wheels', from: 'buy' }] });
    expect(replaced!.grades[0]!.grade).toBe(9);
    expect(replaced!.departures.map(({ kind }) => kind)).toContain('reproduction wheels');
    expect(cleaned!.departures.map(({ kind }) => kind)).not.toContain('reproduction wheels');
  });

  it('leaves what a car came in as it is, which holds no grade down', () => {
    const plan = planFromCar(subjectOf({ grade: 4, parts: [graded('packaging', 2)] }), assumptions);
    expect(plan.partsAfter).toContainEqual({ part: 'packaging', grade: 2, originality: 'original' });
    expect(plan.heldBy).not.toBe('packaging');
  });
});
