import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { answer } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const messy = (name: string) => fileURLToPath(new URL(`../../fixtures/messy/${name}`, import.meta.url));
const on = (name: string, ...more: string[]) =>
  answer(['import', messy(name), '--collection', join(folder, 'collection'), ...more]);

describe('the command line takes lists as people keep them', () => {
  it('the reference, a lot and sales, each with what was refused and why', async () => {
    const reference = await on('club-list.xlsx', '--as', 'reference');
    expect(reference).toMatchObject({ accepted: 7, duplicates: 1 });
    expect(reference.rejected).toHaveLength(1);

    const lot = await on(
      'barn-tin.csv',
      '--as',
      'lot',
      '--price',
      '412.50',
      '--currency',
      'USD',
      '--name',
      'Barn tin',
    );
    expect(lot).toMatchObject({ accepted: 9, duplicates: 0, lot: { name: 'Barn tin' } });
    expect(lot.not_understood).toContainEqual({
      column: 'Condition',
      text: 'C11',
      field: 'grade',
      meaning: '',
      count: 1,
      lines: [11],
    });
    for (const { line, reason } of lot.rejected)
      expect([typeof line, typeof reason]).toEqual(['number', 'string']);

    const sales = await on('seen-sales.csv', '--as', 'sales', '--add-reference');
    expect(sales).toMatchObject({ accepted: 6, duplicates: 1, addedCastings: 1 });
  });

  it('nothing twice, from the other kind of file', async () => {
    expect(await on('club-list.csv', '--as', 'reference')).toMatchObject({ accepted: 0, duplicates: 8 });
    expect(await on('barn-tin.xlsx', '--as', 'lot', '--name', 'Barn tin')).toMatchObject({ accepted: 0 });
    expect(await on('seen-sales.xlsx', '--as', 'sales')).toMatchObject({ accepted: 0 });
  });
});
