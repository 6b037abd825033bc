import { describe, expect, it } from 'vitest';
import { addReference, newCollectionService } from '../../../helpers/api.ts';

const withCars = async () => {
  const service = await newCollectionService();
  const { variations } = await addReference(service.api);
  const { ids } = await service.api.cars.create({
    lotId: null,
    cars: [
      { inventoryNumber: 'S-1', variationId: variations.emberTwin, grade: 3 },
      { inventoryNumber: 'S-2', variationId: variations.mossTwin, grade: 4 },
    ],
  });
  return { ...service, one: ids[0]!, two: ids[1]! };
};
const own = {
  id: 'own-1',
  name: 'Soak the axles in thinner',
  hands: { low: 1, likely: 2, high: 3 },
  cost: { low: 5, likely: 10, high: 20 },
  behind: 'take-apart',
};

describe('the plan of a car', () => {
  it('says on the car’s page what can injure, by the steps of each option’s plan and not by their names', async () => {
    const { api, one } = await withCars();
    const { options } = (await api.cars.get({ id: one })).decision;
    const kinds = options.flatMap(({ option }) => (option === 'leave' ? [] : [option]));
    expect(kinds).toContain('restore');
    const ofPlans = async () => {
      const views = await Promise.all(kinds.map(kind => api.plans.view({ carId: one, kind })));
      return new Set(views.flatMap(({ plan }) => plan.hazards));
    };
    const before = (await api.cars.get({ id: one })).hazards;
    expect(new Set(before)).toEqual(await ofPlans());
    expect(before).not.toContain('plating');
    // A step of the owner's whose name says nothing, but which is marked.
    const marked = { ...own, name: 'The bumpers at the shop', hazards: ['plating' as const] };
    await api.plans.save({ carId: one, kind: 'restore', wishes: { added: [marked] } });
    const after = (await api.cars.get({ id: one })).hazards;
    expect(after).toContain('plating');
    expect(new Set(after)).toEqual(await ofPlans());
  });

  it('warns of what a new name of a line calls for, on the plan and at the bench', async () => {
    const { api, one } = await withCars();
    const wishes = { changed: { 'clean-wheels': { name: 'Have the wheels nickel plated' } } };
    const { plan } = await api.plans.view({ carId: one, kind: 'restore', wishes });
    expect(plan.lines.find(({ id }) => id === 'clean-wheels')?.hazards).toEqual(['plating']);
    expect(plan.hazards).toContain('plating');
    await api.plans.save({ carId: one, kind: 'restore', wishes });
    await api.bench.add({ cars: [{ carId: one }] });
    const [job] = await api.bench.list();
    expect(job!.steps.find(({ step }) => step === 'clean-wheels')).toMatchObject({
      name: 'Have the wheels nickel plated',
      hazards: ['plating'],
    });
    // Under its own name again, it is as harmless as it was.
    const renamed = { changed: { 'clean-wheels': { name: 'Clean the wheels' } } };
    expect(
      (await api.plans.view({ carId: one, kind: 'restore', wishes: renamed })).plan.hazards,
    ).not.toContain('plating');
  });

  it('is worked out until its owner changes it: lines taken out, changed and added', async () => {
    const { api, one } = await withCars();
    const proposed = await api.plans.view({ carId: one });
    expect(proposed).toMatchObject({ kind: 'restore', saved: 'nothing', libraryVersion: 0, before: null });
    const wishes = {
      without: ['clean-wheels'],
      changed: { strip: { hands: { low: 60, likely: 90, high: 120 } } },
      added: [own],
    };
    const changed = await api.plans.view({ carId: one, kind: 'restore', wishes });
    const ids = changed.plan.lines.map(({ id }) => id);
    expect(ids).not.toContain('clean-wheels');
    expect(ids.indexOf('own-1')).toBe(ids.indexOf('take-apart') + 1);
    const line = changed.plan.lines.find(({ id }) => id === 'own-1');
    expect(line).toMatchObject({ why: { kind: 'owner' }, hazards: ['solvents'] });
    expect(changed.plan.hazards).toContain('solvents');
    expect(changed.plan.hours.likely - proposed.plan.hours.likely).toBeCloseTo((70 + 2 - 8) / 60, 9);
    expect(changed.plan.cost.likely - proposed.plan.cost.likely).toBe(10);
    expect(changed.more.map(({ id }) => id)).toContain('clean-wheels');
    // Nothing was saved by looking.
    expect(await api.plans.view({ carId: one })).toEqual(proposed);
  });

  it('is saved with the steps of which it was made, and counts everywhere; undo brings the proposal back', async () => {
    const { api, one } = await withCars();
    const proposed = await api.plans.view({ carId: one });
    await api.plans.save({ carId: one, kind: 'restore', wishes: { added: [own] }, notes: 'slowly' });
    const saved = await api.plans.view({ carId: one });
    expect(saved).toMatchObject({ saved: 'steps', notes: 'slowly', before: null, libraryVersion: 0 });
    expect((await api.cars.get({ id: one })).plan).toMatchObject({
      standard: false,
      hours: { likely: saved.plan.hours.likely },
    });
    // Later versions of the steps leave it alone.
    const { steps } = await api.work.steps();
    await api.work.saveSteps({
      steps: steps.map(step =>
        step.id === 'strip' ? { ...step, hands: { low: 99, likely: 99, high: 99 } } : step,
      ) as never,
    });
    expect((await api.plans.view({ carId: one })).plan).toEqual(saved.plan);
    // The job on the bench has its lines.
    const { ids } = await api.bench.add({ cars: [{ carId: one }] });
    const job = (await api.bench.list()).find(({ id }) => id === ids[0]);
    expect(job?.steps.map(({ step }) => step)).toEqual(saved.plan.lines.map(({ id }) => id));
    for (let i = 0; i < 3; i += 1) await api.collection.undo();
    expect(await api.plans.view({ carId: one })).toEqual(proposed);
  });

  it('says where the car has changed since it was saved, and what still counts', async () => {
    const { api, one } = await withCars();
    await api.plans.save({ carId: one, kind: 'restore', wishes: {} });
    const saved = await api.plans.view({ carId: one });
    await api.cars.saveCheck({
      carId: one,
      checkedOn: '2026-03-01',
      grade: 9,
      parts: ['base', 'glazing', 'interior', 'wheels', 'axles'].map(part => ({
        part: part as 'base',
        grade: 10,
        originality: 'original' as const,
      })),
    });
    const now = await api.plans.view({ carId: one });
    expect(now.plan.lines.length).toBeLessThan(saved.plan.lines.length);
    expect(now.before?.hours.likely).toBeCloseTo(saved.plan.hours.likely, 9);
    expect(now.before?.cost.likely).toBe(saved.plan.cost.likely);
  });

  it('can be to conserve the car or to take it apart, too', async () => {
    const { api, one } = await withCars();
    for (const kind of ['conserve', 'donor'] as const) {
      const { plan } = await api.plans.view({ carId: one, kind });
      expect(plan.kind).toBe(kind);
      expect(plan.lines.length).toBeGreaterThan(3);
      expect(plan.departures).toEqual([]);
    }
  });

  it('is taken over from a template, and from how another car was done', async () => {
    const { api, one, two, clock } = await withCars();
    await api.plans.saveTemplate({ name: 'My usual', kind: 'restore', wishes: { closure: 'rivet' } });
    const { ids } = await api.bench.add({ cars: [{ carId: one }] });
    const job = (await api.bench.list()).find(({ id }) => id === ids[0])!;
    const step = (id: string) => job.steps.find(one => one.step === id)!.id;
    await api.bench.start({ stepIds: [step('strip')] });
    clock.now = new Date(clock.now.getTime() + 45 * 60_000);
    await api.bench.stop({ stepIds: [step('strip')] });
    await api.bench.setStep({ stepId: step('strip'), state: 'done' });
    await api.bench.setStep({ stepId: step('clean-wheels'), state: 'left out' });
    await api.cars.finishWork({
      carId: one,
      jobId: job.id,
      finishedOn: '2026-03-14',
      kind: 'restore',
      finishState: 'restored',
      grade: 8,
      parts: [],
      closure: 'glue',
    });
    const sources = await api.plans.sources();
    expect(sources.map(({ name }) => name)).toEqual(['My usual', 'As S-1 was done']);
    const { kind, wishes } = sources[1]!;
    expect(wishes).toMatchObject({
      closure: 'glue',
      without: ['clean-wheels'],
      changed: { strip: { hands: { low: 45, likely: 45, high: 45 } } },
    });
    const { plan } = await api.plans.view({ carId: two, kind, wishes: wishes as never });
    expect(plan.closure).toBe('glue');
    expect(plan.lines.find(({ id }) => id === 'strip')?.hands.likely).toBe(45);
    await api.plans.removeTemplate({ id: sources[0]!.id! });
    expect((await api.plans.sources()).map(({ name }) => name)).toEqual(['As S-1 was done']);
    await api.collection.undo();
    expect(await api.plans.sources()).toHaveLength(2);
  });
});
