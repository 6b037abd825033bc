import { readMarket } from '../../../db/engine/market.ts';
import { fitMarket } from '../../../valuation/market/fit-market.ts';
import type { FittedMarket } from '../../../valuation/market/fitted-market.ts';
import type { Market } from '../../../valuation/types.ts';
import { memo } from '../session/memo.ts';
import { openOf } from '../session/open-collection.ts';
import type { Session } from '../session/session.ts';
import { assumptionsInForce } from './assumptions.ts';

const rawMarket = memo<Market>(
  session => session.versions.market,
  session => readMarket(openOf(session).db),
);

/** The market fitted on another day than the effective date, such as for a snapshot; not kept. */
export const marketOn = async (session: Session, on: string): Promise<FittedMarket> =>
  fitMarket(await rawMarket(session), (await assumptionsInForce(session)).body, on);

const fittedOn = new WeakMap<Session, { key: string; fitted: Promise<FittedMarket> }>();

/** The market fitted on the effective date, kept until a sale, the reference, a rate, an assumption or the day changes. */
export const marketToday = async (session: Session): Promise<FittedMarket> => {
  const today = await session.today();
  const key = `${session.versions.market} ${today}`;
  const kept = fittedOn.get(session);
  if (kept?.key === key) return kept.fitted;
  const fitted = marketOn(session, today);
  fittedOn.set(session, { key, fitted });
  fitted.catch(() => fittedOn.delete(session));
  return fitted;
};
