import type { EvidenceCount } from '../../../valuation/wording/values/evidence-text.ts';
import { allBriefCars } from '../figures/brief-cars.ts';
import { figuresById } from '../figures/figures.ts';
import { marketToday, rawMarket } from '../figures/market.ts';
import { ownedOf } from '../figures/owned.ts';
import type { Session } from '../session/session.ts';

/**
 * How much of each kind of evidence counts, and how many values rest mainly on what their owner has already.
 */
export const evidenceCount = async (session: Session): Promise<EvidenceCount> => {
  const { sales, purchases = [], beliefs = [] } = await rawMarket(session);
  const { setAside, ownAside } = await marketToday(session);
  const owned = await ownedOf(session, [...(await allBriefCars(session)).values()]);
  const ids = owned.map(({ id }) => id);
  const figures = await figuresById(session, ids);
  const isValued = figures.column(({ worths }) => worths.asFound !== null);
  const restsOn = figures.column(({ worths }) => worths.restsOn);
  const onOwn = { paid: 0, believed: 0 };
  let valued = 0;
  for (const id of ids) {
    if (!isValued(id)) continue;
    valued += 1;
    const own = restsOn(id);
    if (own) onOwn[own] += 1;
  }
  const purchasesAside = ownAside.filter(({ of }) => 'lotId' in of).length;
  return {
    sales: sales.length - setAside.length,
    purchases: purchases.length - purchasesAside,
    purchasesAside,
    beliefs: beliefs.length - (ownAside.length - purchasesAside),
    valued,
    onOwn,
  };
};
