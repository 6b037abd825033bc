import type { Transaction } from 'kysely';
import { isCurrency } from '../../../valuation/money.ts';
import { readDate } from '../../../valuation/reading/date.ts';
import { readMoney } from '../../../valuation/reading/money.ts';
import type { Currency, IsoDate, Minor } from '../../../valuation/types.ts';
import { lotCostKinds, options, recommendations } from '../../../valuation/words.ts';
import { readDecisions, saveDecision } from '../../records/decisions.ts';
import { insertDisposal, insertExpense, listDisposals, listExpenses } from '../../records/disposals.ts';
import { insertLot, type LotCost, listLots, lotCosts } from '../../records/lots.ts';
import { readUnread, unreadToJson } from '../../records/unread.ts';
import type { Schema } from '../../schema.ts';
import type { LedgerKind } from './columns.ts';

/** Why a row cannot be taken, and by which of its columns. */
export class Refusal extends Error {
  readonly column: string;
  constructor(column: string, reason: string) {
    super(reason);
    this.column = column;
  }
}

/** The text of one of a row's columns; '' where it is blank or absent. */
type Row = (column: string) => string;

interface Terms {
  /** ISO instant of entering. */
  at: string;
  today: IsoDate;
  /** Takes the ids of cars that were sold. */
  soldCarIds: number[];
}

/** Takes a row, or finds that it is there already (false). Throws Refusal where it cannot stand. */
type LedgerJudge = (row: Row) => Promise<boolean>;

const text = (row: Row, column: string): string => {
  const said = row(column);
  if (said === '') throw new Refusal(column, 'this is missing');
  return said;
};

const day = (row: Row, column: string, today: IsoDate | null): IsoDate => {
  const read = readDate(text(row, column), null, today);
  if (!read.ok) throw new Refusal(column, read.reason);
  return read.value;
};

const currencyOf = (row: Row): Currency => {
  const code = text(row, 'currency').toUpperCase();
  if (!isCurrency(code))
    throw new Refusal('currency', `"${code}" is not a currency; write its ISO 4217 code`);
  return code;
};

const amountOf = (written: string, column: string, currency: Currency): Minor => {
  // The lists are written with a point; a lone one before three digits is no thousand.
  const read = readMoney(written, currency, { chosen: '.', usual: null });
  if (!read.ok) throw new Refusal(column, read.reason);
  return read.value;
};

const carsByNumber = async (trx: Transaction<Schema>): Promise<(row: Row) => number> => {
  const rows = await trx.selectFrom('car').select(['id', 'inventory_number']).execute();
  const ids = new Map(rows.map(row => [row.inventory_number.toLowerCase(), row.id]));
  return row => {
    const number = text(row, 'inventory_number');
    const id = ids.get(number.toLowerCase());
    if (id === undefined)
      throw new Refusal('inventory_number', `no car has the number ${number}: import the cars first`);
    return id;
  };
};

/** What is there already, counted, so that equal rows of one list are each taken. */
const counted = (keys: readonly string[]) => {
  const counts = new Map<string, number>();
  for (const key of keys) counts.set(key, (counts.get(key) ?? 0) + 1);
  return (key: string): boolean => {
    const left = counts.get(key) ?? 0;
    counts.set(key, left - 1);
    return left > 0;
  };
};

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

const lots = async (trx: Transaction<Schema>, { at }: Terms): Promise<LedgerJudge> => {
  const costs = await lotCosts(trx);
  const contentOf = (lot: Omit<Parameters<typeof insertLot>[1], 'costs'> & { costs: LotCost[] }): string =>
    JSON.stringify([
      lot.boughtOn,
      lot.seller,
      lot.currency,
      lot.notes,
      lot.priceFrom ?? 'lot',
      lot.costs.map(({ kind, minor, note }) => `${kind} ${minor} ${note}`).sort(),
    ]);
  const known = new Map<string, string>();
  for (const lot of await listLots(trx))
    known.set(lot.name, contentOf({ ...lot, costs: costs.get(lot.id) ?? [] }));
  return async row => {
    const currency = currencyOf(row);
    const lot = {
      name: text(row, 'lot'),
      boughtOn: row('bought_on') === '' ? null : day(row, 'bought_on', null),
      seller: row('seller'),
      currency,
      notes: row('notes'),
      priceFrom: row('price_from') === 'cars' ? ('cars' as const) : ('lot' as const),
      costs: costsOf(row, currency),
    };
    const before = known.get(lot.name);
    if (before === contentOf(lot)) return false;
    if (before !== undefined)
      throw new Refusal(
        'lot',
        `there is already another lot with the name "${lot.name}"; nothing was changed`,
      );
    known.set(lot.name, contentOf(lot));
    await insertLot(trx, lot, at);
    return true;
  };
};

const expenses = async (trx: Transaction<Schema>, { today }: Terms): Promise<LedgerJudge> => {
  const carOf = await carsByNumber(trx);
  const keyOf = ({ carId, spentOn, what, minor, currency }: Parameters<typeof insertExpense>[1]) =>
    JSON.stringify([carId, spentOn, what, minor, currency]);
  const isKnown = counted((await listExpenses(trx)).map(keyOf));
  return async row => {
    const currency = currencyOf(row);
    const minor = amountOf(text(row, 'amount'), 'amount', currency);
    const expense = {
      carId: carOf(row),
      spentOn: day(row, 'spent_on', today),
      what: text(row, 'what'),
      minor,
      currency,
    };
    if (isKnown(keyOf(expense))) return false;
    await insertExpense(trx, expense);
    return true;
  };
};

const disposals = async (
  trx: Transaction<Schema>,
  { today, soldCarIds, at }: Terms,
): Promise<LedgerJudge> => {
  const carOf = await carsByNumber(trx);
  const known = new Map((await listDisposals(trx)).map(({ id: _, ...one }) => [one.carId, one]));
  return async row => {
    const currency = currencyOf(row);
    const disposal = {
      carId: carOf(row),
      soldOn: day(row, 'sold_on', today),
      proceeds: amountOf(text(row, 'sold_for'), 'sold_for', currency),
      fees: row('fees') === '' ? 0 : amountOf(row('fees'), 'fees', currency),
      currency,
      buyer: row('buyer'),
      venue: row('venue'),
      notes: row('notes'),
    };
    const before = known.get(disposal.carId);
    if (before) {
      const same = Object.entries(disposal).every(
        ([key, value]) => before[key as keyof typeof before] === value,
      );
      if (same) return false;
      throw new Refusal('inventory_number', 'another sale of this car is recorded; nothing was changed');
    }
    known.set(disposal.carId, disposal);
    await insertDisposal(trx, disposal);
    // A list of cars that says "sold" without the sale had to leave that aside.
    const [unread] = await trx.selectFrom('car').select('unread').where('id', '=', disposal.carId).execute();
    const open = readUnread(unread?.unread ?? '').filter(
      ({ column, text: said }) => !(column.toLowerCase() === 'status' && said.toLowerCase() === 'sold'),
    );
    await trx
      .updateTable('car')
      .set({ status: 'sold', unread: unreadToJson(open), updated_at: at })
      .where('id', '=', disposal.carId)
      .execute();
    soldCarIds.push(disposal.carId);
    return true;
  };
};

const decisions = async (trx: Transaction<Schema>, { today }: Terms): Promise<LedgerJudge> => {
  const carOf = await carsByNumber(trx);
  const known = await readDecisions(trx);
  return async row => {
    const said = text(row, 'choice').toLowerCase();
    const choice = options.find(option => option === said);
    if (!choice) throw new Refusal('choice', `"${said}" is none of ${options.join(', ')}`);
    const recommended = row('recommended') || 'not-enough-evidence';
    const decision = {
      carId: carOf(row),
      choice,
      decidedOn: day(row, 'decided_on', today),
      recommended: recommendations.find(word => word === recommended) ?? 'not-enough-evidence',
      overruled: row('overruled')
        .split(';')
        .map(word => word.trim())
        .filter(Boolean),
      reason: row('reason'),
    };
    const before = known.get(decision.carId);
    if (before) {
      if (JSON.stringify(before, Object.keys(decision)) === JSON.stringify(decision, Object.keys(decision)))
        return false;
      throw new Refusal('inventory_number', 'another decision on this car is recorded; nothing was changed');
    }
    known.set(decision.carId, decision);
    await saveDecision(trx, decision);
    return true;
  };
};

export const ledgerJudges: Record<
  LedgerKind,
  (trx: Transaction<Schema>, terms: Terms) => Promise<LedgerJudge>
> = { lots, expenses, disposals, decisions };
