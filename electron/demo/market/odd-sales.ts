import type { DemoReference } from '../castings/reference.ts';
import { addDays, demoDate } from '../dates.ts';
import { type DemoMarket, trueLogPrice } from './market.ts';
import type { DemoSale } from './sales.ts';

/** The few records that a careful owner would doubt, or has set aside already. */
export const oddSales = (reference: DemoReference, market: DemoMarket): DemoSale[] => {
  const common = reference.variations.filter(
    one => one.rarity === 'common' && market.supply.get(one.id)! > 0.4,
  );
  const of = (place: number, daysAgo: number, grade: number, times: number): DemoSale => {
    const variation = common[place % common.length]!;
    const soldOn = addDays(demoDate, -daysAgo);
    const car = { grade, finishState: 'original' as const, missing: [], reproduction: [] };
    return {
      soldOn,
      price: Math.round(Math.exp(trueLogPrice(market, variation.id, soldOn, car)) * times) * 100,
      currency: 'USD',
      castingId: variation.castingId,
      variationId: variation.id,
      asWritten: {},
      grade,
      finishState: 'original',
      missingParts: [],
      reproductionParts: [],
      source: 'auction',
      reference: '',
      reliabilityPercent: null,
      excluded: false,
      excludedWhy: '',
      disposalId: null,
      notes: '',
    };
  };
  return [
    {
      ...of(3, 410, 7, 100),
      reference: 'Tollhouse Sale Rooms, lot 318',
      notes:
        'Copied from the printed results. Looks like a slipped decimal point, but I have not seen the sheet again.',
    },
    {
      ...of(9, 655, 8, 2.1),
      source: 'listing',
      reference: 'listing 771204',
      excluded: true,
      excludedWhy: 'The buyer never paid; it was listed again a week later.',
    },
    {
      ...of(9, 640, 8, 1.05),
      source: 'listing',
      reference: 'listing 773560',
      notes: 'The same car as listing 771204, this time paid for.',
    },
    {
      ...of(17, 230, 9, 3.4),
      source: 'hearsay',
      reference: 'told at the Armory toy show',
      notes: 'He said it, nobody showed it.',
    },
    {
      ...of(25, 980, 6, 0.12),
      source: 'private',
      reference: '',
      excluded: true,
      excludedWhy: 'Changed hands between brothers; not a price.',
    },
  ];
};
