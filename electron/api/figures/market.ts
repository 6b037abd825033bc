import { readMarket } from '../../../db/engine/market.ts';
import { readPurchases } from '../../../db/engine/purchases.ts';
import { fitMarket } from '../../../valuation/market/fit-market.ts';
import type { FittedMarket } from '../../../valuation/market/fitted-market.ts';
import type { AssumptionSet, IsoDate, Market, Purchase } from '../../../valuation/types.ts';
import { memo } from '../session/memo.ts';
import type { Session } from '../session/session.ts';
import { assumptionsInForce } from './assumptions.ts';

/** The market but for what was paid: no edit of a car touches it. */
const marketWithoutPurchases = memo<Market>(({ db }) => readMarket(db));
/** What was paid, which is read again after most edits of cars and seldom differs then. */
const purchases = memo<Purchase[]>(({ db }) => readPurchases(db));

/**
 * The last market made of another, and the last fit of one: the same objects come back as long as what they
 * are made from is the same.
 */
const withPurchases = new WeakMap<Market, { text: string; market: Market }>();
const fits = new WeakMap<Market, { assumptions: AssumptionSet; on: IsoDate; fitted: FittedMarket }>();

/** All that the engine takes of the market, remembered; the same object until any of it changes. */
export const rawMarket = memo<Market>(async ({ from }) => {
  const without = await from(marketWithoutPurchases);
  const paid = await from(purchases);
  const text = JSON.stringify(paid);
  const found = withPurchases.get(without);
  if (found?.text === text) return found.market;
  const market = { ...without, purchases: paid };
  withPurchases.set(without, { text, market });
  return market;
});

/** The market fitted on another day than the effective date, such as for a snapshot; not remembered. */
export const marketOn = async (session: Session, on: IsoDate): Promise<FittedMarket> =>
  fitMarket(await rawMarket(session), (await assumptionsInForce(session)).body, on);

/**
 * The market fitted on the effective date, remembered until a sale, a purchase, a belief, the reference, a
 * rate, an assumption or the day changes. An edit of a car that leaves all those as they are leaves the very
 * fit, and so every other car's figures.
 */
export const marketToday = memo<FittedMarket>(
  async ({ from, key }) => {
    const market = await from(rawMarket);
    const { body } = await from(assumptionsInForce);
    const found = fits.get(market);
    if (found && found.on === key && found.assumptions === body) return found.fitted;
    const fitted = fitMarket(market, body, key);
    fits.set(market, { assumptions: body, on: key, fitted });
    return fitted;
  },
  session => session.today(),
);
