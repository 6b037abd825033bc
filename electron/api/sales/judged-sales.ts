import { type BriefSale, briefSales } from '../../../db/records/sales/brief-sales.ts';
import type { Minor } from '../../../valuation/index.ts';
import type { SaleState } from '../../../valuation/words.ts';
import { marketToday } from '../figures/market.ts';
import { memo } from '../session/memo.ts';
import type { SaleDoubt } from '../views.ts';

/** How far each sale record counts, as the market of the day judges it. */
export interface JudgedSales {
  /** All of them in brief, the newest first. */
  all: readonly BriefSale[];
  stateOf(sale: { id: number; excluded: boolean }): SaleState;
  doubtOf(id: number): SaleDoubt | null;
  /** Between what prices the middle half of the others of its casting lies, of a doubtful one. */
  amongOf(id: number): { low: Minor; high: Minor } | null;
}

const quarter = (sorted: readonly number[], share: number): number =>
  sorted[Math.round((sorted.length - 1) * share)] ?? 0;

/** So many others must have counted for their prices to say why one is doubted. */
const fewest = 4;

/** The middle half of what else was paid for the casting of each of these, in the same currency. */
const middleHalves = (
  all: readonly BriefSale[],
  stateOf: JudgedSales['stateOf'],
  isWild: (id: number) => boolean,
): Map<number, { low: Minor; high: Minor }> => {
  const key = (sale: BriefSale) => `${sale.castingId}/${sale.currency}`;
  const wild = all.filter(sale => isWild(sale.id) && stateOf(sale) === 'doubtful');
  const prices = new Map<string, number[]>(wild.map(sale => [key(sale), []]));
  if (prices.size > 0)
    for (const sale of all) if (stateOf(sale) === 'counted') prices.get(key(sale))?.push(sale.price);
  for (const list of prices.values()) list.sort((a, b) => a - b);
  return new Map(
    wild.flatMap(sale => {
      const others = prices.get(key(sale)) ?? [];
      if (others.length < fewest) return [];
      return [[sale.id, { low: quarter(others, 0.25), high: quarter(others, 0.75) }] as const];
    }),
  );
};

const allSales = memo<BriefSale[]>(({ db }) => briefSales(db));

/** All sale records with how far each counts, remembered until one of them or the market changes. */
export const judgedSales = memo<JudgedSales>(
  async ({ from }) => {
    const all = await from(allSales);
    const { setAside, doubtful, mislabelled } = await from(marketToday);
    const aside = new Map(setAside.map(({ id, cause }) => [id, { cause }]));
    const doubted = new Map<number, SaleDoubt>([
      ...mislabelled.map(({ id, chance }) => [id, { otherVariation: chance }] as const),
      ...doubtful.map(({ id, departure }) => [id, { departure }] as const),
    ]);
    const stateOf: JudgedSales['stateOf'] = ({ id, excluded }) => {
      if (excluded) return 'left out';
      if (aside.has(id)) return 'set aside';
      return doubted.has(id) ? 'doubtful' : 'counted';
    };
    const halves = middleHalves(all, stateOf, id => 'departure' in (doubted.get(id) ?? {}));
    return {
      all,
      stateOf,
      doubtOf: id => aside.get(id) ?? doubted.get(id) ?? null,
      amongOf: id => halves.get(id) ?? null,
    };
  },
  session => session.today(),
);
