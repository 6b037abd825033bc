import { describe, expect, it } from 'vitest';
import { everything } from '../../../../renderer/screens/decide/filter/filter.ts';
import { type Api, addReference, newCollectionService, refusalOf } from '../../../helpers/api.ts';
import { carsToDecide } from '../../../helpers/decide/decide.ts';

const cars = async (api: Api) => {
  const { variations } = await addReference(api);
  const { ids } = await api.cars.create({
    lotId: null,
    cars: [
      { variationId: variations.emberTwin, grade: 2 },
      { variationId: variations.mossTwin, grade: 5.5 },
      { variationId: variations.mossBar, grade: 7 },
      { variationId: variations.emberTwin, grade: 9, finishState: 'restored' },
      { asWritten: { casting: 'Not in any book' } },
    ],
  });
  return ids;
};

describe('decisions in short', () => {
  it('says of every car in short what the whole decision says', async () => {
    const { api } = await newCollectionService();
    await cars(api);
    const rows = await carsToDecide(api);
    const { leastGain, leastProbability, currency } = await api.decisions.facts(everything);
    const whole = new Map((await api.decisions.list({})).map(row => [row.car.id, row]));
    const { body } = await api.collection.assumptions();
    expect({ leastGain, leastProbability, currency }).toEqual({
      leastGain: body.decision.leastGain,
      leastProbability: body.decision.leastProbability,
      currency: 'USD',
    });
    expect(rows.map(row => row.car.id)).toEqual([...whole.keys()]);
    for (const { car, shown, plan, offers, turnsOn } of rows) {
      const { decision, ...use } = whole.get(car.id) ?? expect.fail('a car is lacking');
      expect(turnsOn.kind).not.toBe('no-other');
      expect(car.recommendation).toBe(decision.recommendation);
      if (decision.recommendation === 'not-enough-evidence') {
        expect([shown, plan, offers]).toEqual([null, null, []]);
        continue;
      }
      const { hours, cash, parts } = offers.find(({ option }) => option === plan?.option) ?? expect.fail();
      expect({ hours, cash, parts }).toEqual({ hours: use.hours, cash: use.cash, parts: use.parts });
      for (const { option, gain, guarded } of offers) {
        const full = decision.options.find(one => one.option === option);
        expect(gain).toBe(full?.expectedGain);
        expect(guarded).toBe((full?.guards ?? []).some(guard => !guard.overruled));
      }
      const same = (option: string | undefined) => decision.options.find(one => one.option === option);
      const full = same(shown?.option);
      expect(shown).toMatchObject({
        expectedGain: full?.expectedGain,
        probability: full?.probability,
        cost: full?.cost,
      });
      expect(plan?.option).toBe('restore');
      if (decision.recommendation !== 'leave') expect(shown?.option).toBe(decision.recommendation);
      else if (decision.best !== 'leave') expect(shown?.option).toBe(decision.best);
    }
  });

  it('tells why by the guard, the floor or the next best', async () => {
    const { api } = await newCollectionService();
    const [, , rare, , unknown] = await cars(api);
    const why = async (id: number | undefined) =>
      (await carsToDecide(api)).find(row => row.car.id === id)?.turnsOn;
    const { body } = await api.collection.assumptions();
    const withFloor = (leastGain: number, more = {}) =>
      api.collection.saveAssumptions({
        body: { ...body, decision: { ...body.decision, leastGain, ...more } },
        note: '',
      });
    await withFloor(1, { leastProbability: 0 });
    expect(await why(rare)).toMatchObject({
      kind: 'guards',
      guards: [{ kind: 'keep-grade', finish: 7, keepGrade: 7 }, { kind: 'rarity' }],
    });
    expect(await why(unknown)).toEqual({ kind: 'help', help: 'identify' });
    await withFloor(90_000_000, { keepGrade: 10, keepRarities: [] });
    const rows = await carsToDecide(api);
    const known = rows.filter(row => row.shown);
    expect(known.length).toBeGreaterThan(2);
    for (const row of known) {
      expect(row.car.recommendation).toBe('leave');
      expect(row.turnsOn).toMatchObject(
        (row.shown?.expectedGain ?? 0) > 0
          ? { kind: 'under-least-gain', leastGain: 90_000_000 }
          : { kind: 'nothing-pays' },
      );
    }
  });

  it('leaves out what was sold', async () => {
    const { api } = await newCollectionService();
    const [first = 0, ...rest] = await cars(api);
    await api.cars.dispose({ carId: first, soldOn: '2026-01-01', proceeds: 10, currency: 'USD' });
    expect((await carsToDecide(api)).map(row => row.car.id)).toEqual(rest);
  });
});

describe('many decisions at once', () => {
  it('are one action and one undo', async () => {
    const { api } = await newCollectionService();
    const ids = await cars(api);
    const decided = async () => (await carsToDecide(api)).map(row => row.car.decided);
    const before = await api.collection.history({});
    await api.decisions.recordAll({
      decisions: ids.slice(0, 3).map((carId, i) => ({
        carId,
        choice: i === 2 ? ('conserve' as const) : ('restore' as const),
      })),
    });
    expect(await decided()).toEqual(['restore', 'restore', 'conserve', null, null]);
    const after = await api.collection.history({});
    expect(after.length).toBe(before.length + 1);
    await api.collection.undo();
    expect(await decided()).toEqual([null, null, null, null, null]);
  });

  it('are refused as a whole', async () => {
    const { api } = await newCollectionService();
    const [first = 0, second = 0] = await cars(api);
    const good = { carId: first, choice: 'restore' as const };
    const refusals = [
      [good, { carId: second, choice: 'restore' as const, overruled: ['rarity'], reason: ' ' }],
      [good, { carId: 999, choice: 'leave' as const }],
      [good, { ...good, choice: 'leave' as const }],
    ];
    const said = [];
    for (const decisions of refusals)
      said.push((await refusalOf(api.decisions.recordAll({ decisions }))).message);
    expect(said).toEqual([
      expect.stringContaining('needs a reason'),
      expect.stringContaining('999'),
      expect.stringContaining('only once'),
    ]);
    expect((await carsToDecide(api)).every(row => row.car.decided === null)).toBe(true);
  });
});
