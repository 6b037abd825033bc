import type { FittedMarket } from '../market/fitted-market.ts';
import type { Minor } from '../types.ts';

/**
 * The market with an hour of the owner's at another cost, in minor units; the fit itself does not depend on
 * it.
 */
export const atHourlyRate = (fitted: FittedMarket, hourlyRate: Minor): FittedMarket => ({
  ...fitted,
  assumptions: { ...fitted.assumptions, hourlyRate },
});
