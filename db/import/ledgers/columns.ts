import { lotCostKinds } from '../../../valuation/words.ts';

/** The lists of the books, as they go out and come back. */
export const ledgerKinds = ['lots', 'expenses', 'disposals', 'decisions', 'jobs'] as const;
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
    { name: 'only_seen', help: 'yes where it was seen and not bought: it has neither a day nor costs' },
    {
      name: 'bid',
      help: 'terms of its bid, such as "margin 20 %; chance 80 %; premium 15 %; carriage 9.00 USD"',
    },
    { name: 'purchase_left_out', help: 'yes, or why, where what was paid for it is left out of estimates' },
    { name: 'notes', help: 'anything else' },
    ...['identified', 'graded', 'photographed', 'sold', 'valued', 'value_currency', 'value_as_found'].map(
      name => ({ name, help: 'worked out from its cars; not read' }),
    ),
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
  jobs: [
    car,
    finish,
    { name: 'work', required: true, help: 'conserve, restore, customise or donor' },
    {
      name: 'job_state',
      required: true,
      help: 'waiting, open, paused, finished or given up; blank for finished work that was no job',
    },
    { name: 'season', help: 'name of its season, which is there already' },
    { name: 'added_on', help: 'day on which it was put on the bench' },
    { name: 'started_on', help: 'day on which it was begun' },
    { name: 'ended_on', help: 'day on which it ended' },
    { name: 'step_number', help: 'place of the step in its job' },
    { name: 'step', help: 'name of the step' },
    { name: 'part', help: 'part that the step works on' },
    { name: 'step_state', help: 'to do, done or left out' },
    { name: 'cautions', help: 'what to mind in the step, such as "caustic; heat"' },
    ...['planned_minutes', 'planned_waiting_minutes'].flatMap(name => [
      { name, help: 'minutes that the step is likely to take' },
      { name: `${name}_low`, help: 'the same, at best' },
      { name: `${name}_high`, help: 'the same, at worst' },
    ]),
    { name: 'done_minutes', help: 'minutes that it took; read where there are no "times"' },
    { name: 'times_not_counted', help: 'times that do not count; not read' },
    { name: 'done_on', help: 'day on which the step was done' },
    { name: 'went_wrong', help: 'yes where the step went wrong' },
    { name: 'materials', help: 'what the step used; read where there is no "used"' },
    { name: 'cost', help: 'what that cost; read where there is no "used"' },
    { name: 'currency', help: 'ISO 4217 code of that cost' },
    { name: 'note', help: 'note on the step' },
    { name: 'who', help: 'who does the job' },
    { name: 'given_up_why', help: 'why it was given up' },
    { name: 'job_notes', help: 'notes on the job' },
    { name: 'finished_on', help: 'day on which the work was finished' },
    { name: 'finished_work', help: 'what was done then, where it is not "work"' },
    { name: 'finish_before', help: 'what had become of its finish before' },
    { name: 'finish_after', help: 'what has become of its finish by the work' },
    { name: 'grade_before', help: 'its grade before' },
    { name: 'fidelity', help: 'to specification, with deviations or custom' },
    { name: 'departures', help: 'in what it departs, such as "another colour; reproduction wheels"' },
    { name: 'left_as_was', help: 'what was left as it was' },
    { name: 'new_colour', help: 'colour that it was painted in' },
    { name: 'new_body_finish', help: 'kind of finish that it was given' },
    { name: 'new_base_paint', help: 'base paint that it was given' },
    { name: 'new_roof', help: 'roof that it was given' },
    { name: 'closure', help: 'how it was closed: screw, rivet, glue, as made or not opened' },
    { name: 'bearings', help: 'its bearings' },
    { name: 'axles', help: 'its axles' },
    { name: 'work_minutes', help: 'minutes that the whole work took' },
    { name: 'work_materials', help: 'materials of the whole work' },
    { name: 'work_parts', help: 'parts of the whole work' },
    { name: 'restored_by', help: 'who did the work' },
    { name: 'restorer_mark', help: "the restorer's mark" },
    { name: 'work_notes', help: 'notes on the finished work' },
    { name: 'parts_checked', help: 'yes where the parts were checked on the day it was finished' },
    { name: 'job_number', help: 'tells jobs of one car from each other' },
    { name: 'aims_at', help: 'grade that the job aims at' },
    { name: 'paint_colour', help: 'colour that it is to be painted in' },
    { name: 'planned_cost', help: 'what materials and parts were likely to cost' },
    { name: 'planned_currency', help: 'ISO 4217 code of that' },
    { name: 'looked_at', help: 'what was looked at before closing' },
    ...['added', 'started', 'ended'].map(name => ({ name: `${name}_at`, help: `instant of "${name}_on"` })),
    { name: 'step_key', help: 'key of the step among your steps' },
    { name: 'because', help: 'what called for the step, as an export writes it' },
    { name: 'done_at', help: 'instant of "done_on"' },
    { name: 'waits_until', help: 'instant until which the step runs by itself' },
    { name: 'heard_at', help: 'instant at which its call was dismissed' },
    { name: 'times', help: 'times on its clock, each on a line, as an export writes them' },
    { name: 'used', help: 'what it used, each on a line, such as "2026-05-06 material 1.40 USD: Lacquer"' },
    { name: 'photographs', help: 'photographs of the step by the SHA-256 of their files, each on a line' },
    { name: 'job_photographs', help: 'the same, of the job at no step' },
  ],
};
