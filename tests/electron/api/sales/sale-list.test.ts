import { describe, expect, it } from 'vitest';
import type { ListOrder, SaleRow } from '../../../../electron/api/views.ts';
import { compareCells } from '../../../../renderer/components/data-grid/keep-order.ts';
import { saleColumns } from '../../../../renderer/screens/sales/sale-columns.tsx';
import { type Api, addReference, newCollectionService } from '../../../helpers/api.ts';

const all = { castingId: null, variationId: null, source: '', finish: null, show: 'all' as const };
const order = (columnId: string | null, descending = false, since = ''): ListOrder => ({
  sort: columnId === null ? null : { columnId, descending },
  since,
  locale: 'en-GB',
});

const withSales = async () => {
  const service = await newCollectionService();
  const reference = await addReference(service.api);
  const { dovetail, oxbow, variations } = reference;
  const add = (over: Partial<Parameters<Api['sales']['create']>[0]>) =>
    service.api.sales.create({
      soldOn: '2026-01-05',
      castingId: dovetail,
      price: 900,
      currency: 'USD',
      ...over,
    });
  const { id: odd } = await add({ castingId: oxbow, grade: 4.5, source: 'fair 10', finishState: 'restored' });
  await add({ variationId: variations.emberTwin, source: 'fair 9', missingParts: ['wheels'] });
  await add({ reference: 'lot 7', reproductionParts: ['glazing'], grade: 9 });
  const { id: wild } = await add({ variationId: variations.emberTwin, grade: 6, price: 1_200_000 });
  await service.api.sales.exclude({ ids: [odd], excluded: true, why: 'a friend' });
  return { ...service, ...reference, odd, wild };
};

const shown = async (api: Api, asked: ListOrder, filter: Parameters<Api['sales']['facts']>[0] = all) =>
  (await api.sales.window({ filter, order: asked, from: 0, count: 2000 })).rows;

const ids = (rows: readonly SaleRow[]) => rows.map(({ id }) => id);

describe('the list of sale records, read in windows', () => {
  it('is sorted by each column as the grid shows it, unknown last either way', async () => {
    const { api } = await withSales();
    const rows = await api.sales.list({});
    const columns = saleColumns([], () => () => null);
    for (const column of columns)
      for (const descending of [false, true]) {
        const value = (row: SaleRow) => column.value(row) || null;
        const expected = rows.toSorted((a, b) => {
          const [first, second] = [value(a), value(b)];
          if (first === null || second === null) return Number(first === null) - Number(second === null);
          return compareCells(first, second) * (descending ? -1 : 1);
        });
        expect(ids(await shown(api, order(column.id, descending))), column.id).toEqual(ids(expected));
      }
    expect(ids(await shown(api, order(null)))).toEqual(ids(rows));
    expect(ids(await shown(api, order('nothing')))).toEqual(ids(rows));
  });

  it('gives the rows of any window, and says where each stands', async () => {
    const { api, wild } = await withSales();
    const rows = await shown(api, order('price', true));
    const asked = { filter: all, order: order('price', true) };
    const window = await api.sales.window({ ...asked, from: 3, count: 4 });
    expect(window).toEqual({ total: rows.length, from: 3, rows: rows.slice(3, 7) });
    expect((await api.sales.window({ ...asked, from: rows.length + 5, count: 4 })).rows).toEqual([]);
    expect(await api.sales.place({ ...asked, id: wild })).toBe(0);
    expect(await api.sales.place({ ...asked, id: 99_999 })).toBeNull();
  });

  it('is filtered and counted, each choice of state within the rest of the filter', async () => {
    const { api, dovetail, oxbow, odd, wild } = await withSales();
    const rows = await api.sales.list({});
    const facts = await api.sales.facts({ ...all, castingId: oxbow, show: 'left-out' });
    expect(facts).toMatchObject({
      records: rows.length,
      castings: 2,
      states: { doubtful: 1, 'left out': 1, 'set aside': 0, counted: rows.length - 2 },
      tallies: { 'left-out': 1, doubtful: 0, own: 0, 'not-understood': 0 },
      name: 'Oxbow',
    });
    expect(facts.tallies.all).toBe(rows.filter(({ castingId }) => castingId === oxbow).length);
    expect(facts.seenSources).toEqual(expect.arrayContaining(['fair 10', 'fair 9']));
    expect(ids(await shown(api, order(null), { ...all, show: 'left-out' }))).toEqual([odd]);
    expect(ids(await shown(api, order(null), { ...all, show: 'doubtful' }))).toEqual([wild]);
    expect(ids(await shown(api, order(null), { ...all, finish: 'restored' }))).toEqual([odd]);
    const ofCasting = await shown(api, order(null), { ...all, castingId: dovetail, source: 'fair 9' });
    expect(ofCasting.map(({ missingParts }) => missingParts)).toEqual([['wheels']]);
  });

  it('stands by day, either way', async () => {
    const { api } = await withSales();
    const days = async (descending: boolean) =>
      (await shown(api, order('soldOn', descending))).map(({ soldOn }) => soldOn);
    const newestFirst = await days(true);
    expect(new Set(newestFirst).size).toBeGreaterThan(2);
    expect(newestFirst).toEqual(newestFirst.toSorted().reverse());
    expect(await days(false)).toEqual(newestFirst.toSorted());
  });

  it('says of a record whose price suits another variation that it may be one of those', async () => {
    const { api, dovetail, variations } = await withSales();
    const add = (variationId: number, price: number, i: number) =>
      api.sales.create({
        soldOn: `2025-0${1 + (i % 9)}-15`,
        castingId: dovetail,
        variationId,
        price: Math.round(price * (1 + ((i % 7) - 3) / 12)),
        currency: 'USD',
        grade: 6,
        reference: `lot ${variationId} ${i}`,
      });
    for (let i = 0; i < 60; i++) {
      await add(variations.emberTwin, 1000, i);
      await add(variations.mossTwin, 2000, i);
    }
    const { id: strayed } = await add(variations.emberTwin, 2000, 3);
    const row = (await shown(api, order(null), { ...all, show: 'doubtful' })).find(
      ({ id }) => id === strayed,
    );
    expect(row).toMatchObject({ state: 'doubtful', among: null });
    const doubt = row?.doubt;
    if (!doubt || !('otherVariation' in doubt))
      throw new Error(`It is doubted otherwise: ${JSON.stringify(doubt)}`);
    expect(doubt.otherVariation).toBeGreaterThan(0.5);
    expect(doubt.otherVariation).toBeLessThan(1);
  });

  it('says what a range holds, and among what prices a doubtful record stands', async () => {
    const { api, odd, wild } = await withSales();
    const rows = await shown(api, order(null));
    const chosen = await api.sales.chosen({ filter: all, order: order(null), from: 0, count: 1000 });
    expect(chosen).toEqual({ ids: ids(rows), leftOut: 1, own: 0 });
    const others = rows
      .filter(
        row => row.castingId === rows.find(({ id }) => id === wild)?.castingId && row.state === 'counted',
      )
      .map(({ price }) => price)
      .sort((a, b) => a - b);
    const at = (share: number) => others[Math.round((others.length - 1) * share)];
    expect(rows.find(({ id }) => id === wild)?.among).toEqual({ low: at(0.25), high: at(0.75) });
    expect(rows.find(({ id }) => id === odd)?.among).toBeNull();
  });

  it('keeps rows where they were sorted until they are sorted again; new ones come last', async () => {
    const { api, odd, wild, dovetail } = await withSales();
    const before = ids(await shown(api, order('price', false, 'first')));
    expect(before.at(-1)).toBe(wild);
    await api.sales.update({ id: wild, price: 100 });
    expect(ids(await shown(api, order('price', false, 'first')))).toEqual(before);
    expect(ids(await shown(api, order('price', false, 'second')))[0]).toBe(wild);
    expect(ids(await shown(api, order('price')))[0]).toBe(wild);
    const { id } = await api.sales.create({
      soldOn: '2026-01-06',
      castingId: dovetail,
      price: 1,
      currency: 'USD',
    });
    expect(ids(await shown(api, order('price', false, 'first')))).toEqual([...before, id]);
    await api.sales.remove({ ids: [odd] });
    expect(ids(await shown(api, order('price', false, 'first')))).not.toContain(odd);
    await api.collection.undo();
    expect(ids(await shown(api, order('price', false, 'first')))).toEqual([...before, id]);
  });
});
