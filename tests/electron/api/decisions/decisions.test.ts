import { describe, expect, it } from 'vitest';
import type { SeasonChoice } from '../../../../electron/api/views.ts';
import { type Api, addReference, newCollectionService, refusalOf } from '../../../helpers/api.ts';
import { carsToDecide } from '../../../helpers/decide/decide.ts';

const plan = (carId: number) => ({
  carId,
  kind: 'restore' as const,
  targetGrade: 9.5,
  deviations: ['another colour' as const],
  partsAfter: [{ part: 'wheels' as const, grade: 9, originality: 'reproduction' as const }],
  hours: { low: 1.25, likely: 2, high: 4.5 },
  spoilChance: 0.045,
  spoiledShare: 0.25,
  lines: [
    {
      name: 'Wheel set',
      kind: 'part' as const,
      cost: { low: 400, likely: 500, high: 900 },
      part: 'Wheels A',
      quantity: 1,
    },
    { name: 'Paint', kind: 'material' as const, cost: { low: 100, likely: 200, high: 300 }, quantity: 1 },
  ],
  notes: 'strip, prime, three coats',
});

const roughCars = async (api: Api, count = 4) => {
  const { variations } = await addReference(api);
  const { ids } = await api.cars.create({
    lotId: null,
    cars: Array.from({ length: count }, (_, i) => ({
      variationId: [variations.emberTwin, variations.mossTwin][i % 2] ?? null,
      grade: 1.5 + i / 2,
    })),
  });
  return { ids, variations };
};

/** Whatever gains anything is worth the work. */
const withoutFloors = async (api: Api) => {
  const { body } = await api.collection.assumptions();
  const decision = { ...body.decision, leastGain: 1, leastProbability: 0.01 };
  await api.collection.saveAssumptions({ body: { ...body, decision } });
};

describe('a plan', () => {
  it('comes back as it was saved and stands in place of the standard one', async () => {
    const { api } = await newCollectionService();
    const { ids } = await roughCars(api);
    const carId = ids[0] ?? 0;
    expect((await api.cars.get({ id: carId })).plan?.standard).toBe(true);
    await api.decisions.savePlan(plan(carId));
    const { carId: _, ...saved } = plan(carId);
    const page = await api.cars.get({ id: carId });
    expect(page.plan).toEqual({ ...saved, standard: false });
    expect(page.fidelity).toMatchObject({
      grade: 'with deviations',
      deviations: ['another colour', 'reproduction wheels', 'visible post closure'],
    });
    expect(await api.collection.parts()).toMatchObject([
      { id: 1, name: 'Wheels A', inStock: 0, unit: null, currency: null, planned: 1 },
    ]);
    await api.cars.dispose({ carId, soldOn: '2026-01-01', proceeds: 10, currency: 'USD' });
    expect((await api.collection.parts())[0]?.planned).toBe(0);
    await api.collection.undo();
    await api.decisions.removePlan({ id: carId });
    expect((await api.cars.get({ id: carId })).plan?.standard).toBe(true);
    await api.collection.undo();
    expect((await api.cars.get({ id: carId })).plan).toEqual({ ...saved, standard: false });
  });

  it('refuses points that do not rise, with their place', async () => {
    const { api } = await newCollectionService();
    const { ids } = await roughCars(api);
    const wrong = { ...plan(ids[0] ?? 0), hours: { low: 3, likely: 2, high: 4 } };
    expect((await refusalOf(api.decisions.savePlan(wrong))).message).toBe(
      'This cannot be used: hours: low, likely and high must rise.',
    );
  });

  it('moves the list at once', async () => {
    const { api } = await newCollectionService();
    const { ids } = await roughCars(api);
    const cost = async () => (await api.cars.list({})).find(row => row.id === ids[1])?.worths.cost;
    const before = await cost();
    await api.decisions.savePlan(plan(ids[1] ?? 0));
    expect(await cost()).not.toEqual(before);
    await api.collection.undo();
    expect(await cost()).toEqual(before);
  });
});

describe('a decision', () => {
  it('is listed for every car not sold, narrowed as asked', async () => {
    const { api } = await newCollectionService();
    const { ids, variations } = await roughCars(api);
    await api.cars.update({ changes: [{ id: ids[3] ?? 0, patch: { variationId: variations.mossBar } }] });
    await api.cars.dispose({ carId: ids[0] ?? 0, soldOn: '2026-01-01', proceeds: 10, currency: 'USD' });
    const rows = await api.decisions.list({});
    expect(rows.map(row => row.car.id)).toEqual(ids.slice(1));
    for (const { car, decision, hours, cash } of rows) {
      expect(decision.recommendation).toBe(car.recommendation);
      expect(decision.expectedGain).toBe(car.expectedGain);
      expect(decision.reasons.length).toBeGreaterThan(0);
      expect(hours).toBeGreaterThan(0);
      expect(cash).toBeGreaterThan(0);
    }
    expect((await api.decisions.list({ belowGrade: 2.5 })).map(row => row.car.id)).toEqual([ids[1]]);
    expect((await api.decisions.list({ excludeRarities: ['rare'] })).map(row => row.car.id)).toEqual([
      ids[1],
      ids[2],
    ]);
    expect(await api.decisions.list({ finishStates: ['restored'] })).toEqual([]);
  });

  it('is recorded beside what was recommended, and overruling a caution needs a reason', async () => {
    const { api } = await newCollectionService();
    const { ids, variations } = await roughCars(api);
    const carId = ids[0] ?? 0;
    await api.cars.update({ changes: [{ id: carId, patch: { variationId: variations.mossBar } }] });
    const recommended = (await api.cars.get({ id: carId })).decision.recommendation;
    const record = (reason: string) =>
      api.decisions.record({ carId, choice: 'restore', overruled: ['rarity'], reason });
    expect((await refusalOf(record(' '))).message).toContain('needs a reason');
    await record('Its colour is gone beyond conserving');
    const page = await api.cars.get({ id: carId });
    expect(page.decided).toBe('restore');
    expect(page.decision.recorded).toEqual({
      choice: 'restore',
      decidedOn: '2026-03-14',
      recommended,
      overruled: ['rarity'],
      reason: 'Its colour is gone beyond conserving',
    });
    const guards = page.decision.options.flatMap(option => option.guards);
    expect(guards.length).toBeGreaterThan(0);
    expect(guards.every(guard => guard.overruled)).toBe(true);
    await api.decisions.clear({ id: carId });
    expect((await api.cars.get({ id: carId })).decision.recorded).toBeNull();
  });
});

describe('choosing within limits', () => {
  it('keeps to hours, cash, parts and places, takes what must be and leaves what must not', async () => {
    const { api } = await newCollectionService();
    const { ids } = await roughCars(api, 8);
    await withoutFloors(api);
    for (const carId of ids.slice(0, 4))
      await api.decisions.savePlan({ ...plan(carId), deviations: [], partsAfter: [] });
    const all = await api.decisions.season({ carIds: ids });
    expect(all.taken.length).toBeGreaterThan(2);
    const cars = await carsToDecide(api);
    const sum = ({ taken }: SeasonChoice, of: 'hours' | 'cash') =>
      taken.reduce((total, { id, option }) => {
        const offers = cars.find(({ car }) => car.id === id)?.offers;
        return total + (offers?.find(one => one.option === option)?.[of] ?? Number.NaN);
      }, 0);
    expect(all.used.hours).toBeCloseTo(sum(all, 'hours'), 9);
    const hours = all.used.hours * 0.7;
    const cash = Math.round(all.used.cash * 0.9);
    const few = await api.decisions.season({ carIds: ids, hours, cash, parts: { 'Wheels A': 1 } });
    expect(few.taken.length).toBeGreaterThan(0);
    expect(few.used.hours).toBeCloseTo(sum(few, 'hours'), 9);
    expect(few.used.hours).toBeLessThanOrEqual(hours);
    expect(few.used.cash).toBe(sum(few, 'cash'));
    expect(few.used.cash).toBeLessThanOrEqual(cash);
    expect(few.used.parts['Wheels A']).toBeLessThanOrEqual(1);
    expect(few.gain).toBeLessThan(all.gain);
    const two = await api.decisions.season({ carIds: ids, cars: 2 });
    expect(two.taken).toHaveLength(2);
    expect(two.next[0]?.needs).toMatchObject({ place: true, hours: 0, cash: 0 });
    const first = all.taken[0]!;
    const without = await api.decisions.season({ carIds: ids, mustNot: [first.id] });
    expect(without.taken.map(({ id }) => id)).not.toContain(first.id);
    const other = cars
      .find(({ car }) => car.id === first.id)!
      .offers.find(({ option }) => option !== first.option)!;
    const by = [{ carId: first.id, option: other.option }];
    const forced = await api.decisions.season({ carIds: ids, hours, by });
    expect(forced.taken).toContainEqual(expect.objectContaining({ id: first.id, option: other.option }));
    expect(forced.against).toEqual(other.passes && !other.guarded ? [] : [first.id]);
  });

  it('takes the cost of hours for no cash, whatever is done', async () => {
    const { api } = await newCollectionService();
    const { ids } = await roughCars(api);
    await withoutFloors(api);
    const cash = async () =>
      (await carsToDecide(api)).map(({ offers }) => offers.map(one => [one.option, one.cash]));
    const before = await cash();
    expect(before[0]!.length).toBeGreaterThan(1);
    await api.decisions.setValueOfAnHour({ rate: 1500 });
    expect(await cash()).toEqual(before);
    expect(await api.decisions.range({ cars: [] })).toBeNull();
    const range = await api.decisions.range({ cars: [{ carId: ids[0]!, option: 'conserve' }] });
    expect(range!.low).toBeLessThan(range!.high);
  });

  it('chooses for a season among all that can be done, behind the floors, with a range and what comes next', async () => {
    const { api } = await newCollectionService();
    const { ids } = await roughCars(api, 8);
    // As the floors start, none of these cars is worth the work.
    expect((await api.decisions.season({ carIds: ids })).taken).toEqual([]);
    await withoutFloors(api);
    const all = await api.decisions.season({ carIds: ids });
    const cars = await carsToDecide(api);
    const recommended = new Map(cars.map(({ car }) => [car.id, car.recommendation]));
    // Without limits, it is what the list says of each car.
    for (const { id, option } of all.taken) expect(option).toBe(recommended.get(id));
    expect(all.gain).toBe(all.taken.reduce((sum, { gain }) => sum + gain, 0));
    expect(Math.abs(all.range.mid - all.gain)).toBeLessThanOrEqual(all.taken.length);
    expect(all.range.low).toBeLessThan(all.range.mid);
    expect(all.range.high).toBeGreaterThan(all.range.mid);
    expect(all.next).toEqual([]);
    const few = await api.decisions.season({ carIds: ids, hours: all.used.hours * 0.4 });
    expect(few.used.hours).toBeLessThanOrEqual(all.used.hours * 0.4);
    expect(few.next[0]!.needs.hours).toBeGreaterThan(0);
    const out = ids.find(id => !few.taken.some(one => one.id === id))!;
    const forced = await api.decisions.season({ carIds: ids, hours: all.used.hours * 0.6, must: [out] });
    expect(forced.taken.map(({ id }) => id)).toContain(out);
    expect((await refusalOf(api.decisions.season({ carIds: ids, must: [out], mustNot: [out] }))).code).toBe(
      'REFUSED',
    );
  });

  it('leaves out what is on the bench already, unless it is required', async () => {
    const { api } = await newCollectionService();
    await roughCars(api, 8);
    await withoutFloors(api);
    const filter = { lot: null, finish: [], below: null, not: [], recommendation: [], decided: null };
    const takenOf = async (wish: Partial<Parameters<Api['decisions']['season']>[0]> = {}) =>
      (await api.decisions.season({ filter, ...wish })).taken.map(({ id }) => id).sort((a, b) => a - b);
    const all = await takenOf();
    const { offered } = await api.decisions.facts(filter);
    const [first = 0, ...others] = all;
    expect(others.length).toBeGreaterThan(0);
    expect((await api.decisions.weighed({ ids: [first] }))[0]?.onBench).toBe(false);
    const job = await api.bench.add({ cars: [{ carId: first, kind: 'restore' }] });
    const [id = 0] = job.ids;
    await api.bench.change({ id, state: 'paused', reason: 'Waiting for wheels' });
    expect(await takenOf()).toEqual(others);
    expect((await api.decisions.facts(filter)).offered).toBe(offered - 1);
    expect((await api.decisions.weighed({ ids: [first] }))[0]?.onBench).toBe(true);
    const left = await api.decisions.leftOut({ filter, taken: others, never: [] });
    expect(left.most.map(({ weighed, why }) => [weighed.car.id, why])).toContainEqual([
      first,
      'on the bench',
    ]);
    expect(await takenOf({ must: [first] })).toEqual(all);
    expect(await takenOf({ by: [{ carId: first, option: 'restore' }] })).toEqual(all);
    await api.bench.change({ id, state: 'given up', reason: 'It is worth more as it is' });
    expect(await takenOf()).toEqual(all);
  });

  it('refuses what cannot be', async () => {
    const { api } = await newCollectionService();
    const { ids } = await roughCars(api);
    const [id = 0] = ids;
    expect((await refusalOf(api.decisions.season({ carIds: ids, must: [id], mustNot: [id] }))).code).toBe(
      'REFUSED',
    );
    const tight = await refusalOf(api.decisions.season({ carIds: ids, must: ids, hours: 0.5 }));
    expect(tight.message).toContain('limit of hours');
  });
});
