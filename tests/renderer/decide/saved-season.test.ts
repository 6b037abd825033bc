import { describe, expect, it } from 'vitest';
import type { SeasonView } from '../../../electron/api/views.ts';
import { readSeason } from '../../../renderer/screens/decide/season/old-season.ts';
import { nextName, seasonFrom, seasonInput } from '../../../renderer/screens/decide/season/saved-season.ts';
import {
  emptySeason,
  leftOf,
  placesLeft,
  type Season,
  totalsOf,
  waitingForBench,
  withChosen,
} from '../../../renderer/screens/decide/season/season.ts';
import { seasonOutlook } from '../../../renderer/screens/decide/season/season-outlook.ts';
import { mostInSeason } from '../../../valuation/choice/season-offer.ts';
import { cars, taken } from '../../helpers/decide/season-cars.ts';

describe('a season of the collection', () => {
  const saved = (over: Partial<SeasonView> = {}): SeasonView => ({
    id: 3,
    name: 'Winter',
    madeOn: '2026-01-02',
    closedOn: null,
    current: true,
    hours: 20.5,
    cash: 15000,
    currency: 'USD',
    perCasting: 2,
    mostCars: 6,
    parts: { Hub: 12, Glazing: null },
    expected: 500,
    expectedLow: 100,
    expectedHigh: 900,
    notes: '',
    cars: [],
    excluded: [9],
    ...over,
  });
  const savedCar = (carId: number, over: Partial<SeasonView['cars'][number]> = {}) => ({
    carId,
    kind: 'restore' as const,
    standing: 'in' as const,
    expected: 77,
    cost: 7,
    hours: 0.5,
    found: 70,
    after: 150,
    colour: '',
    swatch: null,
    inventoryNumber: `Q-${carId}`,
    finishedOn: null,
    hoursTaken: null,
    onBench: false,
    spent: null,
    now: null,
    brought: null,
    ...over,
  });
  const byId = new Map(cars.map(one => [one.car.id, one]));
  it('says what was reached and what is ahead, with a range about what can still vary alone', () => {
    const view = saved({
      cars: [
        savedCar(1, { finishedOn: '2026-02-01', brought: 120, expected: 100 }),
        savedCar(3, { finishedOn: '2026-02-03', brought: null, expected: 40 }),
        savedCar(4, { onBench: true, expected: 60 }),
        savedCar(2),
      ],
      excluded: [],
    });
    const season = seasonFrom(view, 'USD');
    const waiting = waitingForBench(season, byId);
    expect(waiting.map(({ weighed: { car } }) => car.id)).toEqual([2]);
    const work = { low: 1000, mid: 1300, high: 1700 };
    const outlook = seasonOutlook({ season, saved: view, waiting }, work);
    expect(outlook.reached).toEqual({ cars: 2, known: 1, brought: 120, expected: 100 });
    expect(outlook.ahead).toEqual({ cars: 2, gain: 1260, range: { low: 960, high: 1660 } });
    // The finished car of which nothing is known counts as was expected.
    expect(outlook.together).toEqual({ gain: 1420, range: { low: 1120, high: 1820 } });
    expect(seasonOutlook({ season, saved: view, waiting }, null).together.range).toBeNull();
    const over = { ...view, cars: view.cars.slice(0, 2) };
    const ended = seasonOutlook({ season: seasonFrom(over, 'USD'), saved: over, waiting: [] }, null);
    expect(ended.together).toEqual({ gain: 160, range: { low: 160, high: 160 } });
    expect(ended.ahead.cars).toBe(0);
  });

  const about = { id: 3, name: 'Winter', notes: '', currency: 'USD' };

  it('comes back as it was saved, in its order', () => {
    const season: Season = {
      standings: new Map([
        [2, 'must'],
        [1, 'in'],
        [9, 'never'],
      ]),
      options: new Map([
        [2, 'restore'],
        [1, 'restore'],
      ]),
      colours: new Map([[2, 'Ember']]),
      hours: 20.5,
      cash: 15000,
      parts: { Hub: 12, Glazing: null },
      perCasting: 2,
      mostCars: 6,
      begun: new Map(),
    };
    const { cars: chosen = [], ...input } = seasonInput(season, about, null, byId);
    expect(chosen).toMatchObject([
      { carId: 2, standing: 'must', kind: 'restore', expected: 1200, hours: 2.5, cost: 250, colour: 'Ember' },
      { carId: 1, standing: 'in', kind: 'restore', expected: 900, hours: 1.5, cost: 150, colour: '' },
    ]);
    expect(input.expected).toBe(2100);
    const back = saved({
      ...input,
      id: 3,
      cars: [savedCar(2, { standing: 'must', colour: 'Ember' }), savedCar(1)],
    } as never);
    expect(seasonFrom(back, 'USD')).toEqual(season);
    expect([...seasonFrom(back, 'USD').standings.keys()]).toEqual([2, 1, 9]);
    expect(seasonFrom(back, 'EUR').cash).toBeNull();
  });

  it('keeps what was expected of a car that was begun, and of one that is gone', () => {
    const before = saved({ cars: [savedCar(1, { onBench: true }), savedCar(77), savedCar(2)] });
    const season = seasonFrom(before, 'USD');
    expect(seasonInput(season, about, before, byId).cars).toMatchObject([
      { carId: 1, expected: 77 },
      { carId: 77, expected: 77 },
      { carId: 2, expected: 1200 },
    ]);
    expect(totalsOf(season, cars)).toMatchObject({
      gain: 77 + 1200,
      hours: 0.5 + 2.5,
      parts: { Hub: 2, Glazing: 1 },
    });
    expect(waitingForBench(season, byId).map(({ weighed: { car } }) => car.id)).toEqual([2]);
    expect(leftOf(season, 'hours')).toBe(20);
    expect(placesLeft(season)).toBe(5);
    expect(placesLeft({ ...season, mostCars: null })).toBe(mostInSeason - 1);
    const after = withChosen(season, { taken: [taken(2, 'donor')] });
    expect([...after.standings.keys()]).toEqual([1, 2, 9]);
    expect([...after.options]).toEqual([
      [1, 'restore'],
      [2, 'donor'],
    ]);
  });

  it('is named as no other', () => {
    expect(nextName([], '2026')).toBe('Season 2026');
    expect(nextName(['season 2026', 'Season 2026, 2'], '2026')).toBe('Season 2026, 3');
  });
});

describe('a season that an earlier version kept in the window', () => {
  it('is empty where it cannot be read, and leaves out what is wrong', () => {
    for (const text of [null, '', '{', '3', '"x"', '[]', 'null'])
      expect(readSeason(text)).toEqual(emptySeason);
    expect(
      readSeason(
        '{"standings":[[1,"in"],["2","in"],[3,"perhaps"],4],"hours":-3,"cash":"9","parts":{"Hub":"x"},"perCasting":0}',
      ),
    ).toEqual({ ...emptySeason, standings: new Map([[1, 'in']]), parts: { Hub: null } });
  });
});
