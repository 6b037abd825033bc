import type { Transaction } from 'kysely';
import { options, recommendations } from '../../../valuation/words.ts';
import { insertDisposal, insertExpense, listDisposals, listExpenses } from '../../records/cars/disposals.ts';
import { readDecisions, saveDecision } from '../../records/decisions/decisions.ts';
import { readUnread, unreadToJson } from '../../records/unread.ts';
import type { Schema } from '../../schema.ts';
import type { LedgerKind } from './columns.ts';
import { jobs } from './jobs.ts';
import { lots } from './lots.ts';
import {
  amountOf,
  carsByNumber,
  counted,
  currencyOf,
  day,
  type LedgerJudge,
  Refusal,
  type Row,
  seenRefuser,
  type Terms,
  text,
} from './row.ts';

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
  const refuseSeen = await seenRefuser(trx);
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
    refuseSeen(disposal.carId);
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

/**
 * Takes the rows of what is one record, or finds that it is there already (false). Throws Refusal where it cannot
 * stand.
 */
type RecordJudge = (rows: readonly Row[]) => Promise<boolean>;

/** For a list in which each row is a record. */
const each =
  (judgeOf: (trx: Transaction<Schema>, terms: Terms) => Promise<LedgerJudge>) =>
  async (trx: Transaction<Schema>, terms: Terms): Promise<RecordJudge> => {
    const judge = await judgeOf(trx, terms);
    return async rows => {
      const [row] = rows;
      return row === undefined ? false : judge(row);
    };
  };

export const ledgerJudges: Record<
  LedgerKind,
  (trx: Transaction<Schema>, terms: Terms) => Promise<RecordJudge>
> = {
  lots: each(lots),
  expenses: each(expenses),
  disposals: each(disposals),
  decisions: each(decisions),
  jobs,
};
