import type { z } from 'zod';
import { carCandidates, listCars } from '../../../db/records/cars/cars.ts';
import { type BidTerms, readLotBid, usualBid } from '../../../db/records/lots/lot-bids.ts';
import { highestBid, sharedCorrelation } from '../../../valuation/index.ts';
import { carFigures } from '../figures/figures.ts';
import { marketToday } from '../figures/market.ts';
import type { bid } from '../inputs.ts';
import { refused } from '../session/errors.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import type { BidView } from '../views.ts';

/** The terms of a bid: as wished, else as saved with the lot, else as bids usually begin. */
export const bidTermsOf = async (
  session: Session,
  { lotId, ...wished }: { [Term in keyof BidTerms]?: number | undefined } & { lotId?: number | undefined },
): Promise<BidTerms> => {
  const saved = lotId === undefined ? null : await readLotBid(openOf(session).read.db, lotId);
  const term = (name: keyof BidTerms) => wished[name] ?? saved?.[name] ?? usualBid[name];
  return {
    margin: term('margin'),
    probability: term('probability'),
    premiumRate: term('premiumRate'),
    taxRate: term('taxRate'),
    carriage: term('carriage'),
  };
};

/**
 * The highest bid for some cars that leaves the wanted margin, after the house's premium, tax, carriage
 * and selling costs.
 */
export const bidView = async (session: Session, wish: z.output<typeof bid>): Promise<BidView> => {
  const { carIds, lotId } = wish;
  if ((carIds === undefined) === (lotId === undefined))
    throw refused('Bid on a lot, or on a choice of cars.');
  const cars = await listCars(openOf(session).read.db, {
    ...(carIds && { ids: carIds }),
    ...(lotId !== undefined && { lotId }),
  });
  if (cars.length === 0) throw refused('There is no car to bid for. Add the cars of the lot first.');
  const { margin, probability, premiumRate, taxRate, carriage } = await bidTermsOf(session, wish);
  const figures = await carFigures(session, cars);
  const candidates = await carCandidates(
    openOf(session).read.db,
    cars.map(({ id }) => id),
  );
  const valued = cars.flatMap(car => {
    const worth = figures.get(car.id)?.worths.asFound;
    return worth ? [{ car: { ...car, candidates: candidates.get(car.id) ?? [] }, worth }] : [];
  });
  const worths = valued.map(({ worth }) => worth);
  if (worths.length === 0)
    throw refused(
      'None of these cars has a value yet, so no bid can be worked out. Identify and grade them first.',
    );
  const fitted = await marketToday(session);
  const { assumptions } = fitted;
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
    correlation: sharedCorrelation(fitted, valued),
  });
  return {
    bid,
    total,
    expectedWorth,
    margin,
    probability: met,
    fees: assumptions.decision.sellingFees,
    withoutWorth: cars.length - worths.length,
  };
};
