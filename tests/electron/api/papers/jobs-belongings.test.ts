import { expect, it } from 'vitest';
import { type Api, newCollectionService, resultOf } from '../../../helpers/api.ts';
import { picture } from '../../../helpers/pictures/pictures.ts';

const shelf = async () => {
  const { api } = await newCollectionService();
  const { ids } = await api.cars.create({ lotId: null, cars: [{ inventoryNumber: 'J-1', grade: 3 }] });
  return { api, carId: ids[0]! };
};
const bytes = new Uint8Array(await picture('jpeg'));
const photograph = () => new File([bytes], 'a.jpg');
const hub = { name: 'Hub', inStock: 5, unit: 50, currency: 'USD' };

const listOf = async (api: Api) => {
  const made = await resultOf(await api.exports.make({ list: 'jobs', format: 'csv' }));
  return new File([await (await api.reports.file(made)).arrayBuffer()], 'jobs.csv');
};
const take = async (api: Api, file: File) => resultOf(await api.imports.ledger({ file, as: 'jobs' }));
const jobIn = async (api: Api) => (await api.bench.list())[0]!;
const told = async (api: Api) => {
  const { photos, uses, steps } = await jobIn(api);
  const stepOf = (id: number | null) => steps.findIndex(step => step.id === id);
  return {
    photos: photos.map(({ sha256, moment, stepId }) => [sha256, moment, stepOf(stepId)]),
    shelved: uses.map(({ name, part }) => [name, part?.shelfId != null, part?.quantity]),
  };
};

const worked = async () => {
  const { api, carId } = await shelf();
  await api.collection.savePart(hub);
  const shelfId = (await api.collection.parts())[0]!.id;
  await api.bench.add({ cars: [{ carId }] });
  const { id: jobId, steps } = await jobIn(api);
  await api.bench.addPhotos({ jobId, stepId: steps[1]!.id, moment: 'before', files: [photograph()] });
  const part = {
    part: 'wheels' as const,
    originality: 'reproduction' as const,
    quantity: 2,
    currency: 'USD',
  };
  await api.bench.addPart({ jobId, name: 'Hub', shelfId, ...part });
  return { api, file: await listOf(api), before: await told(api) };
};

it('photographs and the shelf come back with a job where the collection has them', async () => {
  const { api, file, before } = await worked();
  expect(before.photos).toEqual([[expect.stringMatching(/^[0-9a-f]{64}$/), 'before', 1]]);
  expect(before.shelved).toEqual([['Hub', true, 2]]);
  const { api: other, carId } = await shelf();
  await other.photos.add({ carId, files: [photograph()] });
  await other.collection.savePart({ ...hub, inStock: 3 });
  const { rejected, notes } = await take(other, file);
  expect([rejected, notes]).toEqual([[], []]);
  expect(await told(other)).toEqual(before);
  // What is on the shelf there is what was left.
  expect((await other.collection.parts()).map(({ inStock }) => inStock)).toEqual([3]);
  expect(await (await listOf(other)).text()).toBe(await (await listOf(api)).text());
  expect((await take(other, file)).duplicates).toBeGreaterThan(0);
});

it('a job is taken without photographs and a shelf that are not there, which is said', async () => {
  const { file } = await worked();
  const { api: other } = await shelf();
  const { accepted, rejected, notes } = await take(other, file);
  expect(accepted).toBeGreaterThan(0);
  expect(rejected).toEqual([]);
  expect(notes.join('\n')).toMatch(/photographs of the jobs are not with their cars here.*left out/);
  expect(notes.join('\n')).toMatch(/The shelf here has no "Hub"/);
  expect(await told(other)).toEqual({ photos: [], shelved: [['Hub', false, 2]] });
  expect((await take(other, file)).rejected).toEqual([]);
});
