import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { withCollection } from '../../../electron/cli/collection.ts';
import { answer, playworn } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
const collection = join(folder, 'collection');
const on = (...words: string[]) => [...words, '--collection', collection];

describe('playworn sets', () => {
  beforeAll(async () => {
    const file = (name: string, lines: string[]) => {
      const path = join(folder, name);
      writeFileSync(path, lines.join('\n'));
      return path;
    };
    const reference = file('reference.csv', [
      'maker,series,casting,colour',
      ...['Osmerry', 'Skiffle', 'Tallow'].map(casting => `Quillon Toys,Weir,${casting},Ember`),
    ]);
    await answer(on('import', reference, '--as', 'reference'));
    const sales = file('sales.csv', [
      'sold_on,price,currency,casting,grade',
      ...['Osmerry', 'Skiffle'].flatMap(casting =>
        [1, 2, 3].map(month => `2026-0${month}-04,${20 + month}.00,USD,${casting},6`),
      ),
    ]);
    await answer(on('import', sales, '--as', 'sales'));
    const cars = file('cars.csv', ['inventory_number,casting,colour,grade', 'Q-1,Osmerry,Ember,7']);
    await answer(on('import', cars, '--as', 'lot'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('say what to do where there is none, and which there are', async () => {
    expect((await playworn(on('sets'))).stdout).toContain('make one on Sets');
    const { code, stderr } = await playworn(on('sets', 'First year'));
    expect([code, stderr]).toEqual([1, expect.stringContaining('No set is called First year.')]);
    expect((await playworn(on('sets', '--grade', '11'))).code).toBe(2);
  });

  it('list what is there, what is missing and what that would cost', async () => {
    await withCollection({ collection }, async ({ api }) => {
      const castings = await api.reference.castings();
      await api.castingSets.create({ name: 'First year', castingIds: castings.map(({ id }) => id) });
    });
    const all = await answer(on('sets'));
    expect(all).toMatchObject([{ name: 'First year', castings: 3, missing: 2, currency: 'USD' }]);
    const one = await answer(on('sets', 'first YEAR', '--grade', 'c7.5'));
    expect(one).toMatchObject({ grade: 7.5, missing: 2 });
    const priceOf = (casting: string) =>
      one.members.find((member: { casting: string }) => member.casting === casting).price;
    expect(priceOf('Osmerry')).toBeNull();
    expect(Number(priceOf('Skiffle').mid)).toBeGreaterThan(0);
    const [{ completing }] = await answer(on('sets', '--grade', '3'));
    expect(Number(completing.mid)).toBeLessThan(Number(one.completing.mid));
    const { stdout } = await playworn(on('sets', 'First year'));
    expect(stdout).toMatch(/Osmerry .* Q-1, C7/);
    expect(stdout).toMatch(/Skiffle .*missing/);
    expect(stdout).toMatch(/2 castings missing; at C6 expected to cost/);
  });
});
