import type { Transaction } from 'kysely';
import { readBidCell } from '../../../valuation/reading/bid-cell.ts';
import type { Currency } from '../../../valuation/types.ts';
import { lotCostKinds } from '../../../valuation/words.ts';
import { readReportingCurrency } from '../../records/collection/settings.ts';
import { type LeftOut, leaveOutPurchase, leftOutLots } from '../../records/lots/left-out.ts';
import { type BidTerms, readLotBids, saveLotBid, usualBid } from '../../records/lots/lot-bids.ts';
import { insertLot, type LotCost, type LotRecord, listLots, lotCosts } from '../../records/lots/lots.ts';
import type { Schema } from '../../schema.ts';
import { amountOf, currencyOf, day, type LedgerJudge, Refusal, type Row, type Terms, text } from './row.ts';

const costsOf = (row: Row, currency: Currency): LotCost[] => {
  const each = row('costs');
  if (each !== '')
    return each.split('\n').map(line => {
      const [, kind, amount = '', note = ''] = /^(\S+) ([\d.]+)(?:: (.*))?$/.exec(line.trim()) ?? [];
      const known = lotCostKinds.find(one => one === kind);
      if (!known) throw new Refusal('costs', `"${line}" is not a cost such as "premium 12.50: of the fair"`);
      return { kind: known, minor: amountOf(amount, 'costs', currency), note };
    });
  return lotCostKinds.flatMap(kind =>
    row(kind) === '' ? [] : [{ kind, minor: amountOf(row(kind), kind, currency), note: '' }],
  );
};

/** Whether a yes or no, or a reason, stands in a column. */
const isYes = (said: string): boolean => said !== '' && !/^(?:no|n|false|0)$/i.test(said);

const leftOutOf = (row: Row): LeftOut => {
  const said = row('purchase_left_out');
  const leftOut = isYes(said);
  return { leftOut, why: leftOut && !/^(?:yes|y|true|1|x)$/i.test(said) ? said : '' };
};

type FileLot = Omit<LotRecord, 'id'> & { costs: LotCost[] } & { bid: BidTerms | null; leftOut: LeftOut };

/** Takes lots with all that is known of them; a lot that was only seen comes back as such, with the terms of its bid. */
export const lots = async (trx: Transaction<Schema>, { at, has, note }: Terms): Promise<LedgerJudge> => {
  const costs = await lotCosts(trx);
  const bids = await readLotBids(trx);
  const leftOut = await leftOutLots(trx);
  const reporting = await readReportingCurrency(trx);
  const contentOf = (lot: FileLot): string =>
    JSON.stringify([
      lot.boughtOn,
      lot.seller,
      lot.currency,
      lot.notes,
      lot.priceFrom ?? 'lot',
      lot.costs.map(({ kind, minor, note: said }) => `${kind} ${minor} ${said}`).sort(),
      // A list without these columns says nothing of them.
      (has('bid') || has('only_seen')) && lot.bid,
      has('purchase_left_out') && lot.leftOut,
    ]);
  const known = new Map<string, string>();
  for (const lot of await listLots(trx)) {
    const why = leftOut.get(lot.id);
    known.set(
      lot.name,
      contentOf({
        ...lot,
        costs: costs.get(lot.id) ?? [],
        bid: bids.get(lot.id) ?? null,
        leftOut: { leftOut: why !== undefined, why: why === undefined || why === 'yes' ? '' : why },
      }),
    );
  }
  const bidOf = (row: Row, name: string): BidTerms | null => {
    const said = row('bid');
    if (said === '') return isYes(row('only_seen')) ? usualBid : null;
    const read = readBidCell(said, usualBid);
    if (!read)
      throw new Refusal(
        'bid',
        `"${said}" cannot be read as the terms of a bid such as "margin 20 %; chance 80 %; premium 15 %"`,
      );
    if (read.currency === null || read.currency === reporting) return read.terms;
    note(
      `What it costs to fetch the lot "${name}" is in ${read.currency}, and this collection counts in ${reporting}: enter it with its bid.`,
    );
    return { ...read.terms, carriage: 0 };
  };
  return async row => {
    const currency = currencyOf(row);
    const name = text(row, 'lot');
    const lot: FileLot = {
      name,
      boughtOn: row('bought_on') === '' ? null : day(row, 'bought_on', null),
      seller: row('seller'),
      currency,
      notes: row('notes'),
      priceFrom: row('price_from') === 'cars' ? 'cars' : 'lot',
      costs: costsOf(row, currency),
      bid: bidOf(row, name),
      leftOut: leftOutOf(row),
    };
    if (isYes(row('only_seen')) && (lot.boughtOn !== null || lot.costs.length > 0))
      throw new Refusal('only_seen', 'a lot with a day or a cost was bought: clear both, or this');
    const before = known.get(name);
    if (before === contentOf(lot)) return false;
    if (before !== undefined)
      throw new Refusal('lot', `there is already another lot with the name "${name}"; nothing was changed`);
    known.set(name, contentOf(lot));
    const id = await insertLot(trx, lot, at);
    if (lot.bid) await saveLotBid(trx, id, lot.bid);
    if (lot.leftOut.leftOut) await leaveOutPurchase(trx, { of: 'lot', id }, lot.leftOut);
    return true;
  };
};
