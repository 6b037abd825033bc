import type { Row } from '../content.ts';
import { addDays } from '../dates.ts';
import { type DemoMarket, trueLogPrice } from '../market/market.ts';
import type { DemoSale } from '../market/sales.ts';
import { randomFrom } from '../random.ts';
import type { DemoCar } from './cars.ts';
import { lotPlans, shareOut } from './lots.ts';

/** What a car would truly bring in US dollars as it stood, on a day. */
const trueWorth = (market: DemoMarket, car: DemoCar, condition: DemoCar['now'], on: string): number =>
  Math.exp(
    trueLogPrice(market, car.variation.id, on, {
      grade: condition.grade,
      finishState: condition.finishState,
      missing: condition.parts.filter(part => part.originality === 'missing').map(part => part.part),
      reproduction: condition.parts
        .filter(part => part.originality === 'reproduction')
        .map(part => part.part),
    }),
  );

export interface Share {
  minor: number;
  fixed: boolean;
}

/** One car of the partly sold tray had its own price, agreed before the rest was. */
const fixedShare = 6500;

/**
 * Each car's share of what its lot cost, by its worth on the day; every lot's shares sum to its cost exactly.
 */
export const shareLots = (market: DemoMarket, cars: DemoCar[]): Map<number, Share> => {
  const shares = new Map<number, Share>();
  lotPlans.forEach((lot, i) => {
    const own = cars.filter(car => car.lot === i + 1);
    const weights = own.map(car => trueWorth(market, car, car.arrived, lot.boughtOn));
    let total = lot.costs.reduce((sum, cost) => sum + cost.minor, 0);
    const fixed = lot.sold > 0 ? weights.indexOf(Math.max(...weights)) : -1;
    if (fixed >= 0) {
      shares.set(own[fixed]!.id, { minor: fixedShare, fixed: true });
      total -= fixedShare;
    }
    const open = own.filter((_, j) => j !== fixed);
    const minors = shareOut(
      total,
      weights.filter((_, j) => j !== fixed),
    );
    open.forEach((car, j) => {
      shares.set(car.id, { minor: minors[j]!, fixed: false });
    });
  });
  return shares;
};

const venues = [
  { venue: 'Grange Hall toy show', feePermille: 0, fee: 500, buyer: 'a boy with his grandfather' },
  { venue: 'Copper Street Auctions', feePermille: 150, fee: 0, buyer: '' },
  { venue: 'Listing', feePermille: 125, fee: 30, buyer: 'collector in the north' },
  { venue: 'Club evening', feePermille: 0, fee: 0, buyer: 'club member' },
];

/** The owner's own sales, and the sale records that they became. */
export const makeDisposals = (
  market: DemoMarket,
  cars: DemoCar[],
): { rows: Row<'disposal'>[]; sales: DemoSale[] } => {
  const random = randomFrom('disposals of the demo');
  const rows: Row<'disposal'>[] = [];
  const sales: DemoSale[] = [];
  const sold = cars.filter(car => car.soldOn).toSorted((a, b) => (a.soldOn! < b.soldOn! ? -1 : 1));
  for (const car of sold) {
    const id = rows.length + 1;
    const place = venues[(id - 1) % venues.length]!;
    const worth = trueWorth(market, car, car.now, car.soldOn!) * Math.exp(random.normal(0, 0.18));
    const proceeds = Math.max(1, Math.round(worth)) * 100;
    rows.push({
      id,
      car_id: car.id,
      sold_on: car.soldOn!,
      proceeds_minor: proceeds,
      fees_minor: Math.round((proceeds * place.feePermille) / 1000) + place.fee,
      currency: 'USD',
      buyer: place.buyer,
      venue: place.venue,
      notes: car.restoredOn ? 'Sold as restored, with the photographs of before.' : '',
    });
    sales.push({
      soldOn: car.soldOn!,
      price: proceeds,
      currency: 'USD',
      castingId: car.variation.castingId,
      variationId: car.variation.id,
      asWritten: {},
      grade: car.now.grade,
      finishState: car.now.finishState,
      missingParts: car.now.parts.filter(part => part.originality === 'missing').map(part => part.part),
      reproductionParts: car.now.parts
        .filter(part => part.originality === 'reproduction')
        .map(part => part.part),
      source: 'own sale',
      reference: car.number,
      reliabilityPercent: null,
      excluded: false,
      excludedWhy: '',
      disposalId: id,
      notes: '',
    });
  }
  return { rows, sales };
};

const spent: [what: string, low: number, high: number][] = [
  ['Candy lacquer, share of a can', 180, 420],
  ['Axle wire and two hubs', 250, 600],
  ['Reproduction glazing', 300, 700],
  ['Paint stripper, share', 90, 200],
  ['Polishing points', 80, 240],
];

/** What the bench work cost, where there was any, and a few things besides. */
export const makeExpenses = (cars: DemoCar[]): Row<'expense'>[] => {
  const random = randomFrom('expenses of the demo');
  const rows: Row<'expense'>[] = [];
  const add = (car_id: number, spent_on: string, what: string, minor: number) =>
    rows.push({ id: rows.length + 1, car_id, spent_on, what, minor, currency: 'USD' });
  for (const car of cars) {
    if (car.restoredOn)
      for (const [what, low, high] of random.shuffle(spent).slice(0, random.whole(2, 4)))
        add(car.id, addDays(car.restoredOn, -random.whole(3, 30)), what, random.whole(low, high));
    else if (car.status === 'on the bench') {
      const [what, low, high] = random.pick(spent);
      add(car.id, addDays('2026-10-18', random.whole(0, 10)), what, random.whole(low, high));
    }
  }
  return rows;
};
