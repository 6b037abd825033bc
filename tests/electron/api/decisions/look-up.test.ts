import { describe, expect, it } from 'vitest';
import { addReference, newCollectionService } from '../../../helpers/api.ts';

describe('what to look up next', () => {
  it('is nothing in an empty collection', async () => {
    const { api } = await newCollectionService();
    expect(await api.decisions.lookUp()).toEqual([]);
  });

  it('names the sales and what they are worth, and less once they are in', async () => {
    const { api } = await newCollectionService();
    const { dovetail, variations } = await addReference(api);
    const sale = (price: number) => ({
      soldOn: '2026-02-01',
      price,
      currency: 'USD',
      castingId: dovetail,
      variationId: variations.emberTwin,
      grade: 8,
      finishState: 'restored' as const,
      source: 'auction',
    });
    await api.cars.create({
      lotId: null,
      cars: Array.from({ length: 8 }, (_, i) => ({
        variationId: variations.emberTwin,
        grade: 2 + i / 2,
        finishState: 'touched up' as const,
      })),
    });
    const [best] = await api.decisions.lookUp();
    expect(best).toMatchObject({ state: 'restored', sales: 3, grade: 8 });
    expect(best!.name).not.toBe('');
    expect(best!.worth).toBeGreaterThan(100);
    for (const price of [3900, 4100, 4000]) await api.sales.create(sale(price));
    const after = (await api.decisions.lookUp()).find(({ state }) => state === 'restored');
    expect(after?.worth ?? 0).toBeLessThan(best!.worth / 2);
  });
});
