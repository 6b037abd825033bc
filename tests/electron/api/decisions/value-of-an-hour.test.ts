import { describe, expect, it } from 'vitest';
import { addReference, newCollectionService } from '../../../helpers/api.ts';

describe('what an hour at the bench is worth', () => {
  it('is not asked where no car pays for work', async () => {
    const { api } = await newCollectionService();
    expect(await api.decisions.valueOfAnHour()).toBeNull();
  });

  it('is asked once, with what each answer changes; the answer counts, and undo asks again', async () => {
    const { api } = await newCollectionService();
    const { variations } = await addReference(api);
    await api.cars.create({
      lotId: null,
      cars: [
        ...Array.from({ length: 6 }, () => ({
          variationId: variations.emberTwin,
          grade: 1.5,
          finishState: 'stripped' as const,
        })),
        ...Object.values(variations).flatMap(variationId =>
          [2, 4, 6, 9].map(grade => ({ variationId, grade })),
        ),
      ],
    });
    const { body } = await api.collection.assumptions();
    const { steps: _, ...work } = body.work;
    const decision = { ...body.decision, leastProbability: 0.5 };
    await api.collection.saveAssumptions({ body: { ...body, work, decision } });
    const asked = (await api.decisions.valueOfAnHour())!;
    expect(asked.rates.map(({ rate }) => rate)).toEqual([0, 500, 1000, 2000]);
    const cars = asked.rates.map(one => one.cars);
    expect(cars).toEqual(cars.toSorted((a, b) => b - a));
    expect(cars[0]).toBeGreaterThan(cars[1]!);
    const paying = async () =>
      (await api.decisions.list({})).filter(({ decision: { recommendation } }) =>
        ['conserve', 'restore', 'customise'].includes(recommendation),
      ).length;
    for (const { rate, cars: said } of asked.rates) {
      await api.decisions.setValueOfAnHour({ rate });
      expect(await paying(), String(rate)).toBe(said);
      await api.collection.undo();
    }
    // A car more is counted.
    const { ids } = await api.cars.create({
      lotId: null,
      cars: [{ variationId: variations.emberTwin, grade: 1.5, finishState: 'stripped' }],
    });
    expect((await api.decisions.valueOfAnHour())!.rates[0]!.cars).toBe(cars[0]! + 1);
    await api.cars.remove({ ids });
    await api.decisions.setValueOfAnHour({ rate: 1000 });
    expect(await api.decisions.valueOfAnHour()).toBeNull();
    expect((await api.collection.assumptions()).body.hourlyRate).toBe(1000);
    await api.collection.undo();
    expect(await api.decisions.valueOfAnHour()).toEqual(asked);
    // Nothing is an answer too, and leaves the assumptions as they are.
    await api.decisions.setValueOfAnHour({ rate: 0 });
    expect(await api.decisions.valueOfAnHour()).toBeNull();
    expect((await api.collection.assumptions()).version).toBe(1);
  });
});
