import { describe, expect, it } from 'vitest';
import { bodyTypes } from '../../../electron/demo/castings/plan.ts';
import type { DemoTable } from '../../../electron/demo/content.ts';
import { demoDate } from '../../../electron/demo/dates.ts';
import { demoContent } from '../../../electron/demo/demo-content.ts';
import { bodyColour, customTins } from '../../../electron/demo/drawing/surface/finish.ts';
import { basePaints, finishStates, isGrade, originalities, partNames } from '../../../valuation/words.ts';

const content = demoContent();
const { tables } = content;
const demoTables = Object.keys(tables) as DemoTable[];

/** Which column of which table points at which table. */
const references: [table: keyof typeof tables, column: string, target: keyof typeof tables][] = [
  ['series', 'maker_id', 'maker'],
  ['casting', 'series_id', 'series'],
  ['casting_part', 'casting_id', 'casting'],
  ['casting_feature', 'casting_id', 'casting'],
  ['release', 'casting_id', 'casting'],
  ['variation', 'release_id', 'release'],
  ['lot_cost', 'lot_id', 'lot'],
  ['car', 'lot_id', 'lot'],
  ['car', 'casting_id', 'casting'],
  ['car', 'release_id', 'release'],
  ['car', 'variation_id', 'variation'],
  ['car_candidate', 'car_id', 'car'],
  ['car_candidate', 'variation_id', 'variation'],
  ['condition_check', 'car_id', 'car'],
  ['part_grade', 'check_id', 'condition_check'],
  ['disposal', 'car_id', 'car'],
  ['sale_record', 'casting_id', 'casting'],
  ['sale_record', 'variation_id', 'variation'],
  ['sale_record', 'disposal_id', 'disposal'],
  ['decision', 'car_id', 'car'],
  ['expense', 'car_id', 'car'],
];

describe('what is in the demo', () => {
  it('has one maker, four ranges, 36 castings, re-releases and about 180 variations', () => {
    expect(tables.maker.map(maker => maker.name)).toEqual(['Quillon Toys of Wrenmoor']);
    expect(tables.series).toHaveLength(4);
    expect(Math.min(...tables.series.map(series => series.first_year!))).toBe(1966);
    expect(Math.max(...tables.series.map(series => series.last_year!))).toBe(1975);
    expect(tables.casting).toHaveLength(36);
    expect(tables.release.filter(release => release.changed_part !== '').length).toBeGreaterThanOrEqual(8);
    expect(tables.variation.length).toBeGreaterThanOrEqual(170);
    expect(tables.variation.length).toBeLessThanOrEqual(195);
    expect(new Set(tables.variation.map(one => one.base_paint))).toEqual(new Set(basePaints));
  });

  it('has every body type', () => {
    expect(new Set(tables.casting.map(casting => casting.body_type))).toEqual(new Set(bodyTypes));
    expect(bodyTypes.length).toBeGreaterThanOrEqual(9);
  });

  it('gives two or three rear ends to most castings', () => {
    const ends = tables.casting.map(
      casting =>
        tables.casting_feature.filter(one => one.casting_id === casting.id && one.feature === 'rearEnd')
          .length,
    );
    expect(Math.max(...ends)).toBeLessThanOrEqual(3);
    expect(ends.filter(count => count >= 2).length).toBeGreaterThan(24);
  });

  it('has five lots and 90 cars, 16 of them rough and of one year', () => {
    expect(tables.lot).toHaveLength(5);
    expect(tables.car).toHaveLength(90);
    const rough = tables.car.filter(car => car.lot_id === 5);
    expect(rough).toHaveLength(16);
    expect(Math.max(...rough.map(car => car.grade_half!))).toBeLessThanOrEqual(10);
    const years = rough.map(car => tables.release.find(release => release.id === car.release_id)?.year);
    expect(new Set(years)).toEqual(new Set([1968]));
  });

  it('has one lot of excellent cars, one with unidentified cars, one partly sold', () => {
    const excellent = tables.car.filter(car => car.lot_id === 2);
    expect(Math.min(...excellent.map(car => car.grade_half!))).toBeGreaterThanOrEqual(16);
    const open = tables.car.filter(car => car.variation_id === null);
    expect(new Set(open.map(car => car.lot_id))).toEqual(new Set([4]));
    expect(open.every(car => car.as_written !== '{}')).toBe(true);
    const candidates = new Set(tables.car_candidate.map(one => one.car_id));
    expect(open.filter(car => candidates.has(car.id)).length).toBeGreaterThanOrEqual(3);
    expect(open.filter(car => car.casting_id === null).length).toBeGreaterThanOrEqual(2);
    const sold = tables.car.filter(car => car.status === 'sold');
    expect(new Set(sold.map(car => car.lot_id))).toEqual(new Set([3]));
    expect(tables.disposal.map(one => one.car_id).toSorted()).toEqual(sold.map(car => car.id).toSorted());
    expect(tables.disposal.some(one => one.fees_minor! > 0)).toBe(true);
  });

  it('has every finish state and originality', () => {
    expect(new Set(tables.car.map(car => car.finish_state))).toEqual(new Set(finishStates));
    expect(new Set(tables.part_grade.map(part => part.originality))).toEqual(new Set(originalities));
  });

  it('says of each customised car what it wears, in a colour that its maker never had, as its photographs show it', () => {
    const customised = tables.car.filter(car => car.finish_state === 'customised');
    expect(customised.length).toBeGreaterThan(2);
    const made = new Set(tables.variation.map(({ colour }) => colour));
    for (const { id, worn_colour, worn_finish } of customised) {
      expect(worn_finish).toBe('enamel');
      expect(made).not.toContain(worn_colour);
      const drawn = content.photos.flatMap(({ carId, drawn }) =>
        carId === id && drawn.kind !== 'lot' ? [bodyColour(drawn.car)] : [],
      );
      expect(new Set(drawn)).toEqual(new Set([customTins.find(tin => tin.name === worn_colour)?.swatch]));
    }
    expect(tables.car.filter(car => car.worn_colour !== '').length).toBe(customised.length);
  });

  it('shares the cost of each lot out to the cent', () => {
    for (const lot of tables.lot) {
      const cost = tables.lot_cost
        .filter(one => one.lot_id === lot.id)
        .reduce((sum, one) => sum + one.minor, 0);
      const shares = tables.car.filter(car => car.lot_id === lot.id).map(car => car.cost_minor!);
      expect(shares.reduce((sum, share) => sum + share, 0)).toBe(cost);
      expect(Math.min(...shares)).toBeGreaterThan(0);
    }
    expect(tables.car.filter(car => car.cost_fixed === 1)).toHaveLength(1);
  });

  it('has 600 sale records over eight years, sparse, in three currencies', () => {
    const { sale_record: sales } = tables;
    expect(sales).toHaveLength(600);
    expect(new Set(sales.map(sale => sale.identity)).size).toBe(600);
    expect(new Set(sales.map(sale => sale.currency))).toEqual(new Set(['USD', 'GBP', 'EUR']));
    expect(sales[0]!.sold_on < '2019-03-01').toBe(true);
    expect(sales.filter(sale => sale.excluded === 1).every(sale => sale.excluded_why !== '')).toBe(true);
    expect(sales.filter(sale => sale.disposal_id !== null && sale.disposal_id !== undefined)).toHaveLength(7);
    const counts = tables.variation
      .map(one => sales.filter(sale => sale.variation_id === one.id).length)
      .toSorted((a, b) => a - b);
    const none = counts.filter(count => count === 0).length / counts.length;
    expect(none).toBeGreaterThan(0.25);
    expect(none).toBeLessThan(0.45);
    expect(counts[Math.floor(counts.length / 2)]).toBe(2);
  });

  it('has a rate for every foreign amount on its day', () => {
    const firstRate = (currency: string) =>
      tables.exchange_rate
        .filter(rate => rate.currency === currency)
        .map(rate => rate.on_date)
        .toSorted()[0]!;
    const foreign = [
      ...tables.sale_record.map(sale => [sale.currency, sale.sold_on] as const),
      ...tables.lot.map(lot => [lot.currency, lot.bought_on!] as const),
    ].filter(([currency]) => currency !== 'USD');
    expect(foreign.length).toBeGreaterThan(50);
    for (const [currency, on] of foreign) expect(firstRate(currency) <= on).toBe(true);
  });

  it('records one guard overruled, with its reason', () => {
    const overruled = tables.decision.filter(decision => decision.overruled !== '[]');
    expect(overruled).toHaveLength(1);
    expect(JSON.parse(overruled[0]!.overruled!)).toEqual(['keep-grade']);
    expect(overruled[0]!.reason!.length).toBeGreaterThan(40);
    const car = tables.car.find(one => one.id === overruled[0]!.car_id)!;
    expect(car.finish_state).toBe('original');
    expect(car.grade_half).toBeGreaterThanOrEqual(14);
  });
});

describe('how the demo holds together', () => {
  it('points only at rows that are there', () => {
    for (const [table, column, target] of references) {
      const ids = new Set<unknown>(tables[target].map(row => row.id));
      for (const row of tables[table]) {
        const value = (row as Record<string, unknown>)[column];
        if (value !== null && value !== undefined)
          expect(ids.has(value), `${table}.${column} = ${value}`).toBe(true);
      }
    }
  });

  it('numbers the rows of every table from 1 without a gap', () => {
    for (const table of demoTables)
      expect(tables[table].map(row => row.id)).toEqual(tables[table].map((_, i) => i + 1));
  });

  it('knows the parts and grades that it names', () => {
    for (const part of tables.part_grade) {
      expect(partNames).toContain(part.part);
      if (part.originality === 'missing') expect(part.grade_half).toBeNull();
      else expect(isGrade(part.grade_half! / 2)).toBe(true);
    }
  });

  it('gives every car its newest grade, and a second check to each that was restored here', () => {
    for (const car of tables.car) {
      const checks = tables.condition_check.filter(check => check.car_id === car.id);
      expect(checks.at(-1)!.grade_half).toBe(car.grade_half);
      const before = content.photos.some(photo => photo.carId === car.id && photo.state === 'before');
      expect(checks).toHaveLength(before ? 2 : 1);
    }
  });

  it('plans only cars that are there', () => {
    expect(content.plans).toHaveLength(16);
    for (const plan of content.plans)
      expect(tables.car.find(car => car.id === plan.carId)!.status).not.toBe('sold');
  });

  it('has nothing after its own today', () => {
    const dates = [
      ...tables.sale_record.map(sale => sale.sold_on),
      ...tables.disposal.map(disposal => disposal.sold_on),
      ...tables.expense.map(expense => expense.spent_on),
      ...tables.decision.map(decision => decision.decided_on),
      ...tables.condition_check.map(check => check.checked_on),
      ...content.photos.map(photo => photo.takenOn),
      ...content.snapshots.map(snapshot => snapshot.on),
    ];
    expect(dates.toSorted().at(-1)! <= demoDate).toBe(true);
  });

  it('looks back over two years, month by month, at the cars that were there', () => {
    expect(content.snapshots).toHaveLength(25);
    expect(content.snapshots.at(-1)!.on).toBe(demoDate);
    const counts = content.snapshots.map(snapshot => snapshot.cars.length);
    expect(counts[0]).toBeLessThan(counts.at(-1)!);
    expect(counts.at(-1)).toBe(tables.car.filter(car => car.status !== 'sold').length);
  });

  it('calls no two things by one name', () => {
    const names = [
      ...tables.casting.map(casting => casting.name),
      ...tables.colour.map(colour => colour.name),
    ];
    expect(new Set(names.map(name => name.toLowerCase())).size).toBe(names.length);
    const releases = tables.release.map(release => release.name);
    expect(new Set(releases).size).toBe(releases.length);
  });
});
