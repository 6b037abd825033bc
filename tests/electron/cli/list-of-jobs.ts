/** Jobs in every state, with all that an export tells of one, as rows by their columns. */
const rows: Record<string, string>[] = [
  {
    inventory_number: 'A-1',
    work: 'conserve',
    job_state: 'open',
    added_on: '2025-02-01',
    started_on: '2025-02-02',
    job_number: '1',
    step_number: '1',
    step: 'Clean, gently',
    step_key: 'clean-it',
    step_state: 'done',
    cautions: 'solvents; dust',
    planned_minutes: '10',
    planned_minutes_high: '20',
    planned_waiting_minutes: '120',
    done_on: '2025-02-02',
    waits_until: '2025-02-02T14:00:00.000Z',
    heard_at: '2025-02-02T15:00:00.000Z',
    went_wrong: 'yes',
    note: '=ran "badly"\nsecond coat',
    who: 'E. "Ned"',
    job_notes: '=1+1',
    aims_at: '8.5',
    paint_colour: 'Ember',
    planned_cost: '12.50',
    planned_currency: 'USD',
    looked_at: 'wheels\npost: closed',
    because: '{"kind":"part-grade","part":"wheels","grade":3,"assumed":false,"after":null}',
    times: [
      '2025-02-02T10:00:00.000Z to 2025-02-02T10:20:30.000Z: 615 s, shared by 2 cars',
      '2025-02-02T22:00:00.000Z to 2025-02-03T08:00:00.000Z: not counted',
      '2025-02-03T10:00:00.000Z: runs',
    ].join('\n'),
    used: [
      '2025-02-02 material 1.40 USD: Felts: two',
      '2025-02-02 material 90 JPY: "two\\nlines"',
      '2025-02-02 part 0.00 USD (2, wheels, reproduction, from "A-2"): Hubs',
    ].join('\n'),
  },
  // What it used in another currency has a row of its own.
  { inventory_number: 'A-1', work: 'conserve', step_number: '1', step: 'Clean, gently' },
  {
    inventory_number: 'A-1',
    work: 'conserve',
    step_number: '2',
    step: 'Own step',
    part: 'axles',
    step_state: 'left out',
    because: '{"kind":"owner"}',
  },
  {
    inventory_number: 'A-1',
    work: 'conserve',
    used: '2025-02-02 part 1.90 USD (1, other, period replacement): Clip',
  },
  {
    inventory_number: 'A-2',
    work: 'restore',
    job_state: 'finished',
    added_on: '2024-11-01',
    started_on: '2024-11-02',
    ended_on: '2024-12-24',
    job_number: '2',
    step_number: '1',
    step: 'Strip it',
    step_state: 'done',
    cautions: 'caustic; strippers',
    planned_minutes: '30',
    done_on: '2024-11-03',
    finished_on: '2024-12-24',
    finish_before: 'original',
    finish_after: 'restored',
    grade_before: '3',
    fidelity: 'with deviations',
    departures: 'another colour; reproduction wheels',
    left_as_was: 'the base',
    new_colour: 'Ember',
    new_body_finish: 'enamel',
    new_base_paint: 'full',
    new_roof: 'plain',
    closure: 'rivet',
    bearings: 'loose',
    axles: 'new',
    work_minutes: '95',
    work_materials: 'Lacquer',
    work_parts: '=hubs',
    restored_by: 'E. "Ned" Tarrow',
    restorer_mark: 'T',
    work_notes: '=2+2',
  },
  {
    inventory_number: 'A-2',
    work: 'restore',
    job_state: 'given up',
    added_on: '2024-06-01',
    ended_on: '2024-06-02',
    job_number: '3',
    given_up_why: 'post cracked',
  },
  {
    inventory_number: 'A-4',
    work: 'donor',
    finished_on: '2024-07-08',
    finish_before: 'touched up',
    finish_after: 'stripped',
    closure: 'not opened',
  },
];

const heads = [...new Set(rows.flatMap(row => Object.keys(row)))];
const ofJob = ['job_state', 'added_on', 'started_on', 'job_number'];

/** The same as lines of a CSV file, the headings first. */
export const listOfJobs: readonly string[] = [heads, ...rows].map(row => {
  if (Array.isArray(row)) return row.join(',');
  // Each row of a job says which job it is.
  const first = rows.find(one => one.inventory_number === row.inventory_number)!;
  const whole =
    row.inventory_number === 'A-1'
      ? { ...row, ...Object.fromEntries(ofJob.map(name => [name, first[name]!])) }
      : row;
  return heads
    .map(head => `"${((whole as Record<string, string>)[head] ?? '').replaceAll('"', '""')}"`)
    .join(',');
});
