import type { z } from 'zod';
import type { BriefSale } from '../../../db/records/sales/brief-sales.ts';
import { listSales } from '../../../db/records/sales/sales.ts';
import { type SaleShow, type SaleState, saleStates } from '../../../valuation/words.ts';
import { assumptionsInForce } from '../figures/assumptions.ts';
import * as inputs from '../inputs.ts';
import { type ReferenceIndex, referenceIndex } from '../reference/reference-index.ts';
import { needsCollection } from '../session/context.ts';
import { inOrder, placeIn, type SortValue, windowOf } from '../session/list-order.ts';
import type { Session } from '../session/session.ts';
import type { ChosenSales, ListOrder, ListWindow, SaleRow, SalesFacts, SaleTallies } from '../views.ts';
import { type JudgedSales, judgedSales } from './judged-sales.ts';
import { castingText, saleRows, variationText } from './sale-rows.ts';

type Filter = z.output<typeof inputs.saleListFilter>;

/** What each column of the list sorts by. */
const sortValues = (index: ReferenceIndex, { stateOf }: JudgedSales) => {
  const columns: Record<string, (sale: BriefSale) => SortValue> = {
    soldOn: sale => Number(sale.soldOn.replaceAll('-', '')),
    price: sale => sale.price,
    currency: sale => sale.currency,
    casting: sale => castingText(index, sale),
    variation: sale => variationText(index, sale).variation,
    grade: sale => sale.grade,
    finishState: sale => sale.finishState,
    missingParts: sale => sale.missingParts.join(', '),
    reproductionParts: sale => sale.reproductionParts.join(', '),
    source: sale => sale.source,
    reference: sale => sale.reference,
    state: stateOf,
  };
  return (columnId: string) => columns[columnId];
};

const fitsShow = ({ stateOf }: JudgedSales): Record<SaleShow, (sale: BriefSale) => boolean> => ({
  all: () => true,
  doubtful: sale => ['doubtful', 'set aside'].includes(stateOf(sale)),
  'left-out': sale => sale.excluded,
  own: sale => sale.own,
  'not-understood': sale => sale.isUnread,
});

/** True for what fits all of the filter but its choice of state. */
const fits = (filter: Filter) => (sale: BriefSale) =>
  (filter.castingId === null || sale.castingId === filter.castingId) &&
  (filter.variationId === null || sale.variationId === filter.variationId) &&
  (filter.source === '' || sale.source === filter.source) &&
  (filter.finish === null || sale.finishState === filter.finish);

/** The records that are shown, in brief and in their order. */
export const shownSales = async (
  session: Session,
  { filter, order }: { filter: Filter; order: ListOrder },
): Promise<readonly BriefSale[]> => {
  const at = session.cache.now();
  const judged = await judgedSales(session);
  const index = await referenceIndex(session);
  const isOf = fits(filter);
  const isShown = fitsShow(judged)[filter.show];
  return inOrder(
    session,
    {
      name: 'sales',
      stands: { columnId: 'soldOn', descending: true },
      at,
      items: judged.all,
      sortsBy: sortValues(index, judged),
      filter: JSON.stringify(filter),
      passes: sale => isOf(sale) && isShown(sale),
    },
    order,
  );
};

const window = needsCollection
  .input(inputs.saleWindow)
  .handler(async ({ context, input }): Promise<ListWindow<SaleRow>> => {
    const { session, db } = context;
    return windowOf(
      await shownSales(session, input),
      input,
      async ids => saleRows(session, await listSales(db, { ids })),
      ({ id }) => id,
    );
  });

const place = needsCollection
  .input(inputs.salePlace)
  .handler(
    async ({ context, input }): Promise<number | null> =>
      placeIn(await shownSales(context.session, input), input.id),
  );

/** The records of a range of the list: which they are, and what can be done with them. */
const chosen = needsCollection
  .input(inputs.saleRange)
  .handler(async ({ context, input }): Promise<ChosenSales> => {
    const shown = await shownSales(context.session, input);
    const sales = shown.slice(input.from, input.from + input.count);
    return {
      ids: sales.map(({ id }) => id),
      leftOut: sales.filter(({ excluded }) => excluded).length,
      own: sales.filter(({ own }) => own).length,
    };
  });

const tallies = (sales: readonly BriefSale[], judged: JudgedSales): SaleTallies => {
  const fit = fitsShow(judged);
  const count = (show: SaleShow) => sales.filter(fit[show]).length;
  return {
    all: sales.length,
    doubtful: count('doubtful'),
    'left-out': count('left-out'),
    own: count('own'),
    'not-understood': count('not-understood'),
  };
};

/** How many records there are, how many would be shown under each choice, and what the list is of. */
const facts = needsCollection
  .input(inputs.saleListFilter)
  .handler(async ({ context, input }): Promise<SalesFacts> => {
    const { session } = context;
    const judged = await judgedSales(session);
    const index = await referenceIndex(session);
    const { all } = judged;
    const states = Object.fromEntries(saleStates.map(state => [state, 0])) as Record<SaleState, number>;
    for (const sale of all) states[judged.stateOf(sale)] += 1;
    const { body } = await assumptionsInForce(session);
    const seen = new Set(all.map(({ source }) => source).filter(Boolean));
    const { castingId, variationId } = input;
    const variation = variationId === null ? undefined : index.variations.get(variationId);
    const casting = index.castings.get(variation?.castingId ?? castingId ?? 0)?.name ?? '';
    return {
      records: all.length,
      castings: new Set(all.map(sale => sale.castingId)).size,
      states,
      unread: all.filter(({ isUnread }) => isUnread).length,
      tallies: tallies(all.filter(fits(input)), judged),
      sources: [...new Set([...Object.keys(body.sourceReliability), ...seen])].filter(Boolean),
      seenSources: [...seen],
      name: variation ? `${casting}, ${variation.label}` : casting,
    };
  });

export const saleList = { window, place, chosen, facts };
