import { describe, expect, it } from 'vitest';
import { type Api, addReference, newCollectionService, resultOf } from '../../../helpers/api.ts';

const file = (...lines: string[]) => new File([`${lines.join('\n')}\n`], 'list.csv');
const take = async (api: Api, as: 'lot' | 'reference' | 'sales', ...lines: string[]) =>
  resultOf(
    await api.imports.run({
      file: file(...lines),
      as,
      rows: true,
      ...(as === 'lot' && { lot: { name: 'Tin', currency: 'USD' } }),
    }),
  );

describe('what was settled counts for later lists', () => {
  it('a name that is not a car is left out with that reason, until it is taken back', async () => {
    const { api } = await newCollectionService();
    await take(api, 'lot', 'Car,Cond.', 'Tin garage,C5');
    await api.names.settle({ texts: ['Tin garage'], settlement: { as: 'not a car' } });
    const again = await take(api, 'lot', 'Car,Cond.', 'tin Garage,C7', 'Silver Kite,C4');
    expect(again).toMatchObject({ accepted: 1, rejected: [{ line: 2, column: 'Car' }] });
    expect(again.rejected[0]?.reason).toContain('you said that "tin Garage" is not a car');
    expect(again.rows?.[1]).toMatchObject({ not: 'not a car' });
    const sold = await take(
      api,
      'sales',
      'Car,Date,Price',
      'Tin garage,2024-05-01,9',
      'Silver Kite,2024-05-01,9',
    );
    expect(sold).toMatchObject({ accepted: 1, rejected: [{ line: 2 }] });
    const { settled } = await api.names.settled();
    await api.names.takeBack({ settled: settled.map(({ id }) => id) });
    expect(await take(api, 'lot', 'Car,Cond.', 'tin Garage,C7')).toMatchObject({ accepted: 1 });
  });

  it('a description that is a variation is one in every later list, until it is taken back', async () => {
    const { api } = await newCollectionService();
    const { variations } = await addReference(api);
    const list = ['Car,Colour,Wheels', 'Dovetail,mud,odd ones'];
    await take(api, 'lot', ...list);
    const [seen] = await api.names.seen();
    await api.names.settleSeen({
      keys: [seen!.key],
      settlement: { as: 'same', variationId: variations.emberTwin },
    });
    await take(api, 'sales', 'Car,Colour,Wheels,Date,Price', 'dovetail,Mud,odd ones,2024-05-01,9.00');
    const [sold] = (await api.sales.list({})).filter(({ price }) => price === 900);
    expect(sold).toMatchObject({ variationId: variations.emberTwin });
    expect(await api.names.seen()).toEqual([]);
    const { variations: settled } = await api.names.settled();
    expect(settled).toMatchObject([{ casting: 'Dovetail', told: 'mud, odd ones' }]);
    await api.names.takeBack({ variations: settled.map(({ id }) => id) });
    await take(api, 'sales', 'Car,Colour,Wheels,Date,Price', 'dovetail,Mud,odd ones,2024-05-02,10');
    const [later] = (await api.sales.list({})).filter(({ price }) => price === 1000);
    expect(later).toMatchObject({ variationId: null });
  });
});

describe('rows that wait follow the reference at once', () => {
  const waiting = async () => {
    const { api } = await newCollectionService();
    await take(api, 'lot', 'Car,Colour', 'Silver Kite,aqua', 'Brackenhall Van,purple');
    await take(api, 'sales', 'Car,Colour,Date,Price', 'silver kite,aqua,2024-05-01,9');
    return api;
  };
  const known = async (api: Api) => [
    (await api.cars.list({})).map(({ identified }) => identified),
    (await api.sales.list({})).map(({ castingId }) => castingId !== null),
  ];

  it('when a casting is added by hand, and then one of its variations', async () => {
    const api = await waiting();
    const { id } = await api.reference.saveCasting({
      maker: 'Quillon Toys',
      series: 'Weir',
      name: 'Silver Kite',
    });
    expect(await known(api)).toEqual([['casting', 'no'], [true]]);
    await api.reference.saveVariation({
      castingId: id,
      releaseName: 'Silver Kite',
      features: { colour: 'Aqua' },
    });
    expect(await known(api)).toEqual([['variation', 'no'], [true]]);
    await api.collection.undo();
    await api.collection.undo();
    expect(await known(api)).toEqual([['no', 'no'], [false]]);
  });

  describe('also by the name in what of a sale was not understood', () => {
    const list = [
      'Title,Date,Price',
      'Brackenhall Van purple C8,2024-05-01,61',
      'nice Brackenhall Van red C6,2024-05-02,31',
      'Rare brackenhall van,2024-05-03,32',
      'Brackenhall Van II C4,2024-05-04,12',
      'nice Silver Kite lime C7,2024-05-05,25',
    ];
    const jotted = async () => {
      const { api, session } = await newCollectionService();
      await take(api, 'sales', ...list);
      const open = () =>
        session
          .collection!.read.sqlite.prepare(
            'SELECT sold_on, unread FROM sale_record WHERE casting_id IS NULL ORDER BY id',
          )
          .raw()
          .all();
      return { api, open };
    };
    const addVan = (api: Api) =>
      api.reference.saveCasting({ maker: 'Quillon Toys', series: 'Weir', name: 'Brackenhall Van' });

    it('which waits with the others, and is settled with them', async () => {
      const { api, open } = await jotted();
      const { names, sales } = await api.names.waiting();
      expect(sales).toBe(5);
      expect(names.map(({ name, sales: of }) => [name, of])).toEqual([
        ['Brackenhall Van', 3],
        ['Brackenhall Van II', 1],
        ['Silver Kite', 1],
      ]);
      const done = await api.names.settle({ texts: ['Brackenhall Van'], settlement: { as: 'casting' } });
      expect(done).toMatchObject({ sales: 3 });
      expect(open().map(row => (row as string[])[0])).toEqual(['2024-05-04', '2024-05-05']);
      await api.names.settle({ texts: ['Silver Kite'], settlement: { as: 'casting' } });
      expect(open()).toHaveLength(1);
      await api.collection.undo();
      await api.collection.undo();
      expect(open()).toHaveLength(5);
      expect((await api.names.waiting()).names).toEqual(names);
    });

    it('when its casting is added by hand, and a list is known again afterwards', async () => {
      const { api, open } = await jotted();
      const before = open();
      await addVan(api);
      expect(open().map(row => (row as string[])[0])).toEqual(['2024-05-04', '2024-05-05']);
      const rare = (await api.sales.list({})).find(({ price }) => price === 3200);
      expect(rare?.castingId).not.toBeNull();
      const again = await take(api, 'sales', ...list.filter(line => !line.includes('II')));
      expect(again).toMatchObject({ accepted: 0, duplicates: 4 });
      await api.collection.undo();
      expect(open()).toEqual(before);
    });
  });

  it('when a reference is imported', async () => {
    const api = await waiting();
    const result = await take(
      api,
      'reference',
      'Casting,Colour',
      'Silver Kite,Aqua',
      'Brackenhall Van,Purple',
    );
    expect(result.notes).toContain(
      '2 cars and one sale record that waited for the reference are identified further now.',
    );
    expect(await known(api)).toEqual([['variation', 'variation'], [true]]);
  });
});

it('what to look at, the values of features and swatches are imported and typed', async () => {
  const { api } = await newCollectionService();
  await take(
    api,
    'reference',
    'Casting,Colour,parts,look_at,feature_values,swatch',
    'Silver Kite,Aqua,axles: 1.10 mm,axles: straight; roof: cracks,"wheels: spoked, solid; rear end: twin lamps",#2A8A86',
    'Brackenhall Van,Purple,,wobble,,teal',
  );
  const [kite, van] = (await api.reference.castings()).toSorted((a, b) => (a.name > b.name ? -1 : 1));
  const page = await api.reference.casting({ id: kite!.id });
  expect(page.parts).toEqual([
    { part: 'axles', detail: '1.10 mm', lookAt: 'straight' },
    { part: 'roof', detail: '', lookAt: 'cracks' },
  ]);
  expect(page.featureValues).toContainEqual({ feature: 'wheels', values: ['spoked', 'solid'] });
  expect(await api.reference.colours()).toContainEqual({ name: 'Aqua', swatch: '#2a8a86' });
  await api.reference.saveCasting({
    id: van!.id,
    maker: van!.maker,
    series: van!.series,
    name: van!.name,
    featureValues: [{ feature: 'wheels', values: ['solid', 'Solid ', 'wire'] }],
  });
  expect((await api.reference.casting({ id: van!.id })).featureValues).toContainEqual({
    feature: 'wheels',
    values: ['solid', 'wire'],
  });
});
