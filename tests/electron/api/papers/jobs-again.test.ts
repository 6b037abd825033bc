import { expect, it } from 'vitest';
import { disclosureText } from '../../../../valuation/wording/cars/disclosure-text.ts';
import { type Api, addReference, newCollectionService, resultOf } from '../../../helpers/api.ts';

const shelf = async () => {
  const { api } = await newCollectionService();
  const { variations } = await addReference(api);
  const { ids } = await api.cars.create({
    lotId: null,
    cars: [
      { inventoryNumber: 'J-1', variationId: variations.emberTwin, grade: 3 },
      { inventoryNumber: 'J-2', variationId: variations.mossTwin, grade: 4 },
      { inventoryNumber: 'J-3', variationId: variations.mossTwin, grade: 5 },
    ],
  });
  return { api, ids: ids as [number, number, number] };
};

const outOf = async (api: Api, format: 'csv' | 'xlsx' | 'jsonl') => {
  const made = await resultOf(await api.exports.make({ list: 'jobs', format }));
  return new File([await (await api.reports.file(made)).arrayBuffer()], `jobs.${format}`);
};

type Line = Record<string, string | number | null>;
const rowsOf = async (api: Api): Promise<Line[]> =>
  (await (await outOf(api, 'jsonl')).text())
    .trimEnd()
    .split('\n')
    .map(line => JSON.parse(line));

const take = async (api: Api, file: File) => resultOf(await api.imports.ledger({ file, as: 'jobs' }));
const listOf = (rows: readonly Line[]) =>
  new File([rows.map(row => JSON.stringify(row)).join('\n')], 'jobs.jsonl');

/** A job on the bench, one that was finished, one that was given up, and work that was no job. */
const worked = async () => {
  const { api, ids } = await shelf();
  await api.bench.add({ cars: ids.map(carId => ({ carId })) });
  const jobs = await api.bench.list();
  const [open, finished, left] = ids.map(id => jobs.find(({ carId }) => carId === id)!);
  const step = open!.steps.find(({ hazards }) => hazards.length > 0)!;
  await api.bench.enterTime({ stepId: step.id, also: [finished!.steps[0]!.id], minutes: 25 });
  await api.bench.start({ stepIds: [step.id] });
  const used = { jobId: open!.id, stepId: step.id };
  await api.bench.addMaterial({ ...used, name: 'Stripper', minor: 140, currency: 'USD' });
  await api.bench.addMaterial({ ...used, name: 'Lacquer', minor: 900, currency: 'JPY' });
  const part = { part: 'wheels' as const, originality: 'reproduction' as const, minor: 190, currency: 'USD' };
  await api.bench.addPart({ jobId: open!.id, name: 'Hub', quantity: 2, donorCarId: ids[1], ...part });
  await api.bench.setStep({
    stepId: step.id,
    state: 'done',
    spoiled: true,
    note: '=ran, "badly"\nsecond coat',
  });
  await api.bench.note({ id: open!.id, who: 'E. Tarrow', notes: 'Dry weather' });
  await api.cars.finishWork({
    carId: ids[1],
    jobId: finished!.id,
    kind: 'restore',
    finishedOn: '2026-03-10',
    finishState: 'restored',
    grade: 8.5,
    parts: [{ part: 'wheels', grade: 9, originality: 'reproduction' }],
    colour: 'Teal',
    closure: 'screw',
    leftAsWas: 'scratches, too deep',
  });
  await api.bench.change({ id: left!.id, state: 'given up', reason: 'post cracked' });
  await api.cars.finishWork({
    carId: ids[2],
    kind: 'conserve',
    finishedOn: '2026-02-01',
    finishState: 'original',
    grade: null,
    parts: [],
  });
  return { api, ids, step };
};

/** What the list of cars has, and not that of jobs. */
const without = (rows: readonly Line[]) => rows.map(({ finish_state: _, parts_checked: __, ...row }) => row);

it.each(['csv', 'xlsx', 'jsonl'] as const)(
  'jobs fill a collection that has their cars (%s)',
  async format => {
    const { api, step } = await worked();
    const before = await rowsOf(api);
    expect(before.find(row => row.step === step.name)).toMatchObject({ cautions: step.hazards.join('; ') });
    const { api: other, ids } = await shelf();
    const file = await outOf(api, format);
    expect(await take(other, file)).toMatchObject({
      accepted: before.length,
      rejected: [],
      notes: ['J-2 was said to have its original finish; by its finished work it is restored now.'],
    });
    expect(without(await rowsOf(other))).toEqual(without(before));
    expect(await take(other, file)).toMatchObject({ accepted: 0, duplicates: before.length, rejected: [] });
    const restored = await other.cars.get({ id: ids[1] });
    expect(restored).toMatchObject({ finishState: 'restored', wornColour: 'Teal' });
    const text = disclosureText(restored.disclosure, 'en-GB');
    expect(text).toContain('another colour, reproduction wheels, visible post closure');
    expect(text).toContain('Left as it was: scratches, too deep.');
    expect(await other.cars.get({ id: ids[0] })).toMatchObject({ status: 'on the bench', expenses: [] });
  },
);

it('a job is taken whole or not at all, and each of its rows says why', async () => {
  const { api } = await worked();
  const rows = await rowsOf(api);
  const { api: other } = await shelf();
  const at = rows.findIndex(row => row.cautions);
  const wrong = rows.map((row, i) => (i === at ? { ...row, cautions: 'acid; goblins' } : row));
  const { accepted, rejected } = await take(other, listOf(wrong));
  const number = rows[at]!.inventory_number;
  const ofIt = rows.filter(row => row.inventory_number === number).length;
  expect(rejected).toHaveLength(ofIt);
  expect(accepted).toBe(rows.length - ofIt);
  expect(rejected.find(({ column }) => column === 'cautions')).toMatchObject({
    line: at + 2,
    reason: expect.stringMatching(/"goblins" is none of acid/),
  });
  expect(rejected.find(({ column }) => column === null)?.reason).toMatch(
    `this belongs to the row in line ${at + 2}`,
  );
  expect((await rowsOf(other)).filter(row => row.inventory_number === number)).toEqual([]);
});

it('a list without the cells for an import gives what it says, and tells what is left out', async () => {
  const { api } = await worked();
  const again =
    /^(?:cautions|times|used|because|.*_at|waits_until|step_key|job_number|aims_at|planned_(?:cost|currency)|looked_at)$/;
  const plain = (await rowsOf(api)).map(row =>
    Object.fromEntries(Object.entries(row).filter(([name]) => !again.test(name))),
  );
  const { api: other } = await shelf();
  const { rejected, notes } = await take(other, listOf(plain));
  expect(rejected).toEqual([]);
  expect(notes.join('\n')).toMatch(/no column "cautions".*safety data sheets/);
  expect(notes.join('\n')).toMatch(/no column "used"/);
  const taken = await rowsOf(other);
  const told = ['step', 'step_state', 'done_minutes', 'cost', 'currency', 'departures', 'given_up_why'];
  const only = (rows: readonly Line[]) => rows.map(row => told.map(name => row[name] ?? null));
  expect(only(taken)).toEqual(only(plain));
});

it('nothing that is there is changed, and no car is on the bench twice', async () => {
  const { api } = await worked();
  const rows = await rowsOf(api);
  const before = JSON.stringify(await rowsOf(api));
  const later = rows.map((row): Line => ({ ...row, added_at: '2025-01-01T00:00:00.000Z', who: 'another' }));
  const { rejected } = await take(api, listOf(later.filter(row => row.job_state === 'open')));
  expect(rejected[0]?.reason).toMatch('on the bench already');
  const changed = rows
    .map((row): Line => ({ ...row, who: 'another' }))
    .filter(row => row.job_state === 'finished');
  expect((await take(api, listOf(changed))).rejected[0]?.reason).toMatch('another job of this car');
  expect(JSON.stringify(await rowsOf(api))).toBe(before);
});
