import { describe, expect, it } from 'vitest';
import { addReference, newCollectionService, refusalOf } from '../../../helpers/api.ts';

const withCars = async () => {
  const service = await newCollectionService();
  const { variations } = await addReference(service.api);
  const { ids } = await service.api.cars.create({
    lotId: null,
    cars: [
      { inventoryNumber: 'S-1', variationId: variations.emberTwin, grade: 3 },
      { inventoryNumber: 'S-2', variationId: variations.mossTwin, grade: 4 },
      { inventoryNumber: 'S-3', variationId: variations.mossTwin, grade: 6 },
    ],
  });
  return { ...service, one: ids[0]!, two: ids[1]!, three: ids[2]! };
};

describe('a plan made from a car', () => {
  it('follows its parts and the factory specification, and is asked for without being saved', async () => {
    const { api, one } = await withCars();
    await api.cars.saveCheck({
      carId: one,
      checkedOn: '2026-03-01',
      grade: 3,
      parts: [{ part: 'axles', grade: 3, originality: 'original' }],
    });
    const plan = await api.work.plan({ carId: one });
    // The base of this variation is painted in full.
    expect(plan.lines.find(({ id }) => id === 'paint-base')?.why).toEqual({
      kind: 'specification',
      part: 'base',
      words: 'full',
    });
    expect(plan.lines.find(({ id }) => id === 'straighten-axles')?.why).toMatchObject({ grade: 3 });
    expect(await api.work.plan({ carId: one })).toEqual(plan);
    const without = await api.work.plan({
      carId: one,
      wishes: { without: ['paint-base'], closure: 'rivet' },
    });
    expect(without.lines.map(({ id }) => id)).not.toContain('paint-base');
    expect(without.closure).toBe('rivet');
    expect((await api.cars.get({ id: one })).plan).toMatchObject({ standard: true, hours: plan.hours });
  });
});

describe('the steps', () => {
  it('start from the project’s own, and every saved version counts from then on; undo brings the earlier back', async () => {
    const { api, one } = await withCars();
    const { steps, version, label } = await api.work.steps();
    expect([version, label]).toEqual([0, expect.stringContaining('common practice, no source')]);
    const before = await api.work.plan({ carId: one });
    const slower = steps.map(step =>
      step.id === 'strip' ? { ...step, hands: { low: 60, likely: 120, high: 240 } } : step,
    );
    await api.work.saveSteps({ steps: structuredClone(slower) as never, note: 'My stripper is slow' });
    expect(await api.work.steps()).toMatchObject({ version: 1, note: 'My stripper is slow' });
    const after = await api.work.plan({ carId: one });
    expect(after.hours.likely - before.hours.likely).toBeCloseTo(100 / 60, 9);
    await api.collection.undo();
    expect(await api.work.plan({ carId: one })).toEqual(before);
  });

  it('are refused where one would come before itself', async () => {
    const { api } = await withCars();
    const { steps } = await api.work.steps();
    const ring = steps.map(step =>
      step.id === 'look-and-photograph' ? { ...step, after: ['photograph-after'] } : step,
    );
    expect((await refusalOf(api.work.saveSteps({ steps: structuredClone(ring) as never }))).message).toMatch(
      /would come before itself/,
    );
  });
});

describe('seasons', () => {
  it('are saved with limits, cars, order and what was expected; one is current; what was finished stands beside it', async () => {
    const { api, one, two, three } = await withCars();
    const { id } = await api.work.saveSeason({
      name: 'Winter',
      hours: 20,
      cash: 5000,
      currency: 'USD',
      parts: { Hub: null },
      cars: [
        { carId: two, expected: 900, hours: 4.5, cost: 700, found: 1000, standing: 'must' },
        { carId: one, expected: 400 },
      ],
      excluded: [three],
    });
    const second = await api.work.saveSeason({ name: 'Spring', currency: 'USD', cars: [] });
    expect((await api.work.seasons()).map(({ name, current }) => [name, current])).toEqual([
      ['Spring', true],
      ['Winter', false],
    ]);
    await api.work.setCurrentSeason({ id });
    await api.cars.finishWork({
      carId: two,
      kind: 'restore',
      finishedOn: '2026-03-20',
      finishState: 'restored',
      grade: 8,
      parts: [],
      minutes: 330,
    });
    const winter = (await api.work.seasons()).find(season => season.id === id);
    expect(winter).toMatchObject({
      current: true,
      madeOn: '2026-03-14',
      hours: 20,
      cash: 5000,
      parts: { Hub: null },
      excluded: [three],
    });
    expect(winter?.cars).toMatchObject([
      {
        inventoryNumber: 'S-2',
        standing: 'must',
        expected: 900,
        hours: 4.5,
        finishedOn: '2026-03-20',
        hoursTaken: 5.5,
        onBench: false,
        spent: 0,
      },
      { inventoryNumber: 'S-1', standing: 'in', finishedOn: null, brought: null },
    ]);
    const { worths } = await api.cars.get({ id: two });
    expect(winter?.cars[0]).toMatchObject({ now: worths.asFound?.mid, brought: worths.asFound!.mid - 1000 });
    const spent = { carId: two, what: 'Lacquer', currency: 'USD' };
    await api.cars.addExpense({ ...spent, spentOn: '2026-03-01', minor: 300 });
    await api.cars.addExpense({ ...spent, spentOn: '2026-03-20', minor: 50 });
    await api.cars.dispose({ carId: two, soldOn: '2026-03-25', proceeds: 2000, fees: 100, currency: 'USD' });
    const sold = (await api.work.seasons()).find(season => season.id === id)?.cars[0];
    expect(sold).toMatchObject({ spent: 50, now: 1900, brought: 1900 - 1000 - 50 });
    for (let i = 0; i < 3; i++) await api.collection.undo();
    await api.work.closeSeason({ id, on: '2026-04-01' });
    expect((await api.work.seasons()).find(season => season.id === id)).toMatchObject({
      current: false,
      closedOn: '2026-04-01',
    });
    await api.collection.undo();
    expect((await api.work.seasons()).find(season => season.id === id)?.current).toBe(true);
    await api.work.removeSeason({ id: second.id });
    expect(await api.work.seasons()).toHaveLength(1);
    await api.collection.undo();
    expect(await api.work.seasons()).toHaveLength(2);
  });

  it('are refused under a name that is taken, and with a car twice', async () => {
    const { api, one } = await withCars();
    await api.work.saveSeason({ name: 'Winter', currency: 'USD', cars: [] });
    expect(
      (await refusalOf(api.work.saveSeason({ name: 'winter', currency: 'USD', cars: [] }))).message,
    ).toMatch(/called Winter already/);
    const twice = [{ carId: one }, { carId: one }];
    expect(
      (await refusalOf(api.work.saveSeason({ name: 'Spring', currency: 'USD', cars: twice }))).message,
    ).toMatch(/only once/);
  });
});
