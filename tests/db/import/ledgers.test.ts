import { expect, test } from 'vitest';
import { importLedger } from '../../../db/import/ledgers.ts';
import { at, newCollection } from '../../helpers/collections.ts';
import { countOf, fileOf } from './importing.ts';

const lotsOf = (count: number): File =>
  fileOf(
    `lot,currency,price\n${Array.from({ length: count }, (_, i) => `Lot ${i},USD,${i + 1}.00`).join('\n')}\n`,
  );
const common = { name: 'lots.csv', as: 'lots' as const, at };

test('rows are shown before they are taken: the first ones, and the first that are left out, with the reason', async () => {
  const collection = await newCollection();
  const list = `lot,currency,price\n${Array.from({ length: 30 }, (_, i) => `Lot ${i},USD,1`).join('\n')}\nLast,dollars,2\n`;
  const { sample, columns, accepted } = await importLedger({
    ...common,
    collection,
    file: fileOf(list),
    dryRun: true,
  });
  expect(columns).toEqual(['lot', 'currency', 'price']);
  expect(accepted).toBe(30);
  expect(sample).toHaveLength(21);
  expect(sample[0]).toEqual({
    line: 2,
    outcome: 'accepted',
    column: null,
    reason: null,
    values: { lot: 'Lot 0', currency: 'USD', price: '1' },
  });
  expect(sample.at(-1)).toMatchObject({ line: 32, outcome: 'rejected', column: 'currency' });
  expect(countOf(collection, 'lot')).toBe(0);
});

test('progress is told, and a cancel takes nothing', async () => {
  const collection = await newCollection();
  const stop = new AbortController();
  const told: number[] = [];
  const onProgress = (done: number) => {
    told.push(done);
    if (done >= 400) stop.abort();
  };
  const run = importLedger({
    ...common,
    collection,
    file: lotsOf(1000),
    dryRun: false,
    signal: stop.signal,
    onProgress,
  });
  await expect(run).rejects.toThrow(/abort/i);
  expect(told).toEqual([200, 400]);
  expect(countOf(collection, 'lot')).toBe(0);
  expect((await importLedger({ ...common, collection, file: lotsOf(3), dryRun: false })).accepted).toBe(3);
});
