import { describe, expect, it } from 'vitest';
import { addReference, newCollectionService, refusalOf } from '../../../helpers/api.ts';

const withJob = async () => {
  const service = await newCollectionService();
  const { api, clock } = service;
  const { variations } = await addReference(api);
  const { ids } = await api.cars.create({
    lotId: null,
    cars: [{ inventoryNumber: 'S-1', variationId: variations.emberTwin, grade: 3 }],
  });
  const carId = ids[0]!;
  const planned = (await api.work.plan({ carId })).cost.likely;
  await api.bench.add({ cars: [{ carId }] });
  const [job] = await api.bench.list();
  const strip = job!.steps.find(({ step }) => step === 'strip')!;
  await api.bench.start({ stepIds: [strip.id] });
  clock.now = new Date(clock.now.getTime() + 60 * 60_000);
  await api.bench.stop({ stepIds: [strip.id] });
  await api.bench.setStep({ stepId: strip.id, state: 'done' });
  await api.bench.addMaterial({
    jobId: job!.id,
    stepId: strip.id,
    name: 'Stripper',
    minor: 280,
    currency: 'USD',
  });
  await api.cars.finishWork({
    carId,
    jobId: job!.id,
    finishedOn: '2026-03-14',
    kind: 'restore',
    finishState: 'restored',
    grade: 7,
    parts: [],
    closure: 'screw',
  });
  return { ...service, planned };
};

describe('learning from one’s own work', () => {
  it('has nothing to say without finished jobs', async () => {
    const { api } = await newCollectionService();
    expect(await api.work.learned()).toMatchObject({ jobs: 0, steps: [], workmanship: null });
    expect((await refusalOf(api.work.acceptLearned({}))).message).toContain('Choose at least one');
  });

  it('proposes by credibility, changes nothing by itself, and is taken over as a version that counts a job once', async () => {
    const { api, planned } = await withJob();
    const view = await api.work.learned();
    expect(view.jobs).toBe(1);
    expect(view.taken).toBeCloseTo(1, 9);
    expect(view.steps.map(({ id }) => id)).toContain('strip');
    const strip = view.steps.find(({ id }) => id === 'strip')!;
    // Likely 20 minutes, one job of 60 at 1 / 3.5: 20 · 3^(1 / 3.5) = 27.4; materials 1.40 to 140 · 2^(1 /
    // 3.5) = 170.7.
    expect(strip.hands).toMatchObject({ jobs: 1, after: { likely: 27 } });
    expect(strip.cost?.after.likely).toBe(171);
    // Aimed at C9 and ended in C7: two points short, at a weight of 1 / 11.
    expect(view.workmanship).toMatchObject({ jobs: 1, own: 2 });
    expect((await api.work.steps()).version).toBe(0);
    // What was planned beside what was done, by job and by step.
    expect(view.byJob).toMatchObject([
      {
        inventoryNumber: 'S-1',
        takenHours: 1,
        takenCost: 280,
        aim: 9,
        reached: 7,
        finishState: 'restored',
        spoiledAt: [],
      },
    ]);
    expect(view.byJob[0]!.plannedHours).toBeCloseTo(view.planned, 9);
    expect(view.byJob[0]!.plannedCost).toBe(planned);
    expect(view.byStep).toMatchObject([
      {
        id: 'strip',
        done: 1,
        timed: 1,
        plannedMinutes: 20,
        takenMinutes: 60,
        plannedCost: 140,
        takenCost: 280,
        spoiled: 0,
      },
    ]);

    await api.work.acceptLearned({ stepIds: ['strip'], workmanship: true });
    const { steps, version, note } = await api.work.steps();
    expect([version, note]).toEqual([1, 'Learned from your own jobs']);
    expect(steps.find(({ id }) => id === 'strip')?.hands.likely).toBe(27);
    const short = (await api.collection.assumptions()).body.work.workmanship.find(one => one.short === 2)!;
    expect(short.share).toBeCloseTo((0.12 * 10) / 11 + 1 / 11, 12);
    const again = await api.work.learned();
    expect(again.steps.map(({ id }) => id)).not.toContain('strip');
    expect(again.workmanship).toBeNull();
    await api.collection.undo();
    expect(await api.work.learned()).toEqual(view);
    expect((await refusalOf(api.work.acceptLearned({ stepIds: ['polish-metal'] }))).message).toContain(
      'say nothing',
    );
  });
});
