import { describe, expect, it } from 'vitest';
import { addReference, newCollectionService, refusalOf } from '../../../helpers/api.ts';

const shelf = async () => {
  const service = await newCollectionService();
  const { api } = service;
  await addReference(api);
  const { id: lotId } = await api.lots.create({ name: 'Loft', currency: 'USD', costs: [] });
  return { ...service, lotId };
};

describe('saved views', () => {
  it('are saved, replaced, renamed and removed by list and name, and each of it undone', async () => {
    const { api, lotId } = await shelf();
    const { id } = await api.savedViews.save({
      list: 'cars',
      name: 'Loft',
      query: `lot=${lotId}&sort=-found`,
    });
    await api.savedViews.save({ list: 'sales', name: 'Loft', query: 'show=doubtful' });
    expect(await api.savedViews.list({ list: 'cars' })).toEqual([
      { id, name: 'Loft', query: `lot=${lotId}&sort=-found`, leftOut: [], noted: [] },
    ]);
    expect(await api.savedViews.save({ list: 'cars', name: 'LOFT', query: 'grade=none' })).toEqual({ id });
    expect(await api.savedViews.list({ list: 'cars' })).toMatchObject([
      { name: 'LOFT', query: 'grade=none' },
    ]);
    await api.collection.undo();
    expect(await api.savedViews.list({ list: 'cars' })).toMatchObject([{ name: 'Loft' }]);
    await api.savedViews.rename({ id, name: 'Attic' });
    expect(await api.savedViews.list({ list: 'cars' })).toMatchObject([{ id, name: 'Attic' }]);
    await api.collection.undo();
    await api.savedViews.remove({ id });
    expect(await api.savedViews.list({ list: 'cars' })).toEqual([]);
    expect(await api.savedViews.list({ list: 'sales' })).toHaveLength(1);
    await api.collection.undo();
    expect(await api.savedViews.list({ list: 'cars' })).toMatchObject([{ id, name: 'Loft' }]);
  });

  it('refuse a name that another view of the list has, and none at all', async () => {
    const { api } = await shelf();
    const { id } = await api.savedViews.save({ list: 'cars', name: 'One', query: '' });
    await api.savedViews.save({ list: 'cars', name: 'Two', query: '' });
    expect(await refusalOf(api.savedViews.rename({ id, name: 'two' }))).toMatchObject({
      message: 'Another view is called “two” already.',
    });
    await expect(api.savedViews.save({ list: 'cars', name: '  ', query: '' })).rejects.toThrow();
    await expect(api.savedViews.remove({ id: 999 })).rejects.toThrow('There is no view 999');
  });

  it('open without what their filter names and is no longer there, say it, and have it again after an undo', async () => {
    const { api, lotId } = await shelf();
    const other = await api.lots.create({ name: 'Fair', currency: 'USD', costs: [] });
    const query = `lot=${lotId},${other.id}&series=Nowhere&finish=restored,polished&grade=none`;
    await api.savedViews.save({ list: 'cars', name: 'Mine', query });
    await api.lots.remove({ id: lotId });
    const opened = async () => (await api.savedViews.list({ list: 'cars' }))[0]!;
    expect(await opened()).toMatchObject({
      query: `grade=none&lot=${other.id}&finish=restored`,
      leftOut: ['the lot “Loft”', 'the series “Nowhere”', 'finish “polished”'],
      noted: [],
    });
    await api.collection.undo();
    expect((await opened()).leftOut).toEqual(['the series “Nowhere”', 'finish “polished”']);
    await api.lots.update({ id: other.id, name: 'Fair in May' });
    expect((await opened()).noted).toEqual(['the lot “Fair” is now “Fair in May”']);
  });
});
