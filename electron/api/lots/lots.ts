import { inventoryNumbers } from '../../../db/records/cars/cars.ts';
import { leaveOutPurchase } from '../../../db/records/lots/left-out.ts';
import { clearLotBid, readLotBid, saveLotBid, usualBid } from '../../../db/records/lots/lot-bids.ts';
import {
  countCarsOfLot,
  findLot,
  insertLot,
  type LotCost,
  lotCosts,
  removeLot,
  replaceLotCosts,
  updateLot,
} from '../../../db/records/lots/lots.ts';
import { costsAtBid } from '../../../valuation/index.ts';
import { marketToday } from '../figures/market.ts';
import { seenLotsOf } from '../figures/owned.ts';
import { reshareLot } from '../figures/shares.ts';
import * as inputs from '../inputs.ts';
import { needsCollection } from '../session/context.ts';
import { notFound, refused } from '../session/errors.ts';
import type { BidView, LotPage, LotRow } from '../views.ts';
import { bidView } from './bid.ts';
import { lotPage } from './lot-page.ts';
import { lotRows } from './lot-rows.ts';

const list = needsCollection.handler(({ context }): Promise<LotRow[]> => lotRows(context.session));

const get = needsCollection
  .input(inputs.byId)
  .handler(({ context, input }): Promise<LotPage> => lotPage(context.session, input.id));

/** A lot that was bought has been more than seen. */
const refuseBought = ({ boughtOn, costs }: { boughtOn: string | null; costs: LotCost[] }): void => {
  if (boughtOn !== null || costs.length > 0)
    throw refused(
      'A lot with a day or a cost was bought. Clear both, or do not mark it as only seen.',
      'seen',
    );
};

const create = needsCollection.input(inputs.createLot).handler(async ({ context, input }) => {
  const { session } = context;
  const { seen, ...lot } = input;
  if (seen) refuseBought(lot);
  const id = await session.act(`Added the lot ${lot.name}`, async trx => {
    const added = await insertLot(trx, lot, session.at());
    if (seen) await saveLotBid(trx, added, usualBid);
    return added;
  });
  return { id };
});

const update = needsCollection.input(inputs.updateLot).handler(async ({ context, input }) => {
  const { id, costs, seen, ...changes } = input;
  const lot = await findLot(context.db, id);
  if (!lot) throw notFound('lot', id);
  if (seen)
    refuseBought({
      boughtOn: changes.boughtOn === undefined ? lot.boughtOn : changes.boughtOn,
      costs: costs ?? (await lotCosts(context.db, id)).get(id) ?? [],
    });
  const fitted = await marketToday(context.session);
  const wasSeen = (await seenLotsOf(context.session)).has(id);
  const terms = await readLotBid(context.db, id);
  await context.session.act(`Changed the lot ${changes.name ?? lot.name}`, async trx => {
    await updateLot(trx, id, changes);
    if (seen && terms === null) await saveLotBid(trx, id, usualBid);
    if (seen === false && wasSeen) await clearLotBid(trx, id);
    if (costs === undefined) return;
    await replaceLotCosts(trx, id, costs);
    await reshareLot(trx, fitted, id);
  });
});

const remove = needsCollection.input(inputs.byId).handler(async ({ context, input }) => {
  const lot = await findLot(context.db, input.id);
  if (!lot) throw notFound('lot', input.id);
  await context.session.act(`Removed the lot ${lot.name}; its cars stay`, trx => removeLot(trx, input.id));
});

const shareCost = needsCollection
  .input(inputs.shareLotCost)
  .handler(async ({ context, input }): Promise<LotPage> => {
    const lot = await findLot(context.db, input.id);
    if (!lot) throw notFound('lot', input.id);
    if ((await countCarsOfLot(context.db, input.id)) === 0)
      throw refused('This lot has no cars yet to share its cost over.');
    const fitted = await marketToday(context.session);
    await context.session.act(`Shared out the cost of ${lot.name}`, trx =>
      reshareLot(trx, fitted, input.id, { fix: input.fixed, strict: true }),
    );
    return lotPage(context.session, input.id);
  });

/** Leaves what was paid out of estimates, or takes it in again. */
const leaveOut = needsCollection
  .input(inputs.leaveOutPurchase)
  .handler(async ({ context: { db, session }, input }): Promise<void> => {
    const { of, id, leftOut, why } = input;
    const name = of === 'lot' ? (await findLot(db, id))?.name : (await inventoryNumbers(db, [id])).get(id);
    if (name === undefined) throw notFound(of, id);
    const what = `what was paid for ${name}`;
    await session.act(
      leftOut ? `Left ${what} out of estimates` : `Included ${what} in estimates again`,
      trx => leaveOutPurchase(trx, { of, id }, { leftOut, why }),
    );
  });

const bid = needsCollection
  .input(inputs.bid)
  .handler(({ context, input }): Promise<BidView> => bidView(context.session, input));

const saveBid = needsCollection.input(inputs.saveBid).handler(async ({ context, input }): Promise<void> => {
  const { id, ...terms } = input;
  const lot = await findLot(context.db, id);
  if (!lot) throw notFound('lot', id);
  await context.session.act(`Saved the bid for ${lot.name}`, trx => saveLotBid(trx, id, terms));
});

/**
 * Makes a lot that was seen the lot that was bought: its day and all that it cost, shared out over the cars
 * that are in it.
 */
const buy = needsCollection.input(inputs.buyLot).handler(async ({ context, input }): Promise<LotPage> => {
  const { id, boughtOn, price, premiumRate, taxRate, carriage } = input;
  const lot = await findLot(context.db, id);
  if (!lot) throw notFound('lot', id);
  if ((await lotCosts(context.db, id)).has(id))
    throw refused(`What ${lot.name} cost is entered already. Change it under its details and cost.`);
  const fitted = await marketToday(context.session);
  const { premium, tax } = costsAtBid(price, { premiumRate, taxRate });
  const onTop = [
    { kind: 'premium', minor: premium, note: '' },
    { kind: 'tax', minor: tax, note: '' },
    { kind: 'carriage', minor: carriage, note: '' },
  ] satisfies LotCost[];
  const costs: LotCost[] = [
    { kind: 'price', minor: price, note: '' },
    ...onTop.filter(({ minor }) => minor > 0),
  ];
  await context.session.act(`Bought the lot ${lot.name}`, async trx => {
    await updateLot(trx, id, { boughtOn });
    await replaceLotCosts(trx, id, costs);
    await reshareLot(trx, fitted, id);
  });
  return lotPage(context.session, id);
});

export const lots = { list, get, create, update, remove, shareCost, leaveOut, bid, saveBid, buy };
