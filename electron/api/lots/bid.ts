import type { z } from 'zod';
import { listCars } from '../../../db/records/cars.ts';
import { formatMinor, highestBid } from '../../../valuation/index.ts';
import { carFigures } from '../figures/figures.ts';
import { marketToday } from '../figures/market.ts';
import type { bid } from '../inputs.ts';
import { refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { BidView } from '../views.ts';

const percent = (share: number) => `${Math.round(share * 100)} %`;

/** The highest bid for some cars that leaves the wanted margin, after the house's premium, tax, carriage and selling costs. */
export const bidView = async (session: Session, wish: z.output<typeof bid>): Promise<BidView> => {
  const { carIds, lotId, margin, probability, premiumRate, taxRate, carriage } = wish;
  if ((carIds === undefined) === (lotId === undefined))
    throw refused('Bid on a lot, or on a choice of cars.');
  const cars = await listCars(openOf(session).db, {
    ...(carIds && { ids: carIds }),
    ...(lotId !== undefined && { lotId }),
  });
  const figures = await carFigures(session, cars, false);
  const worths = cars.flatMap(car => figures.get(car.id)?.worths.asFound ?? []);
  if (worths.length === 0)
    throw refused(
      'None of these cars has a worth yet, so nothing can be said of a bid. Identify and grade them first.',
    );
  const { assumptions, reportingCurrency } = await marketToday(session);
  const {
    bid,
    total,
    expectedWorth,
    probability: met,
  } = highestBid({
    worths,
    premiumRate,
    taxRate,
    carriage,
    margin,
    probability,
    fees: assumptions.decision.sellingFees,
  });
  const money = (minor: number) => `${formatMinor(minor, reportingCurrency)} ${reportingCurrency}`;
  const unknown = cars.length - worths.length;
  const left =
    unknown === 0
      ? ''
      : ` ${unknown === 1 ? '1 car has' : `${unknown} cars have`} no worth and ${unknown === 1 ? 'counts' : 'count'} as nothing.`;
  const sentence =
    bid === 0
      ? `Do not bid: even for nothing, carriage and selling costs leave less than ${percent(margin)} with the sureness you want.${left}`
      : `Bid ${money(bid)} at most. All in that is ${money(total)}, and ${percent(margin)} of what the cars bring is left over with a probability of ${percent(met)}, after selling costs of ${percent(assumptions.decision.sellingFees)}.${left}`;
  return { bid, total, expectedWorth, probability: met, sentence };
};
