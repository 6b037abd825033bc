import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { withCollection } from '../../../electron/cli/collection.ts';
import { answer, playworn } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
const collection = join(folder, 'collection');

describe('playworn seasons and bench', { timeout: 120_000 }, () => {
  beforeAll(async () => {
    const file = join(folder, 'list.csv');
    writeFileSync(file, 'inventory_number,casting,grade\nQ-1,Tallow,4\nQ-2,Tallow,5\n');
    await answer(['import', file, '--as', 'lot', '--collection', collection]);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const on = (...words: string[]) => [...words, '--collection', collection];

  it('say what to do where there is none', async () => {
    expect((await playworn(on('seasons'))).stdout).toContain('choose cars in Decide');
    expect((await playworn(on('bench'))).stdout).toContain('Nothing is on the bench');
    const { code, stderr } = await playworn(on('seasons', 'Winter'));
    expect(code).toBe(1);
    expect(stderr).toContain('No season is called Winter.');
  });

  it('show what is expected of each car, and the steps on the bench in their order', async () => {
    await withCollection({ collection }, async ({ api }) => {
      const cars = await api.cars.list({});
      const idOf = (number: string) => cars.find(car => car.inventoryNumber === number)!.id;
      const { id } = await api.work.saveSeason({
        name: 'Winter',
        currency: 'USD',
        hours: 12,
        cash: 5000,
        cars: [
          { carId: idOf('Q-2'), expected: 940, hours: 3.25, cost: 700, standing: 'must' },
          { carId: idOf('Q-1') },
        ],
      });
      await api.bench.add({ seasonId: id, cars: [{ carId: idOf('Q-2') }] });
    });
    expect(await answer(on('seasons', 'winter'))).toMatchObject({
      name: 'Winter',
      current: true,
      hours: 12,
      cash: '50.00',
      cars: [
        {
          number: 'Q-2',
          mustBeIn: true,
          state: 'on the bench',
          expected: '9.40',
          hours: 3.25,
          brought: null,
        },
        { number: 'Q-1', mustBeIn: false, state: 'waiting', expected: null },
      ],
    });
    const { stdout } = await playworn(on('seasons'));
    expect(stdout).toMatch(/Winter +\d{4}-\d\d-\d\d +2 +0/);
    const [job] = (await answer(on('bench'))) as { number: string; next: string; steps: { why: string }[] }[];
    expect(job).toMatchObject({ number: 'Q-2', state: 'waiting', minutes: 0 });
    expect(job?.steps.length).toBeGreaterThan(5);
    expect(job?.next).toBe((job?.steps[0] as { name?: string } | undefined)?.name);
    expect((await playworn(on('bench'))).stdout).toContain(job?.next ?? 'no step');
  });
});
