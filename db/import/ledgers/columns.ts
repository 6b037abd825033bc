import { lotCostKinds } from '../../../valuation/words.ts';

/** The lists of the books, as they go out and come back. */
export const ledgerKinds = ['lots', 'expenses', 'disposals', 'decisions'] as const;
export type LedgerKind = (typeof ledgerKinds)[number];

interface LedgerColumn {
  name: string;
  required?: true;
  help: string;
}

const car: LedgerColumn = { name: 'inventory_number', required: true, help: "the car's inventory number" };
const finish: LedgerColumn = { name: 'finish_state', help: 'what has become of its finish; not read' };
const currency: LedgerColumn = { name: 'currency', required: true, help: 'ISO 4217 code such as USD' };

/** What each list has; a list that goes out has more, which is worked out. */
export const ledgerColumns: Record<LedgerKind, readonly LedgerColumn[]> = {
  lots: [
    { name: 'lot', required: true, help: 'name of the lot' },
    { name: 'bought_on', help: 'day of purchase' },
    { name: 'seller', help: 'who it was bought from' },
    { name: 'cars', help: 'how many cars it has; not read' },
    currency,
    ...lotCostKinds.map(kind => ({ name: kind, help: `what it cost: ${kind}` })),
    { name: 'total', help: 'the sum of its costs; not read' },
    { name: 'costs', help: 'each cost on a line of its own, such as "premium 12.50: of the fair"' },
    { name: 'price_from', help: '"cars" where its price is the sum of what is known of its cars' },
    { name: 'cost_notes', help: 'notes on its costs; not read' },
    { name: 'notes', help: 'anything else' },
  ],
  expenses: [
    car,
    finish,
    { name: 'spent_on', required: true, help: 'day of spending' },
    { name: 'what', required: true, help: 'what it was spent on' },
    { name: 'amount', required: true, help: 'how much' },
    currency,
  ],
  disposals: [
    car,
    finish,
    { name: 'sold_on', required: true, help: 'day of the sale' },
    { name: 'sold_for', required: true, help: 'what it brought' },
    { name: 'fees', help: 'what was kept back of it' },
    currency,
    { name: 'buyer', help: 'who bought it' },
    { name: 'venue', help: 'where it was sold' },
    { name: 'notes', help: 'anything else' },
  ],
  decisions: [
    car,
    finish,
    { name: 'decided_on', required: true, help: 'day of the decision' },
    { name: 'choice', required: true, help: 'what was decided, such as leave or restore' },
    { name: 'recommended', help: 'what was recommended' },
    { name: 'overruled', help: 'guards that were overruled, with semicolons between' },
    { name: 'reason', help: 'why' },
  ],
};
