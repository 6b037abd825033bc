import { describe, expect, it } from 'vitest';
import { totalsOf, withoutWorthSentence } from '../../reports/model/totals.ts';
import { plainEntry, sampleEntry, sampleReport, worth } from './sample-report.ts';

const noWorth = { asFound: worth(null), restored: worth(900, 1000, 1100), originalFinish: worth(null) };

describe('totals of a report', () => {
  it('adds what the cars are expected to bring and counts cars without worth apart', () => {
    const report = sampleReport([plainEntry(), plainEntry({ worths: noWorth }), plainEntry()]);
    const { bases } = totalsOf(report);
    expect(bases).toHaveLength(1);
    expect(bases[0]).toMatchObject({ cars: 3, withoutWorth: 1, asFound: 24000 });
  });

  it('gives the same sum by series, by finish state and by lot, however many cars', () => {
    const [totals] = totalsOf(sampleReport(Array.from({ length: 137 }, (_, i) => sampleEntry(i)))).bases;
    for (const groups of [totals!.bySeries, totals!.byGrade, totals!.byFinishState, totals!.byLot]) {
      expect(groups.reduce((sum, group) => sum + group.asFound, 0)).toBe(totals!.asFound);
      expect(groups.reduce((sum, group) => sum + group.cars, 0)).toBe(137);
      expect(groups.reduce((sum, group) => sum + group.withoutWorth, 0)).toBe(totals!.withoutWorth);
    }
  });

  it('divides a total among groups without rest, however its parts round', () => {
    const third = worth(10, 20, 30);
    const cars = ['A', 'B', 'C', 'D'].map((series, i) =>
      plainEntry({
        identity: { ...plainEntry().identity, series },
        location: i === 3 ? null : `Drawer ${10 - i}`,
        worths: { ...noWorth, asFound: { ...third, expected: 20.4 } },
      }),
    );
    const [totals] = totalsOf(sampleReport(cars)).bases;
    expect(totals!.asFound).toBe(82);
    expect(totals!.bySeries.reduce((sum, group) => sum + group.asFound, 0)).toBe(82);
    expect(totals!.byPlace.map(({ name }) => name)).toEqual([
      'Drawer 8',
      'Drawer 9',
      'Drawer 10',
      'No place recorded',
    ]);
    const unplaced = cars.map(car => ({ ...car, location: null }));
    expect(totalsOf(sampleReport(unplaced)).bases[0]!.byPlace).toEqual([]);
  });

  it('never adds two bases of value in one total', () => {
    const insured = plainEntry({ basis: 'retail replacement value' });
    const { bases } = totalsOf(sampleReport([plainEntry(), insured, insured]));
    expect(bases.map(({ basis, cars, asFound }) => ({ basis, cars, asFound }))).toEqual([
      { basis: 'fair market value', cars: 1, asFound: 12000 },
      { basis: 'retail replacement value', cars: 2, asFound: 24000 },
    ]);
  });

  it('leaves sold cars out of every total and tells how many they are', () => {
    const { bases, sold } = totalsOf(sampleReport([plainEntry(), plainEntry({ status: 'sold' })]));
    expect(sold).toBe(1);
    expect(bases[0]).toMatchObject({ cars: 1, asFound: 12000 });
  });

  it("tells how much of the total is the owner's own figures", () => {
    const own = plainEntry({ worths: { ...noWorth, asFound: worth(100, 200, 300, { own: true }) } });
    expect(totalsOf(sampleReport([own, plainEntry()])).bases[0]).toMatchObject({
      asFound: 12200,
      ownFigures: 1,
      ownFiguresSum: 200,
    });
  });

  it('refuses a sum beyond exact integers', () => {
    const vast = plainEntry({ worths: { ...noWorth, asFound: worth(1, 2 ** 52, 2 ** 53 - 1) } });
    expect(() => totalsOf(sampleReport([vast, vast]))).toThrow(RangeError);
  });

  it('says plainly what has no worth', () => {
    expect(withoutWorthSentence(0)).toBeNull();
    expect(withoutWorthSentence(1)).toContain('1 car has no value because there is too little evidence');
    expect(withoutWorthSentence(3)).toContain('3 cars have no value because there is too little evidence');
  });
});
