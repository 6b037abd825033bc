import { makeReference } from '../../../electron/demo/castings/reference.ts';
import { type DemoMarket, makeMarket, trueLogPrice } from '../../../electron/demo/market/market.ts';
import type { IsoDate } from '../../../valuation/types.ts';
import type { FinishState, Grade, PartName } from '../../../valuation/words.ts';

/** What the engine can never see: the market from which the demo's sale records were drawn. */
export interface DemoTruth extends DemoMarket {
  /** Median price in US dollars of a variation as described, on a day. */
  price(
    variationId: number,
    on: IsoDate,
    car: { grade: Grade; finishState: FinishState; missing: PartName[]; reproduction: PartName[] },
  ): number;
}

/** The demo's true market. The collection holds nothing of it but the records. */
export const demoTruth = (): DemoTruth => {
  const market = makeMarket(makeReference());
  return {
    ...market,
    price: (variationId, on, car) => Math.exp(trueLogPrice(market, variationId, on, car)),
  };
};
