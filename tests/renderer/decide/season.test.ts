import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { SeasonOffer } from '../../../electron/api/views.ts';
import { mostCash, readLimit } from '../../../renderer/screens/decide/season/read-limit.ts';
import {
  emptySeason,
  isIn,
  offerOf,
  type Season,
  type Standing,
  switched,
  tightest,
  toggled,
  totalsOf,
  withChosen,
  withOption,
  withStanding,
} from '../../../renderer/screens/decide/season/season.ts';
import { partLimits } from '../../../valuation/choice/season-offer.ts';
import { cars, taken } from '../../helpers/decide/season-cars.ts';
import { weighed } from '../../helpers/decide/weighed-car.ts';

const standing = (entries: [number, Standing][]): Season => ({ ...emptySeason, standings: new Map(entries) });

describe('the totals of a season', () => {
  it('add up what its cars take and gain', () => {
    const season = standing([
      [1, 'in'],
      [2, 'must'],
      [3, 'never'],
      [5, 'in'],
      [99, 'in'],
    ]);
    const { cars: taken, ...totals } = totalsOf(season, cars);
    expect(taken.map(({ car }) => car.id)).toEqual([1, 2]);
    expect(totals).toEqual({ hours: 4, cash: 400, parts: { Hub: 6, Glazing: 1 }, gain: 2100, crowded: [] });
  });

  it('name the castings of which there are too many', () => {
    const season = {
      ...standing([
        [1, 'in'],
        [2, 'in'],
        [3, 'in'],
      ]),
      perCasting: 1,
    };
    expect(totalsOf(season, cars).crowded).toEqual(['Dovetail']);
    expect(totalsOf({ ...season, perCasting: 2 }, cars).crowded).toEqual([]);
  });

  it('are those of the parts of the set, whatever set it is', () => {
    fc.assert(
      fc.property(fc.subarray([1, 2, 3, 4]), ids => {
        const whole = totalsOf(withStanding(emptySeason, ids, 'in'), cars);
        const single = ids.map(id => totalsOf(withStanding(emptySeason, [id], 'in'), cars));
        expect(whole.gain).toBe(single.reduce((sum, { gain }) => sum + gain, 0));
        expect(whole.cash).toBe(single.reduce((sum, { cash }) => sum + cash, 0));
        expect(whole.hours).toBeCloseTo(
          single.reduce((sum, { hours }) => sum + hours, 0),
          9,
        );
      }),
    );
  });
});

describe('going in and out', () => {
  it('puts all in unless all are in already', () => {
    const some = standing([
      [1, 'in'],
      [2, 'must'],
    ]);
    expect([...toggled(some, [1, 3]).standings]).toEqual([
      [1, 'in'],
      [2, 'must'],
      [3, 'in'],
    ]);
    expect([...toggled(some, [1, 2]).standings]).toEqual([]);
    expect([...toggled(standing([[3, 'never']]), [3]).standings]).toEqual([[3, 'in']]);
  });

  it('twice is as before where all were alike', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.nat(20), { minLength: 1 }), ids => {
        const once = toggled(emptySeason, ids);
        expect(ids.every(id => isIn(once.standings.get(id)))).toBe(true);
        expect(toggled(once, ids).standings.size).toBe(0);
      }),
    );
  });

  it('takes "must" back to in and "never" to neither', () => {
    const must = switched(emptySeason, [1, 2], 'must');
    expect([...must.standings.values()]).toEqual(['must', 'must']);
    expect([...switched(must, [1], 'must').standings]).toEqual([
      [1, 'in'],
      [2, 'must'],
    ]);
    const never = switched(must, [1], 'never');
    expect(never.standings.get(1)).toBe('never');
    expect(switched(never, [1], 'never').standings.has(1)).toBe(false);
  });

  it('keeps what must be and what must not when a set was chosen', () => {
    const before = standing([
      [1, 'must'],
      [2, 'in'],
      [3, 'never'],
    ]);
    const after = withChosen(
      {
        ...before,
        colours: new Map([
          [1, 'Ember'],
          [2, 'Moss'],
        ]),
      },
      { taken: [taken(4, 'conserve'), taken(1, 'restore')] },
    );
    expect([...after.standings]).toEqual([
      [4, 'in'],
      [1, 'must'],
      [3, 'never'],
    ]);
    expect([...after.options]).toEqual([
      [4, 'conserve'],
      [1, 'restore'],
    ]);
    // What is out has no colour any more.
    expect([...after.colours]).toEqual([[1, 'Ember']]);
  });
});

describe('what is done with a car of the season', () => {
  const offer = (option: SeasonOffer['option'], gain: number, rest: Partial<SeasonOffer> = {}) => ({
    ...taken(0, option),
    gain,
    passes: gain > 0,
    guarded: false,
    ...rest,
  });
  const offers = [offer('conserve', 400, { hours: 0.5 }), offer('restore', 900, { guarded: true, hours: 3 })];
  const car = weighed(7, { recommendation: 'conserve' }, { offers });

  it('is what is recommended until its owner says otherwise, who then requires it', () => {
    const inside = withStanding(emptySeason, [7], 'in');
    expect(offerOf(inside, car)?.option).toBe('conserve');
    expect(totalsOf(inside, [car])).toMatchObject({ gain: 400, hours: 0.5 });
    const wished = withOption(inside, 7, 'restore');
    expect(wished.standings.get(7)).toBe('must');
    expect(totalsOf(wished, [car])).toMatchObject({ gain: 900, hours: 3 });
    // Out and in again, it is what is usual.
    expect(offerOf(toggled(toggled(wished, [7]), [7]), car)?.option).toBe('conserve');
    expect(offerOf(inside, weighed(8, {}, { offers: [], plan: null }))).toBeNull();
  });
});

describe('a car that is advised to be left', () => {
  const offer = (option: SeasonOffer['option'], gain: number, guarded = false) => ({
    ...taken(0, option),
    gain,
    passes: false,
    guarded,
  });
  const offers = [offer('restore', -19_100), offer('conserve', -250), offer('donor', -900)];
  const car = (own: boolean, list = offers) =>
    weighed(
      7,
      { recommendation: 'leave' },
      { offers: list, plan: null, ...(own && { plan: { option: 'restore' as const } }) },
    );
  const required = withStanding(emptySeason, [7], 'must');

  it('is in by what loses least, and not by a plan that nobody made', () => {
    const standard = { ...car(true), plan: { option: 'restore' as const, own: false, guards: [] } };
    expect(offerOf(required, standard)?.option).toBe('conserve');
    expect(totalsOf(required, [standard]).gain).toBe(-250);
    const planned = { ...standard, plan: { ...standard.plan, own: true } };
    expect(offerOf(required, planned)?.option).toBe('restore');
  });

  it('is not painted against a guard while anything else can be done with it', () => {
    const guarded = [offer('restore', 4000, true), offer('conserve', -250)];
    expect(offerOf(required, car(false, guarded))?.option).toBe('conserve');
    expect(offerOf(required, car(false, guarded.slice(0, 1)))?.option).toBe('restore');
  });
});

describe('scarce parts', () => {
  const shelf = [
    { name: 'Hub', inStock: 4 },
    { name: 'Label', inStock: 9 },
  ];

  it('are limited by the shelf, unless the owner says otherwise', () => {
    expect([...partLimits({}, ['Glazing', 'Hub'], shelf)]).toEqual([
      ['Glazing', 0],
      ['Hub', 4],
    ]);
    const own = { Hub: 12, Glazing: null };
    expect([...partLimits(own, ['Glazing', 'Hub'], shelf)]).toEqual([
      ['Glazing', null],
      ['Hub', 12],
    ]);
  });

  it('come the tightest first, and only those that are used', () => {
    const limits = new Map([
      ['Hub', 8],
      ['Glazing', 0],
      ['Wire', null],
      ['Screw', 2],
    ]);
    expect(tightest({ Hub: 4, Glazing: 1, Wire: 3 }, limits).map(({ name }) => name)).toEqual([
      'Glazing',
      'Hub',
      'Wire',
    ]);
  });
});

describe('a limit as typed', () => {
  it('holds a season of cash in currencies without decimals, up to what the service takes', () => {
    const yen = { ceiling: mostCash(1), whole: false };
    expect(readLimit('2500000', yen)).toBe(2_500_000);
    expect(readLimit('9000000000000001', yen)).toBeUndefined();
    expect(readLimit('90000000000000', { ceiling: mostCash(100), whole: false })).toBe(90_000_000_000_000);
    expect(readLimit('90000000000000,01', { ceiling: mostCash(100), whole: false })).toBeUndefined();
  });

  it('is none where nothing is typed, and put back where it is no number', () => {
    const plain = { ceiling: 1_000_000, whole: true };
    expect(readLimit(' ', plain)).toBeNull();
    for (const text of ['-1', '1.5', 'ten', 'Infinity', '1000001'])
      expect(readLimit(text, plain)).toBeUndefined();
  });
});
