import Excel from 'exceljs';
import { expect, it } from 'vitest';
import { type Api, addReference, newCollectionService, resultOf } from '../../../helpers/api.ts';
import { readRfc4180 } from '../../../helpers/rfc-4180.ts';

const outOf = async (api: Api, format: 'csv' | 'xlsx' | 'jsonl') => {
  const made = await resultOf(await api.exports.make({ list: 'jobs', format }));
  return Buffer.from(await (await api.reports.file(made)).arrayBuffer());
};

/** Two cars on the bench, one of which took time, material in two currencies and a part, and went wrong. */
const worked = async () => {
  const { api } = await newCollectionService();
  const { variations } = await addReference(api);
  const { ids } = await api.cars.create({
    lotId: null,
    cars: [
      { inventoryNumber: 'J-1', variationId: variations.emberTwin, grade: 3, finishState: 'restored' },
      { inventoryNumber: 'J-2', variationId: variations.mossTwin, grade: 4 },
    ],
  });
  await api.bench.add({ cars: ids.map(carId => ({ carId })) });
  const jobs = await api.bench.list();
  const [job, other] = [jobs.find(one => one.carId === ids[0])!, jobs.find(one => one.carId === ids[1])!];
  const step = job.steps.find(one => one.hands.likely > 0)!;
  await api.bench.enterTime({ stepId: step.id, minutes: 25 });
  const used = { jobId: job.id, stepId: step.id };
  await api.bench.addMaterial({ ...used, name: 'Stripper', minor: 140, currency: 'USD' });
  await api.bench.addMaterial({ ...used, name: 'Felts', minor: 60, currency: 'USD' });
  await api.bench.addMaterial({ ...used, name: 'Lacquer', minor: 900, currency: 'JPY' });
  await api.bench.addPart({
    jobId: job.id,
    name: 'Hub',
    part: 'wheels',
    originality: 'reproduction',
    quantity: 2,
    minor: 190,
    currency: 'USD',
  });
  await api.bench.setStep({
    stepId: step.id,
    state: 'done',
    spoiled: true,
    note: '=ran, "badly"\nsecond coat',
  });
  await api.bench.note({ id: job.id, who: 'E. Tarrow', notes: 'Dry weather' });
  await api.bench.change({ id: other.id, state: 'given up', reason: 'post cracked' });
  return { api, job, other, step };
};

it('jobs go out a row for each step, with its car’s finish state, what was planned, done and used', async () => {
  const { api, job, other, step } = await worked();
  const rows = (await outOf(api, 'jsonl'))
    .toString('utf8')
    .trimEnd()
    .split('\n')
    .map(line => JSON.parse(line));
  const mine = rows.filter(row => row.inventory_number === 'J-1');
  expect(mine).toHaveLength(job.steps.length + 2);
  expect(new Set(mine.map(row => row.finish_state))).toEqual(new Set(['restored']));
  const [first, further] = mine.filter(row => row.step === step.name);
  expect(first).toMatchObject({
    work: 'restore',
    step_number: job.steps.indexOf(step) + 1,
    step_state: 'done',
    planned_minutes: step.hands.likely,
    done_minutes: 25,
    times_not_counted: null,
    went_wrong: 'yes',
    materials: 'Stripper; Felts',
    cost: '2.00',
    currency: 'USD',
    note: '=ran, "badly"\nsecond coat',
    who: 'E. Tarrow',
    job_notes: 'Dry weather',
  });
  expect(first.done_on).toMatch(/^\d{4}-\d\d-\d\d$/);
  // A second currency stands in a row of its own, in which no minute is counted again.
  expect(further).toMatchObject({
    materials: 'Lacquer',
    cost: '900',
    currency: 'JPY',
    planned_minutes: null,
    done_minutes: null,
    went_wrong: null,
  });
  expect(mine.at(-1)).toMatchObject({ step: null, step_number: null, materials: '2 × Hub', cost: '1.90' });
  const planned = (list: { planned_minutes: number | null }[]) =>
    list.reduce((sum, row) => sum + (row.planned_minutes ?? 0), 0);
  expect(planned(mine)).toBe(job.steps.reduce((sum, { hands }) => sum + hands.likely, 0));
  const theirs = rows.filter(row => row.inventory_number === 'J-2');
  expect(theirs).toHaveLength(other.steps.length);
  expect(theirs[0]).toMatchObject({
    finish_state: 'original',
    job_state: 'given up',
    given_up_why: 'post cracked',
    done_minutes: null,
    cost: null,
  });
});

it('jobs as CSV and as a spreadsheet with typed cells and a frozen heading', async () => {
  const { api, step } = await worked();
  const [heads = [], ...rows] = readRfc4180((await outOf(api, 'csv')).toString('utf8'));
  const done = rows.find(row => row[heads.indexOf('done_minutes')] === '25')!;
  expect(done[heads.indexOf('note')]).toBe('\'=ran, "badly"\nsecond coat');
  const workbook = new Excel.Workbook();
  await workbook.xlsx.load(new Uint8Array(await outOf(api, 'xlsx')).buffer);
  const sheet = workbook.getWorksheet('Jobs')!;
  expect(sheet.views[0]).toMatchObject({ state: 'frozen', ySplit: 1 });
  const place = rows.indexOf(done) + 2;
  const cell = (name: string) => sheet.getRow(place).getCell(heads.indexOf(name) + 1);
  expect(cell('done_minutes').value).toBe(25);
  expect(cell('planned_minutes').value).toBe(step.hands.likely);
  expect(cell('cost').value).toBe(2);
  expect(cell('done_on').value).toBeInstanceOf(Date);
  expect(cell('note').formula).toBeUndefined();
});
