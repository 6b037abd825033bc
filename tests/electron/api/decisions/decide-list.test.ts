import { describe, expect, it } from 'vitest';
import type { DecisionSummary } from '../../../../electron/api/views.ts';
import { compareCells } from '../../../../renderer/components/data-grid/keep-order.ts';
import { everything, type Filter } from '../../../../renderer/screens/decide/filter/filter.ts';
import { decideColumns } from '../../../../renderer/screens/decide/list/columns.tsx';
import { recommendations } from '../../../../valuation/words.ts';
import { addReference, newCollectionService } from '../../../helpers/api.ts';
import { carsToDecide, orderBy } from '../../../helpers/decide/decide.ts';

const withCars = async () => {
  const service = await newCollectionService();
  const { api } = service;
  const { variations, oxbow } = await addReference(api);
  const costs = [{ kind: 'price' as const, minor: 9001 }];
  const lotIds: number[] = [];
  for (const name of ['Fair', 'Attic box'])
    lotIds.push((await api.lots.create({ name, boughtOn: '2025-02-03', currency: 'USD', costs })).id);
  const kinds = Object.values(variations);
  const first = await api.cars.create({
    lotId: lotIds[0]!,
    cars: kinds.map((variationId, i) => ({ variationId, grade: 2 + i })),
  });
  const rest = await api.cars.create({
    lotId: null,
    cars: [
      { variationId: kinds[0], finishState: 'restored', grade: 9 },
      { variationId: kinds[1], finishState: 'stripped', grade: 3 },
      { castingId: oxbow },
      { asWritten: { casting: 'Marlow' }, grade: 5 },
    ],
  });
  const ids = [...first.ids, ...rest.ids];
  const { body } = await api.collection.assumptions();
  const decision = { ...body.decision, leastGain: 0, leastProbability: 0, keepRarities: [] };
  await api.collection.saveAssumptions({ body: { ...body, decision }, note: '' });
  await api.cars.dispose({ carId: ids[1]!, soldOn: '2026-01-04', proceeds: 5000, currency: 'USD' });
  await api.decisions.recordAll({
    decisions: [
      { carId: ids[0]!, choice: 'leave' },
      { carId: ids[2]!, choice: 'donor' },
    ],
  });
  await api.work.saveSeason({
    name: 'Winter',
    currency: 'USD',
    cars: [
      { carId: ids[3]!, standing: 'in' },
      { carId: ids[2]!, standing: 'must' },
    ],
    excluded: [ids[0]!],
  });
  return { ...service, ids, lotIds, here: ids.filter(id => id !== ids[1]) };
};

const idsOf = (rows: readonly DecisionSummary[]) => rows.map(({ car }) => car.id);

describe('the list of decisions, read in windows', () => {
  it('is sorted by each column as the grid shows it, unknown last either way', async () => {
    const { api, ids, here } = await withCars();
    const rows = await carsToDecide(api);
    expect(idsOf(rows)).toEqual(here);
    const standing = (id: number) => (['never', null, 'must', 'in'] as const)[ids.indexOf(id)] ?? null;
    const columns = decideColumns({ currency: 'USD', scale: null, onToggle: () => undefined });
    for (const column of columns.filter(({ sortable }) => sortable !== false))
      for (const descending of [false, true]) {
        const value = (weighed: DecisionSummary) =>
          column.value({ weighed, standing: standing(weighed.car.id) }) ?? null;
        const expected = rows.toSorted((a, b) => {
          const [first, second] = [value(a), value(b)];
          if (first === null || second === null) return Number(first === null) - Number(second === null);
          return compareCells(first, second) * (descending ? -1 : 1);
        });
        expect(new Set(rows.map(value)).size, column.id).toBeGreaterThan(1);
        const sorted = await carsToDecide(api, {}, orderBy(column.id, descending));
        expect(idsOf(sorted), column.id).toEqual(idsOf(expected));
      }
  });

  it('is filtered by what the sentence says; an ungraded car may be below any grade', async () => {
    const { api, ids, lotIds } = await withCars();
    const places = async (filter: Partial<Filter>) =>
      idsOf(await carsToDecide(api, filter)).map(id => ids.indexOf(id));
    const rows = await carsToDecide(api);
    const fitting = (fits: (car: DecisionSummary['car']) => boolean) =>
      rows.filter(({ car }) => fits(car)).map(({ car }) => ids.indexOf(car.id));
    const n = ids.length - 4;
    expect(await places({ lot: lotIds[0]! })).toEqual(fitting(({ id }) => ids.indexOf(id) < n));
    expect(await places({ finish: ['restored', 'stripped'] })).toEqual([n, n + 1]);
    expect(await places({ below: 3 })).toEqual([0, n + 2]);
    expect(await places({ below: 3.5 })).toEqual([0, n + 1, n + 2]);
    expect(await places({ decided: 'decided' })).toEqual([0, 2]);
    expect(await places({ decided: 'undecided' })).toEqual(fitting(({ decided }) => decided === null));
    const otherwise = fitting(
      ({ decided, recommendation }) => decided !== null && decided !== recommendation,
    );
    expect(otherwise).toContain(2);
    expect(await places({ decided: 'otherwise' })).toEqual(otherwise);
    expect(await places({ recommendation: ['not-enough-evidence'] })).toEqual([n + 3]);
    const common = (await api.cars.list({})).filter(({ rarity }) => rarity === 'common');
    expect((await places({ not: ['common'] })).length).toBe(
      rows.length - common.filter(({ status }) => status !== 'sold').length,
    );
  });

  it('counts, bounds and names what the screen needs of all cars', async () => {
    const { api, lotIds } = await withCars();
    const filter = { ...everything, lot: lotIds[0]!, recommendation: ['leave' as const] };
    const facts = await api.decisions.facts(filter);
    const all = await carsToDecide(api);
    const ofLot = await carsToDecide(api, { lot: lotIds[0]! });
    expect(facts).toMatchObject({
      cars: all.length,
      lacking: all.filter(({ shown }) => !shown).length,
      listed: (await carsToDecide(api, filter)).length,
      lots: [{ id: lotIds[0], name: 'Fair' }],
    });
    for (const { value, cars } of facts.recommended)
      expect(cars).toBe(ofLot.filter(({ car }) => car.recommendation === value).length);
    expect(facts.recommended.reduce((sum, { cars }) => sum + cars, 0)).toBe(ofLot.length);
    const { values, offered, parts } = await api.decisions.facts(everything);
    expect(offered).toBe(
      all.filter(({ offers }) => offers.some(({ passes, guarded }) => passes && !guarded)).length,
    );
    expect(offered).toBeGreaterThan(0);
    expect(values!.low).toBe(
      Math.min(
        ...all.flatMap(({ car: { worths } }) =>
          [worths.asFound?.low, worths.restored?.high, worths.originalFinish?.low].flatMap(one => one ?? []),
        ),
      ),
    );
    expect(parts).toEqual(
      [...new Set(all.flatMap(({ offers }) => offers.flatMap(one => Object.keys(one.parts))))].sort(),
    );
  });

  it('says where a car stands, what a range holds, and weighs cars by name, sold ones no more', async () => {
    const { api, ids } = await withCars();
    const order = orderBy('gain', true);
    const sorted = idsOf(await carsToDecide(api, {}, order));
    const list = { filter: everything, order };
    expect(await api.decisions.place({ ...list, id: ids[3]! })).toBe(sorted.indexOf(ids[3]!));
    expect(await api.decisions.place({ ...list, id: ids[1]! })).toBeNull();
    const chosen = await api.decisions.chosen({ ...list, from: 1, count: 500 });
    const { rows } = await api.decisions.window({ ...list, from: 1, count: 500 });
    expect(chosen).toEqual({
      cars: sorted.length - 1,
      advised: rows.filter(({ car }) => car.recommendation !== 'not-enough-evidence').length,
    });
    expect(idsOf(await api.decisions.weighed({ ids: [ids[4]!, ids[1]!, 999_999, ids[0]!] }))).toEqual([
      ids[4],
      ids[0],
    ]);
  });

  it('gives the chart every car that can be weighed, as its list says of it', async () => {
    const { api } = await withCars();
    const rows = (await carsToDecide(api)).filter(({ shown }) => shown);
    const points = await api.decisions.points({ filter: everything, also: [] });
    expect(points).toMatchObject({ weighed: rows.length, lacking: 1, ids: idsOf(rows) });
    expect(points.gains).toEqual(rows.map(({ shown }) => shown?.expectedGain));
    expect(points.recommendations.map(place => recommendations[place])).toEqual(
      rows.map(({ car }) => car.recommendation),
    );
    expect(new Set(points.cars)).toEqual(new Set([1]));
    expect(points.highestCost).toBe(Math.max(...points.costs));
  });

  it('chooses a season among the cars that a filter shows, beside those that are required', async () => {
    const { api, ids, lotIds } = await withCars();
    const filter = { ...everything, lot: lotIds[0]! };
    const carIds = idsOf(await carsToDecide(api, filter));
    const shown = await api.decisions.season({ filter });
    expect(shown).toEqual(await api.decisions.season({ carIds }));
    expect(shown.taken.length).toBeGreaterThan(0);
    const outside = ids.at(-3)!;
    const by = [{ carId: outside, option: 'conserve' as const }];
    const required = await api.decisions.season({ filter, by });
    expect(required.taken.map(({ id }) => id)).toContain(outside);
  });

  it('tells what a season leaves out, by the best that is open to each car', async () => {
    const { api } = await withCars();
    const nobody = { filter: everything, taken: [], never: [] };
    const { cars, most } = await api.decisions.leftOut(nobody);
    expect(cars).toBe(most.length);
    expect(cars).toBeGreaterThan(1);
    const gains = most.map(({ offer }) => offer.gain);
    expect(gains).toEqual(gains.toSorted((a, b) => b - a));
    const [best, next] = most.map(({ weighed }) => weighed.car.id);
    const after = await api.decisions.leftOut({ ...nobody, taken: [best!], never: [next!] });
    expect(after.cars).toBe(cars - 1);
    expect(after.most[0]).toMatchObject({ weighed: { car: { id: next } }, why: 'never' });
  });
});
