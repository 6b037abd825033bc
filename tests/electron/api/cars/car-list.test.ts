import { describe, expect, it } from 'vitest';
import type { CarRow, ListOrder } from '../../../../electron/api/views.ts';
import { compareCells } from '../../../../renderer/components/data-grid/keep-order.ts';
import { carColumns } from '../../../../renderer/screens/cars/list/columns.tsx';
import { Ticks } from '../../../../renderer/screens/cars/list/ticks.ts';
import { wallSorts } from '../../../../renderer/screens/cars/list/wall-order.ts';
import { carFilterIn } from '../../../../valuation/reading/list-address.ts';
import { type Api, addReference, newCollectionService } from '../../../helpers/api.ts';

const order = (columnId: string | null, descending = false): ListOrder => ({
  sort: columnId === null ? null : { columnId, descending },
  since: '',
  locale: 'en-GB',
});

const shown = async (api: Api, query = '', asked = order(null), wall = false) =>
  (await api.cars.window({ filter: carFilterIn(query), order: asked, wall, from: 0, count: 2000 })).rows;

const ids = (rows: readonly CarRow[]) => rows.map(({ id }) => id);

const withCars = async () => {
  const service = await newCollectionService();
  const { api } = service;
  const { variations, dovetail, oxbow } = await addReference(api);
  const lot = async (name: string, currency: string) =>
    (
      await api.lots.create({
        name,
        boughtOn: '2025-02-03',
        currency,
        costs: [{ kind: 'price', minor: 9001 }],
      })
    ).id;
  const attic = await lot('Attic box', 'USD');
  const fair = await lot('Fair', 'GBP');
  const kinds = Object.values(variations);
  const a = await api.cars.create({
    lotId: attic,
    cars: kinds.map((variationId, i) => ({ variationId, grade: 3 + i, location: `Tray ${i}T` })),
  });
  const b = await api.cars.create({
    lotId: fair,
    cars: [
      { variationId: kinds[0], finishState: 'restored', grade: 9, wornColour: 'Teal' },
      { castingId: dovetail, grade: 6 },
      { asWritten: { casting: 'Marlow', colour: 'Émber' }, grade: 5 },
      { castingId: oxbow, asWritten: { colour: 'ash' } },
      {},
    ],
  });
  const all = [...a.ids, ...b.ids];
  await api.cars.dispose({ carId: all[1]!, soldOn: '2026-01-04', proceeds: 5000, currency: 'USD' });
  return { ...service, dovetail, kinds, attic, fair, ids: all };
};

describe('the list of cars, read in windows', () => {
  it('is sorted by each column as the grid shows it, unknown last either way', async () => {
    const { api } = await withCars();
    const rows = await api.cars.list({});
    const columns = carColumns({ ticks: new Ticks(), currency: 'USD', scale: null, narrow: false });
    for (const column of columns.filter(({ sortable }) => sortable !== false))
      for (const descending of [false, true]) {
        const value = (row: CarRow) => column.value(row) || null;
        const expected = rows.toSorted((a, b) => {
          const [first, second] = [value(a), value(b)];
          if (column.id === 'photo') return a.photoCount - b.photoCount;
          if (first === null || second === null) return Number(first === null) - Number(second === null);
          return compareCells(first, second) * (descending ? -1 : 1);
        });
        expect(ids(await shown(api, '', order(column.id, descending))), column.id).toEqual(ids(expected));
      }
    expect(await shown(api)).toEqual(rows);
  });

  it('hangs the wall by its figures, equal ones by number, those without one last', async () => {
    const { api } = await withCars();
    const asked = ({ columnId, descending = false }: (typeof wallSorts)['name']) =>
      order(columnId, descending);
    const numbers = (rows: CarRow[]) => rows.map(({ inventoryNumber }) => inventoryNumber);
    const byNumber = await shown(api, '', asked(wallSorts.number), true);
    expect(numbers(byNumber)).toEqual(numbers(byNumber).toSorted((a, b) => a.localeCompare(b)));
    const byWorth = await shown(api, '', asked(wallSorts.worth), true);
    const mids = byWorth.map(car => (car.status === 'sold' ? 0 : (car.worths.asFound?.mid ?? 0)));
    expect(mids).toEqual(mids.toSorted((a, b) => b - a));
    const last = byWorth.filter((_, i) => mids[i] === 0);
    expect(last.length).toBeGreaterThan(1);
    expect(numbers(last)).toEqual(numbers(last).toSorted());
  });

  it('is filtered by what the cars are, lack and say', async () => {
    const { api, attic, fair, dovetail, kinds, ids: all } = await withCars();
    const places = async (query: string) => (await shown(api, query)).map(({ id }) => all.indexOf(id));
    const n = kinds.length;
    const rest = Array.from({ length: 5 }, (_, i) => n + i);
    expect(await places(`lot=${fair}`)).toEqual(rest);
    expect(await places(`lot=${attic},${fair}`)).toHaveLength(n + 5);
    expect(await places('finish=restored')).toEqual([n]);
    expect(await places('grade=9-10,none')).toEqual(expect.arrayContaining([n, n + 3, n + 4]));
    expect(await places('status=sold')).toEqual([1]);
    expect(await places(`casting=${dovetail}`)).toContain(n + 1);
    expect(await places('text=TRAY+0t')).toEqual([0]);
    expect(await places('text=ember+marlow')).toEqual([n + 2]);
    expect(await places('text=nowhere')).toEqual([]);
    expect(await places('show=unidentified')).toEqual([n + 2, n + 4]);
    expect(await places('show=open-variation')).toEqual([n + 1, n + 3]);
    expect(await places('show=ungraded')).toEqual([n + 3, n + 4]);
    expect(await places('show=no-photograph')).not.toContain(1);
    const advised = (await shown(api)).find(car => car.recommendation && car.status !== 'sold')!;
    const same = await shown(api, `recommendation=${advised.recommendation}`);
    expect(ids(same)).toContain(advised.id);
    expect(same.every(car => car.status !== 'sold')).toBe(true);
    await api.cars.update({ changes: [{ id: all[0]!, patch: { location: 'Glass case' } }] });
    expect(await places('text=glass+case')).toEqual([0]);
    await api.collection.undo();
    expect(await places('text=glass+case')).toEqual([]);
  });

  it('counts what each choice would show with the rest of the filter holding', async () => {
    const { api, fair } = await withCars();
    const query = `lot=${fair}&grade=5-9&text=m`;
    const { choices } = await api.cars.facts(carFilterIn(query));
    const count = async (changed: string) => (await shown(api, changed)).length;
    for (const { value, cars } of choices.lots)
      expect(cars, `lot ${value}`).toBe(await count(`lot=${value}&grade=5-9&text=m`));
    for (const { value, cars } of choices.grade)
      expect(cars, `grade ${value}`).toBe(
        await count(`lot=${fair}&text=m&grade=${value === null ? 'none' : `${value}-${value}`}`),
      );
    for (const { value, cars } of choices.finish)
      expect(cars, `finish ${value}`).toBe(await count(`${query}&finish=${value}`));
    for (const { value, cars } of choices.status)
      expect(cars, `status ${value}`).toBe(await count(`${query}&status=${value}`));
    expect(choices.lots).toHaveLength(2);
  });

  it('sums the cars still here, costs by currency and none converted', async () => {
    const { api } = await withCars();
    const rows = await api.cars.list({});
    const here = rows.filter(({ status }) => status !== 'sold');
    const { totals, values, unread } = await api.cars.facts(carFilterIn(''));
    const sum = (list: readonly (number | null | undefined)[]) =>
      list.reduce<number>((all, one) => all + (one ?? 0), 0);
    const gains = here.filter(
      ({ recommendation, expectedGain }) =>
        recommendation !== 'leave' && recommendation !== 'not-enough-evidence' && (expectedGain ?? 0) > 0,
    );
    expect(totals).toMatchObject({
      cars: rows.length,
      here: here.length,
      valued: here.filter(({ worths }) => worths.asFound).length,
      asFound: sum(here.map(({ worths }) => worths.asFound?.mid)),
      gaining: gains.length,
      gain: sum(gains.map(({ expectedGain }) => expectedGain)),
      withoutCost: here.filter(({ cost }) => cost === null).length,
    });
    for (const { currency, minor, cars } of totals.costs) {
      const of = here.filter(car => car.costCurrency === currency);
      expect([minor, cars]).toEqual([sum(of.map(({ cost }) => cost)), of.length]);
    }
    expect(totals.costs.map(({ currency }) => currency)).toEqual(['GBP', 'USD']);
    expect(values?.low).toBeLessThan(values?.high ?? 0);
    expect(unread).toBe(0);
  });

  it('says which of the chosen cars it shows, and which are sold', async () => {
    const { api, fair, ids: all, kinds } = await withCars();
    const list = { order: order(null), wall: false };
    const of = { ids: [all[0]!, all[kinds.length]!] };
    expect(await api.cars.chosen({ filter: carFilterIn(`lot=${fair}`), ...list, of })).toMatchObject({
      ids: [all[kinds.length]],
      sold: [],
    });
    const both = await api.cars.chosen({ filter: carFilterIn(''), ...list, of: { from: 0, count: 2 } });
    const [first] = await shown(api);
    expect(both).toEqual({ ids: all.slice(0, 2), sold: [all[1]], only: first?.inventoryNumber });
  });
});
