import { describe, expect, it } from 'vitest';
import { type Api, newCollectionService, resultOf } from '../../../helpers/api.ts';

const stepOf = async <Kind extends string>(api: Api, kind: Kind) => {
  const home = await api.collection.home();
  return home.firstSteps?.steps.find(step => step.kind === kind);
};
const addCars = async (api: Api, casting: string, count: number) => {
  const { id: lotId } = await api.lots.create({ name: `Lot of ${casting}`, currency: 'USD' });
  await api.cars.create({
    lotId,
    cars: Array.from({ length: count }, () => ({ asWritten: { casting }, grade: 6 })),
  });
};
const sales = (casting: string, count: number) =>
  Array.from({ length: count }, (_, i) => `2026-03-0${i + 1}, ${casting}, C6, $${30 + i}, auction`).join(
    '\n',
  );

describe('a young collection', () => {
  it('is led from nothing to its first decisions, by what each step would bring', async () => {
    const { api } = await newCollectionService();
    expect((await api.collection.home()).firstSteps?.steps.map(({ kind, done }) => [kind, done])).toEqual([
      ['cars', false],
      ['names', false],
      ['words', false],
      ['prices', false],
      ['decide', false],
    ]);

    await addCars(api, 'Larkspur Van', 4);
    await addCars(api, 'Silver Kite', 3);
    await api.sales.addLines({ text: sales('Larkspur Van', 2) });
    expect(await stepOf(api, 'cars')).toMatchObject({ done: true });
    expect(await stepOf(api, 'names')).toMatchObject({
      names: 2,
      cars: 7,
      sales: 2,
      telling: { names: 1, cars: 4 },
      together: 4,
    });
    expect((await api.young.answers())[0]).toMatchObject({ kind: 'name', name: 'Larkspur Van', cars: 4 });

    const valued = async () => (await api.collection.home()).totals.valued;
    expect(await valued()).toBe(0);
    await api.names.settle({ texts: ['Larkspur Van'], settlement: { as: 'casting' } });
    expect(await valued()).toBe(4);
    await api.names.settle({ texts: ['Silver Kite'], settlement: { as: 'casting' } });
    // Two sales of another casting leave it too open; one of its own does not.
    expect(await valued()).toBe(4);
    await api.sales.addLines({ text: sales('Silver Kite', 1) });
    expect(await valued()).toBe(7);
    expect(await stepOf(api, 'names')).toMatchObject({ done: true });
    expect(await stepOf(api, 'prices')).toMatchObject({ done: true, unpriced: { lots: 2, cars: 7 } });
    expect(await api.young.answers()).toEqual([]);
  });

  it('says which price would help, and gives as many cars a value as it said', async () => {
    const { api } = await newCollectionService();
    await addCars(api, 'Silver Kite', 3);
    await api.names.settle({ texts: ['Silver Kite'], settlement: { as: 'casting' } });
    const { best } = (await stepOf(api, 'prices')) as { best: { kind: string; grade: number; cars: number } };
    expect(best).toMatchObject({ kind: 'belief', grade: 6, cars: 3 });
    const [, some] = await api.young.answers();
    expect(some).toMatchObject({ kind: 'sales', casting: 'Silver Kite', sales: 1, cars: 3 });
    await api.sales.addLines({
      text: '2026-03-11, Silver Kite, C6, $31',
    });
    expect((await api.collection.home()).totals.valued).toBe(3);
  });

  it('has steps that can be put away, and brought back by undo', async () => {
    const { api } = await newCollectionService();
    await api.young.dismiss({ kind: 'words' });
    expect(await stepOf(api, 'words')).toMatchObject({ dismissed: true });
    await api.collection.undo();
    expect(await stepOf(api, 'words')).toMatchObject({ dismissed: false });
    for (const kind of ['cars', 'names', 'words', 'prices', 'decide'] as const)
      await api.young.dismiss({ kind });
    expect((await api.collection.home()).firstSteps).toBeNull();
  });
});

describe('what names promise', () => {
  const list = [
    'car,cond,when,paid,who from,notes',
    'Harrowgate Hauler,7,5/12/24,$18,Elmer,',
    'Harrowgate Hauler,4,6/2/24,$9.50,Elmer,',
    'Osier Van,5,3/9/25,$22,Tinker fair,',
    'Dunlin Buggy,3,7/14/25,$4,Elmer,repainted by someone',
    'Harrowgate Hauler,6,8/30/25,,Attic,',
    'Dunlin Buggy,6,8/30/25,,Attic,',
    'Thornapple Estate,6.5,8/30/25,,Attic,',
  ].join('\n');
  const imported = async (text = list) => {
    const { api } = await newCollectionService();
    await resultOf(
      await api.imports.run({
        file: new File([text], 'cars.csv'),
        as: 'lot',
        lot: { name: 'My cars', currency: 'USD' },
      }),
    );
    return api;
  };
  const settleAll = async (api: Api) => {
    for (const { name } of (await api.names.waiting()).names)
      await api.names.settle({ texts: [name], settlement: { as: 'casting' } });
    return (await api.collection.home()).totals.valued;
  };

  it('counts what was paid for cars bought singly, and leaves out the car whose finish is to be settled', async () => {
    const api = await imported();
    const promised = await stepOf(api, 'names');
    expect(promised).toMatchObject({ names: 4, together: 6 });
    expect(await settleAll(api)).toBe(6);
  });

  it('counts a lot bought whole once all its castings are settled, as one sale', async () => {
    const api = await imported(
      `car,cond,when,who from\n${['Harrowgate Hauler', 'Osier Van'].map(car => `${car},6,8/30/25,Attic`).join('\n')}`,
    );
    const [lot] = (await api.lots.list()).filter(({ name }) => name.startsWith('Attic'));
    await api.lots.update({ id: lot?.id ?? 0, costs: [{ kind: 'price', minor: 4000, note: '' }] });
    const promised = await stepOf(api, 'names');
    expect(promised).toMatchObject({ telling: { names: 0 } });
    expect(await settleAll(api)).toBe((promised as { together: number }).together);
  });

  it('leaves out cars that are sold or have a figure of their owner’s own', async () => {
    const api = await imported(
      'car,cond,own estimate,sold on,sold for\nOsier Van,6,$30,,\nOsier Van,6,,1/5/26,$21\nOsier Van,5,,,\n',
    );
    expect(await stepOf(api, 'names')).toMatchObject({ names: 1, cars: 3 });
    const before = (await api.collection.home()).totals.valued;
    const { together } = (await stepOf(api, 'names')) as { together: number };
    expect(await settleAll(api)).toBe(before + together);
  });
});
