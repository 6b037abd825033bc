import { describe, expect, it } from 'vitest';
import { addReference, newCollectionService } from '../../../helpers/api.ts';

describe('colours for a season', () => {
  it('spread the cars that are painted anyway, and never touch a factory finish', async () => {
    const { api } = await newCollectionService();
    const { variations } = await addReference(api);
    const ember = variations.emberTwin;
    const { ids } = await api.cars.create({
      lotId: null,
      cars: [
        { inventoryNumber: 'S-1', variationId: ember, grade: 3, finishState: 'stripped' },
        { inventoryNumber: 'S-2', variationId: ember, grade: 3, finishState: 'stripped' },
        { inventoryNumber: 'S-3', variationId: ember, grade: 8, finishState: 'original' },
        { inventoryNumber: 'S-4', variationId: ember, grade: 8, finishState: 'original' },
      ],
    });
    const painted = ids.slice(0, 3);
    const plain = await api.work.colours({ carIds: painted, pairCost: 0 });
    expect(plain.cars.map(({ colour, standing }) => [colour, standing])).toEqual([
      ['Ember', 'own'],
      ['Ember', 'own'],
    ]);
    // The third is an original: it keeps its colour, and counts as it stands.
    expect(plain.kept).toEqual(['S-3']);
    expect(plain.pairs).toEqual({ before: 6, after: 6 });
    const varied = await api.work.colours({ carIds: painted, pairCost: 100_000 });
    expect(varied.pairs.after).toBeLessThan(6);
    const other = varied.cars.find(({ colour }) => colour !== 'Ember')!;
    expect(other.standing).toBe('factory');
    expect(other.fidelity.painted).toBeLessThan(other.fidelity.own);
    expect(varied.before).toEqual([expect.objectContaining({ colour: 'Ember', count: 4 })]);
    expect(varied.after.reduce((sum, { count }) => sum + count, 0)).toBe(4);
    expect(await api.work.colours({ carIds: painted, pairCost: 100_000 })).toEqual(varied);
  });

  it('are nothing for no cars', async () => {
    const { api } = await newCollectionService();
    expect(await api.work.colours({ carIds: [], pairCost: 100 })).toMatchObject({ cars: [], after: [] });
  });
});
