import { describe, expect, it } from 'vitest';
import { everything } from '../../../../renderer/screens/decide/filter/filter.ts';
import { type Api, addReference, newCollectionService } from '../../../helpers/api.ts';
import { carsToDecide } from '../../../helpers/decide/decide.ts';

const threeCars = async (api: Api) => {
  const { variations } = await addReference(api);
  const { ids } = await api.cars.create({
    lotId: null,
    cars: [
      { inventoryNumber: 'S-1', variationId: variations.emberTwin, grade: 3, finishState: 'stripped' },
      { inventoryNumber: 'S-2', variationId: variations.emberTwin, grade: 3, finishState: 'stripped' },
      { inventoryNumber: 'S-3', variationId: variations.mossTwin, grade: 6, finishState: 'original' },
    ],
  });
  return ids as [number, number, number];
};

const planned = async (api: Api, carId: number) => {
  const { plan, saved, wishes } = await api.plans.view({ carId, kind: 'restore' });
  return { saved, colour: wishes.colour, departs: plan.departures.map(({ kind }) => kind) };
};

describe('a season of all that can be done', () => {
  it('is saved with the option and the colour of each car and the range of the whole, and comes back', async () => {
    const { api } = await newCollectionService();
    const [first, second, third] = await threeCars(api);
    const rows = await carsToDecide(api);
    const { currency } = await api.decisions.facts(everything);
    const gain = (carId: number, option: string) =>
      rows.find(({ car }) => car.id === carId)!.offers.find(one => one.option === option)!.gain;
    const cars = [
      { carId: third, kind: 'conserve' as const, expected: gain(third, 'conserve') },
      { carId: first, kind: 'restore' as const, expected: gain(first, 'restore'), colour: 'Moss' },
      { carId: second, kind: 'donor' as const, expected: gain(second, 'donor') },
    ];
    const expected = cars.reduce((sum, one) => sum + one.expected, 0);
    const { id } = await api.work.saveSeason({ name: 'Winter', currency, mostCars: 4, expected, cars });
    const [season] = await api.work.seasons();
    expect(season).toMatchObject({ id, name: 'Winter', mostCars: 4, expected });
    expect(season!.cars.map(({ carId, kind, colour }) => [carId, kind, colour])).toEqual([
      [third, 'conserve', ''],
      [first, 'restore', 'Moss'],
      [second, 'donor', ''],
    ]);
    const range = await api.decisions.range({
      cars: cars.map(({ carId, kind }) => ({ carId, option: kind })),
    });
    expect(season!.expectedLow).toBe(expected + range!.low - range!.mid);
    expect(season!.expectedHigh).toBe(expected + range!.high - range!.mid);
    expect(season!.expectedLow!).toBeLessThan(season!.expectedHigh!);
    // A name does not move what was expected.
    await api.cars.update({ changes: [{ id: third, patch: { grade: 2 } }] });
    await api.work.saveSeason({ ...season!, name: 'Long winter' });
    expect((await api.work.seasons())[0]).toMatchObject({
      name: 'Long winter',
      expectedLow: season!.expectedLow,
      expectedHigh: season!.expectedHigh,
    });
  });

  it('takes its colours into the plans when its cars go to the bench, as a departure where they are one; undone with it', async () => {
    const { api } = await newCollectionService();
    const [first, second, third] = await threeCars(api);
    await api.decisions.savePlan({ carId: second, targetGrade: 9, hours: { low: 1, likely: 2, high: 3 } });
    await api.plans.save({ carId: third, kind: 'restore', wishes: { departures: ['another colour'] } });
    const { id } = await api.work.saveSeason({
      name: 'Winter',
      currency: 'USD',
      cars: [
        { carId: first, kind: 'restore', colour: 'Moss' },
        { carId: second, kind: 'restore', colour: 'Moss' },
        { carId: third, kind: 'restore', colour: ' moss ' },
      ],
    });
    const before = await Promise.all([first, second, third].map(carId => planned(api, carId)));
    expect(before.map(({ saved }) => saved)).toEqual(['nothing', 'figures', 'steps']);
    const whole = (await api.cars.get({ id: first })).worths.restored!;
    await api.bench.add({
      seasonId: id,
      cars: [first, second, third].map(carId => ({ carId, kind: 'restore' })),
    });
    const jobs = await api.bench.list();
    expect(jobs.map(({ carId, colour }) => [carId, colour.trim().toLowerCase()])).toEqual([
      [first, 'moss'],
      [second, 'moss'],
      [third, 'moss'],
    ]);
    // Made in Ember: a departure, with what it takes from the value.
    expect(await planned(api, first)).toMatchObject({ saved: 'steps', colour: 'Moss' });
    expect((await planned(api, first)).departs).toContain('another colour');
    expect((await api.cars.get({ id: first })).worths.restored!.mid).toBeLessThan(whole.mid);
    // A plan in figures stays one.
    expect((await api.cars.get({ id: second })).plan).toMatchObject({
      standard: false,
      targetGrade: 9,
      hours: { low: 1, likely: 2, high: 3 },
      deviations: expect.arrayContaining(['another colour']),
    });
    // Made in Moss: to specification, whatever was wished before.
    expect((await planned(api, third)).departs).not.toContain('another colour');
    await api.collection.undo();
    expect(await api.bench.list()).toEqual([]);
    expect(await Promise.all([first, second, third].map(carId => planned(api, carId)))).toEqual(before);
    expect((await api.cars.get({ id: second })).plan?.deviations).not.toContain('another colour');
  });
});

describe('a plan to conserve a car, or to use it for its parts', () => {
  it('is saved beside its plan of painting, counts at once, goes to the bench and to its sheet', async () => {
    const { api } = await newCollectionService();
    const [, , carId] = await threeCars(api);
    const offer = async (option: string) =>
      (await carsToDecide(api))
        .find(({ car }) => car.id === carId)!
        .offers.find(one => one.option === option)!;
    for (const kind of ['conserve', 'donor'] as const) {
      const made = await api.plans.view({ carId, kind });
      expect(made.saved).toBe('nothing');
      expect(made.plan.lines.length).toBeGreaterThan(0);
      for (const { why } of made.plan.lines) expect(why.kind).not.toBe('owner');
      const before = await offer(kind);
      const added = [
        {
          id: 'own-1',
          name: 'Look at it under the lamp',
          hands: { low: 60, likely: 120, high: 180 },
          cost: { low: 100, likely: 200, high: 300 },
        },
      ];
      await api.plans.save({ carId, kind, wishes: { added }, notes: 'slowly' });
      const saved = await api.plans.view({ carId, kind });
      expect(saved).toMatchObject({ saved: 'steps', notes: 'slowly', before: null });
      expect(saved.plan.lines.at(-1)?.name).toBe('Look at it under the lamp');
      const after = await offer(kind);
      expect(after.hours).toBeCloseTo(before.hours + 2, 1);
      expect(after.cash).toBe(before.cash + 200);
      // It costs cash, and its hours cost nothing here.
      expect(after.gain).toBeLessThan(before.gain);
      expect((await api.plans.sources()).map(source => [source.carId, source.kind])).toContainEqual([
        carId,
        kind,
      ]);
    }
    // The plan of painting is untouched.
    expect((await api.plans.view({ carId })).saved).toBe('nothing');
    await api.bench.add({ cars: [{ carId, kind: 'conserve' }] });
    const [job] = await api.bench.list();
    expect(job).toMatchObject({ kind: 'conserve', colour: '' });
    expect(job!.steps.at(-1)?.name).toBe('Look at it under the lamp');
    await api.plans.remove({ carId, kind: 'conserve' });
    expect((await api.plans.view({ carId, kind: 'conserve' })).saved).toBe('nothing');
    await api.collection.undo();
    expect((await api.plans.view({ carId, kind: 'conserve' })).saved).toBe('steps');
    expect((await api.plans.view({ carId, kind: 'donor' })).saved).toBe('steps');
  });
});
