import { describe, expect, it } from 'vitest';
import { addReference, newCollectionService, refusalOf } from '../../../helpers/api.ts';

const shelf = async () => {
  const service = await newCollectionService();
  const { api } = service;
  await addReference(api);
  const castings = await api.reference.castings();
  return { ...service, ids: castings.map(({ id }) => id) };
};

describe('sets of castings', () => {
  it('are made, changed and removed, each undone, and take no name twice', async () => {
    const { api, ids } = await shelf();
    const { id } = await api.castingSets.create({ name: 'First year', castingIds: [...ids, ids[0]!] });
    expect(await api.castingSets.list()).toEqual([{ id, name: 'First year', castingIds: ids }]);
    expect(await refusalOf(api.castingSets.create({ name: 'FIRST YEAR', castingIds: ids }))).toMatchObject({
      message: 'Another set is called “FIRST YEAR” already.',
    });
    await api.castingSets.update({ id, name: 'The first', castingIds: ids.slice(0, 1) });
    expect(await api.castingSets.list()).toEqual([{ id, name: 'The first', castingIds: ids.slice(0, 1) }]);
    await api.collection.undo();
    await api.castingSets.remove({ id });
    expect(await api.castingSets.list()).toEqual([]);
    await api.collection.undo();
    expect(await api.castingSets.list()).toEqual([{ id, name: 'First year', castingIds: ids }]);
    await expect(api.castingSets.create({ name: 'X', castingIds: [99_999] })).rejects.toThrow(
      'no casting 99999',
    );
  });

  it('name what is missing without evidence instead of counting it as nothing', async () => {
    const { api } = await newCollectionService();
    for (const name of ['Dovetail', 'Oxbow'])
      await api.reference.saveCasting({ maker: 'Quillon Toys', series: 'Slipwinds', name, bodyType: '' });
    const castings = await api.reference.castings();
    const ids = castings.map(one => one.id);
    const { id } = await api.castingSets.create({ name: 'All', castingIds: ids });
    const page = await api.castingSets.page({ id });
    expect(page).toMatchObject({ missing: ids.length, completing: null });
    expect(page.withoutEvidence.toSorted()).toEqual(castings.map(({ name }) => name).toSorted());
  });

  it('show the best car of each casting, and sum what is missing to a mean with its range', async () => {
    const { api } = await shelf();
    await api.reference.saveCasting({
      maker: 'Quillon Toys',
      series: 'Slipwinds',
      name: 'Wherry',
      bodyType: '',
    });
    const ids = (await api.reference.castings()).map(one => one.id);
    const [first, ...others] = ids;
    await api.cars.create({
      lotId: null,
      cars: [
        { inventoryNumber: 'Q-1', castingId: first!, grade: 4 },
        { inventoryNumber: 'Q-2', castingId: first!, grade: 8 },
      ],
    });
    const { id } = await api.castingSets.create({ name: 'All', castingIds: ids });
    const page = await api.castingSets.page({ id, grade: 6 });
    await api.castingSets.update({ id, castingIds: [] });
    expect(await api.castingSets.page({ id })).toMatchObject({ members: [], missing: 0, completing: null });
    await api.collection.undo();
    expect(page.members[0]).toMatchObject({ cars: 2, best: { inventoryNumber: 'Q-2' }, price: null });
    expect(page).toMatchObject({ missing: others.length, withoutEvidence: [] });
    const prices = page.members.flatMap(({ price }) => price ?? []);
    expect(prices).toHaveLength(others.length);
    const { low, mid, high } = page.completing!;
    // A mean of a sum lies above the sum of medians, and its range is narrower than the sum of ranges.
    expect(mid).toBeGreaterThanOrEqual(prices.reduce((sum, price) => sum + price.mid, 0));
    expect(low).toBeLessThan(mid);
    expect(high).toBeGreaterThan(mid);
    const better = await api.castingSets.page({ id, grade: 9 });
    expect(better.completing!.mid).toBeGreaterThan(mid);
  });
});
