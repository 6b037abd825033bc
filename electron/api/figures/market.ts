import { AsyncLocalStorage } from 'node:async_hooks';
import { hash } from 'node:crypto';
import { setImmediate as othersTurn } from 'node:timers/promises';
import { readMarket } from '../../../db/engine/market.ts';
import { lotsOfCars, readPurchases, tablesOfLots } from '../../../db/engine/purchases.ts';
import type { InTurns } from '../../../valuation/in-turns.ts';
import { fitMarketInTurns } from '../../../valuation/market/fit-market.ts';
import type { FittedMarket } from '../../../valuation/market/fitted-market.ts';
import type { AssumptionSet, IsoDate, Market, Purchase } from '../../../valuation/types.ts';
import { slot } from '../session/cache.ts';
import { memo } from '../session/memo.ts';
import type { Session } from '../session/session.ts';
import { assumptionsInForce } from './assumptions.ts';

/** The market but for what was paid: no edit of a car touches it. */
const marketWithoutPurchases = memo<Market>(({ db }) => readMarket(db));

interface Paid {
  at: number;
  purchases: Purchase[];
}
const paid = slot<Paid | null>(() => null);

const textOf = (purchases: Purchase[], lotId: number): string =>
  JSON.stringify(purchases.filter(purchase => purchase.lotId === lotId));

/** Beyond so many lots all are read again. */
const fewLots = 50;

/**
 * What was paid. After an action only the lots whose cars it touched are read again; the same list comes back
 * as long as nothing in it is other than before.
 */
const purchases = memo<Purchase[]>(async ({ db, session: { cache } }) => {
  const at = cache.now();
  const before = cache.of(paid);
  const touched =
    before && cache.lastChange(tablesOfLots) <= before.at ? cache.touchedAfter(before.at) : null;
  const of = new Set(touched);
  const lotIds = touched && [
    ...new Set([
      ...(await lotsOfCars(db, touched)),
      ...(before?.purchases ?? []).flatMap(({ lotId, cars }) =>
        cars.some(({ id }) => of.has(id)) ? [lotId] : [],
      ),
    ]),
  ];
  if (!before || !lotIds || lotIds.length > fewLots) {
    const read = await readPurchases(db);
    const same = before && JSON.stringify(before.purchases) === JSON.stringify(read);
    cache.put(paid, { at, purchases: same ? before.purchases : read });
    return same ? before.purchases : read;
  }
  const read = await readPurchases(db, lotIds);
  const isSame = lotIds.every(id => textOf(before.purchases, id) === textOf(read, id));
  const ofThese = new Set(lotIds);
  const all = isSame
    ? before.purchases
    : [...before.purchases.filter(({ lotId }) => !ofThese.has(lotId)), ...read].sort(
        (a, b) => a.lotId - b.lotId,
      );
  cache.put(paid, { at, purchases: all });
  return all;
});

/**
 * The last market made of another, and the last fit: the same objects come back as long as what they are made
 * from is the same.
 */
const lastMarket = slot<{ without: Market; purchases: Purchase[]; market: Market } | null>(() => null);
const lastFit = slot<{
  market: Market;
  assumptions: AssumptionSet;
  on: IsoDate;
  fitted: FittedMarket;
} | null>(() => null);

/** All that the engine takes of the market, remembered; the same object until any of it changes. */
export const rawMarket = memo<Market>(async ({ from, session: { cache } }) => {
  const without = await from(marketWithoutPurchases);
  await othersTurn();
  const bought = await from(purchases);
  const found = cache.of(lastMarket);
  if (found?.without === without && found.purchases === bought) return found.market;
  const market = { ...without, purchases: bought };
  cache.put(lastMarket, { without, purchases: bought, market });
  return market;
});

/** Runs long work to its end; other calls are answered after each step. */
const takingTurns = async <Result>(work: InTurns<Result>): Promise<Result> => {
  for (;;) {
    const step = work.next();
    if (step.done) return step.value;
    await othersTurn();
  }
};

/** The market fitted on another day than the effective date, such as for a snapshot; not remembered. */
export const marketOn = async (session: Session, on: IsoDate): Promise<FittedMarket> =>
  takingTurns(fitMarketInTurns(await rawMarket(session), (await assumptionsInForce(session)).body, on));

/**
 * The market fitted on the effective date, while other calls are answered, and remembered until a sale, a purchase, a belief, the reference, a
 * rate, an assumption or the day changes. An edit of a car that leaves all those as they are leaves the very
 * fit, and so every other car's figures.
 */
export const marketToday = memo<FittedMarket>(
  async ({ from, key, session: { cache } }) => {
    const market = await from(rawMarket);
    const { body } = await from(assumptionsInForce);
    const found = cache.of(lastFit);
    if (found?.market === market && found.on === key && found.assumptions === body) return found.fitted;
    const fitted = await takingTurns(fitMarketInTurns(market, body, key));
    cache.put(lastFit, { market, assumptions: body, on: key, fitted });
    return fitted;
  },
  session => session.today(),
);

/** True where today's market is fitted already, so that asking for it takes no fit. */
export const isFittedToday = async (session: Session): Promise<boolean> => {
  if (!(await marketWithoutPurchases.stands(session))) return false;
  const market = await rawMarket(session);
  const { body } = await assumptionsInForce(session);
  const on = await session.today();
  const found = session.cache.of(lastFit);
  return found?.market === market && found.assumptions === body && found.on === on;
};

/** All that today's market is made of, in short: the same text, the same market, whichever session fits it. */
export const marketText = async (session: Session): Promise<string> => {
  const { body } = await assumptionsInForce(session);
  return hash('sha1', JSON.stringify([await rawMarket(session), body, await session.today()]));
};

/**
 * Gives the market as it stands before an action that is begun after this call; it is fitted when it is first
 * asked for, as most actions ask for none. Within an action nothing may read beside its transaction, so this
 * reads outside of it.
 */
export const marketBefore = (session: Session): (() => Promise<FittedMarket>) => {
  const outside = AsyncLocalStorage.snapshot();
  return () => outside(() => marketToday(session));
};
