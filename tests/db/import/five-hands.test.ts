import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { newCollection } from '../../helpers/collections.ts';
import { fileOf, newLot, take } from './importing.ts';
import { strangersFile } from './strangers.ts';

const folder = fileURLToPath(new URL('../../fixtures/five-hands/', import.meta.url));
const truth = JSON.parse(readFileSync(`${folder}truth.json`, 'utf8')) as Record<
  string,
  Record<string, Record<string, string | number>>
>;

const same = (given: unknown, wanted: unknown): boolean =>
  typeof wanted === 'number'
    ? Number(given) === wanted
    : String(given).toLowerCase() === String(wanted).toLowerCase();

it('lists by other habits and in other languages are read: every row, nine fields of ten, and hardly a wrong value', async () => {
  const counts = { rows: 0, taken: 0, right: 0, missing: 0, other: 0 };
  const amiss: string[] = [];
  for (const name of readdirSync(folder).filter(file => file.endsWith('.csv'))) {
    const collection = await newCollection();
    await take(collection, strangersFile('strangers/reference.csv'), { as: 'reference' });
    const file = fileOf(readFileSync(`${folder}${name}`, 'utf8'), name);
    const options = { as: 'lot', lot: newLot('List'), rows: true, dryRun: true } as const;
    const { rows = [] } = await take(collection, file, options);
    const wanted = truth[name] ?? {};
    counts.rows += Object.keys(wanted).length;
    for (const { line, outcome, fields } of rows) {
      const own = wanted[line];
      if (outcome === 'accepted' && own) counts.taken++;
      if (outcome === 'accepted' && !own) amiss.push(`${name} ${line} is no car`);
      for (const [field, value] of Object.entries(own ?? {}))
        if (fields[field] === undefined) {
          counts.missing++;
          amiss.push(`${name} ${line}: ${field} not read: ${value}`);
        } else if (same(fields[field], value)) counts.right++;
        else {
          counts.other++;
          amiss.push(`${name} ${line}: ${field}=${fields[field]}, not ${value}`);
        }
      for (const [field, value] of Object.entries(fields))
        if (own && own[field] === undefined && field !== 'price_paid_currency') {
          counts.other++;
          amiss.push(`${name} ${line}: ${field}=${value} is not known`);
        }
    }
  }
  console.log([JSON.stringify(counts), ...amiss].join('\n'));
  expect(counts.taken).toBe(counts.rows);
  expect(counts.right / (counts.right + counts.missing + counts.other)).toBeGreaterThanOrEqual(0.93);
  expect(counts.other).toBeLessThanOrEqual(2);
});
