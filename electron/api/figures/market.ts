import { readMarket } from '../../../db/engine/market.ts';
import { fitMarket } from '../../../valuation/market/fit-market.ts';
import type { FittedMarket } from '../../../valuation/market/fitted-market.ts';
import type { IsoDate, Market } from '../../../valuation/types.ts';
import { memo } from '../session/memo.ts';
import type { Session } from '../session/session.ts';
import { assumptionsInForce } from './assumptions.ts';

/** All that the engine takes of the market, remembered. */
export const rawMarket = memo<Market>(({ db }) => readMarket(db));

/** The market fitted on another day than the effective date, such as for a snapshot; not remembered. */
export const marketOn = async (session: Session, on: IsoDate): Promise<FittedMarket> =>
  fitMarket(await rawMarket(session), (await assumptionsInForce(session)).body, on);

/** The market fitted on the effective date, remembered until a sale, the reference, a rate, an assumption or the day changes. */
export const marketToday = memo<FittedMarket>(
  async ({ from, key }) => fitMarket(await from(rawMarket), (await from(assumptionsInForce)).body, key),
  session => session.today(),
);
