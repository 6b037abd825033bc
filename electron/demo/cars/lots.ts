import type { IsoDate } from '../../../valuation/types.ts';
import type { FinishState } from '../../../valuation/words.ts';
import type { Row } from '../content.ts';
import { instant } from '../dates.ts';

/** A purchase, and what sort of cars were in it. Amounts are minor units of its currency. */
export interface LotPlan {
  name: string;
  boughtOn: IsoDate;
  seller: string;
  currency: string;
  costs: { kind: 'price' | 'premium' | 'tax' | 'carriage' | 'other'; minor: number; note: string }[];
  notes: string;
  cars: number;
  /** Grades are drawn about this mean and kept within the bounds. */
  grade: { mean: number; sd: number; low: number; high: number };
  /** Finish states other than original, and how many cars arrived in each. */
  finishes: Partial<Record<FinishState, number>>;
  /** How much likelier scarce and rare variations are in it than in the market. */
  choice: number;
  /** Only castings first sold in this year, where the lot is of one year. */
  year?: number;
  unidentified: number;
  sold: number;
  locations: string[];
}

/** The purchases of the invented collection; costs in minor units of the lot's currency. */
export const lotPlans: LotPlan[] = [
  {
    name: 'Tollhouse Lane estate',
    boughtOn: '2022-09-17',
    seller: 'Estate sale, Tollhouse Lane',
    currency: 'USD',
    costs: [
      { kind: 'price', minor: 64000, note: '' },
      { kind: 'tax', minor: 3840, note: '' },
      { kind: 'other', minor: 1450, note: 'Fuel, two trips' },
    ],
    notes:
      'One boy’s cars, kept in a drawer from 1966 on and never given away. His sister sold the house. She remembered the Pellbrook being the one that went to school.',
    cars: 18,
    grade: { mean: 6.4, sd: 1.2, low: 4, high: 9 },
    finishes: { 'touched up': 2, customised: 1 },
    choice: 1.5,
    unidentified: 0,
    sold: 0,
    locations: ['Cabinet, shelf 2', 'Cabinet, shelf 3', 'Drawer A1'],
  },
  {
    name: 'Best of a long list',
    boughtOn: '2023-05-06',
    seller: 'Attic and Axle',
    currency: 'GBP',
    costs: [
      { kind: 'price', minor: 295000, note: '' },
      { kind: 'tax', minor: 14750, note: 'Import' },
      { kind: 'carriage', minor: 4200, note: 'Insured parcel' },
    ],
    notes:
      'Picked from a dealer’s list over a winter. All of them seen in hand at the Corn Exchange before the money went. Nothing here goes near the bench.',
    cars: 14,
    grade: { mean: 8.7, sd: 0.4, low: 8, high: 9.5 },
    finishes: { restored: 1 },
    choice: 9,
    unidentified: 0,
    sold: 0,
    locations: ['Cabinet, shelf 1'],
  },
  {
    name: 'Fairground tray',
    boughtOn: '2024-04-20',
    seller: 'Grange Hall toy show, table 31',
    currency: 'USD',
    costs: [
      { kind: 'price', minor: 52000, note: '' },
      { kind: 'other', minor: 1200, note: 'Entry and table tea' },
    ],
    notes:
      'A whole tray at the end of the day, bought to keep six and sell the rest. Seven gone so far; the tray has paid for itself.',
    cars: 20,
    grade: { mean: 5.6, sd: 1.2, low: 3, high: 8 },
    finishes: { 'touched up': 3, customised: 2, restored: 2 },
    choice: 1.2,
    unidentified: 0,
    sold: 7,
    locations: ['Tray 3', 'Drawer A2', 'Cabinet, shelf 3'],
  },
  {
    name: 'Shoebox of all sorts',
    boughtOn: '2025-06-28',
    seller: 'Copper Street Auctions, lot 412',
    currency: 'USD',
    costs: [
      { kind: 'price', minor: 31000, note: '' },
      { kind: 'premium', minor: 6200, note: '' },
      { kind: 'tax', minor: 2604, note: '' },
      { kind: 'carriage', minor: 1850, note: '' },
    ],
    notes:
      'Listed as “quantity of playworn vehicles”. Six I still cannot name for certain: two have lost their bases, and on the others too little paint is left to tell.',
    cars: 22,
    grade: { mean: 4.7, sd: 1.3, low: 2, high: 7.5 },
    finishes: { 'touched up': 2, customised: 2, stripped: 3, restored: 1 },
    choice: 1,
    unidentified: 6,
    sold: 0,
    locations: ['Drawer B1', 'Drawer B2', 'Bench tray'],
  },
  {
    name: 'Barn tin',
    boughtOn: '2026-03-14',
    seller: 'Millrace Rooms, lot 77',
    currency: 'USD',
    costs: [
      { kind: 'price', minor: 33000, note: '' },
      { kind: 'premium', minor: 4950, note: '' },
      { kind: 'tax', minor: 1800, note: '' },
      { kind: 'carriage', minor: 1500, note: '' },
    ],
    notes:
      'Biscuit tin out of a barn, sixteen cars of 1968 that spent their lives in a sandpit. Sand still in the wheels. Straight castings under it all, bar two.',
    cars: 16,
    grade: { mean: 3.3, sd: 0.8, low: 1.5, high: 5 },
    finishes: { stripped: 1, 'touched up': 1 },
    year: 1968,
    choice: 1,
    unidentified: 0,
    sold: 0,
    locations: ['Barn tin', 'Bench tray'],
  },
];

/** The lots as rows, ids by their order. */
export const lotRows: Row<'lot'>[] = lotPlans.map((lot, i) => ({
  id: i + 1,
  name: lot.name,
  bought_on: lot.boughtOn,
  seller: lot.seller,
  currency: lot.currency,
  notes: lot.notes,
  created_at: instant(lot.boughtOn),
}));

/** Their costs as rows, minor units. */
export const lotCostRows: Row<'lot_cost'>[] = lotPlans
  .flatMap((lot, i) => lot.costs.map(cost => ({ lot_id: i + 1, ...cost })))
  .map((cost, i) => ({ id: i + 1, ...cost }));

/**
 * A total shared out by weight in whole units, summing exactly (largest remainder; ties to
 * the earlier share).
 */
export const shareOut = (total: number, weights: number[]): number[] => {
  const sum = weights.reduce((a, b) => a + b, 0);
  const quotas = weights.map(weight => (total * weight) / sum);
  const shares = quotas.map(Math.floor);
  const left = total - shares.reduce((a, b) => a + b, 0);
  quotas
    .map((quota, i) => ({ i, rest: quota - Math.floor(quota) }))
    .sort((a, b) => b.rest - a.rest || a.i - b.i)
    .slice(0, left)
    .forEach(({ i }) => {
      shares[i]! += 1;
    });
  return shares;
};
