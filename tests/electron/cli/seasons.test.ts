import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { withCollection } from '../../../electron/cli/collection.ts';
import { answer, playworn } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
const collection = join(folder, 'collection');

describe('playworn seasons and bench', () => {
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

  it('choose and save a season, choose it anew, and make one current, rename, close and remove it', async () => {
    await answer(on('settle', 'Tallow', '--as', 'casting'));
    const price = ['--grade', 'C8', '--low', '60', '--high', '90'];
    await answer(on('believe', '--casting', 'Tallow', ...price));
    type Car = { number: string; kind: string; mustBeIn: boolean; state: string; expected: string };
    const choose = async (...more: string[]) =>
      (await answer(on('season', 'Summer', ...more))) as {
        name: string;
        current: boolean;
        hours: number | null;
        cash: string | null;
        mostCars: number | null;
        expected: string;
        cars: Car[];
        advisedAgainst: string[];
      };
    const numbers = (cars: readonly Car[]) => cars.map(({ number }) => number).sort();
    // A car that is required is in whatever it gains.
    const made = await choose('--hours', '9.5', '--cash', '40', '--most-cars', '1', '--must', 'q-1=conserve');
    expect(made).toMatchObject({ name: 'Summer', current: true, hours: 9.5, cash: '40.00', mostCars: 1 });
    expect(made.cars).toMatchObject([{ number: 'Q-1', kind: 'conserve', mustBeIn: true, state: 'waiting' }]);
    expect((await playworn(on('seasons'))).stdout).toMatch(/Summer .*current\n.*Winter(?!.*current)/);

    const anew = await choose('--hours', 'none', '--most-cars', 'none', '--must', 'Q-2', '--free', 'Q-1');
    expect(anew).toMatchObject({ hours: null, cash: '40.00', mostCars: null });
    expect(anew.cars.find(({ number }) => number === 'Q-2')?.mustBeIn).toBe(true);
    expect(anew.cars.find(({ number }) => number === 'Q-1')?.mustBeIn).not.toBe(true);
    const without = await choose('--never', 'Q-1');
    expect(numbers(without.cars)).toEqual(['Q-2']);
    // Chosen again, it is the same.
    expect(await choose()).toEqual(without);

    const act = (name: string, ...what: string[]) => answer(on('seasons', name, ...what));
    expect(await act('winter', '--make-current')).toMatchObject({ name: 'Winter', current: true });
    expect(await act('summer')).toMatchObject({ current: false });
    expect(await act('summer', '--rename', 'Long summer')).toMatchObject({ name: 'Long summer' });
    expect((await act('long summer', '--close')).closedOn).toMatch(/^\d{4}-\d\d-\d\d$/);
    const refused = async (words: string[]) => (await playworn(on(...words))).stderr;
    expect(await refused(['season', 'Long summer'])).toContain('give the season another name');
    expect(await refused(['seasons', 'long summer', '--make-current'])).toContain('was closed on');
    expect(await refused(['seasons', '--close'])).toContain('Say which season');
    expect(await refused(['season', 'Winter', '--never', 'Q-2'])).toContain('work on it has begun');
    expect(await refused(['season', 'New', '--must', 'Q-1', '--never', 'Q-1'])).toContain('named twice');
    expect(await refused(['season', 'New', '--part', 'Hub=2'])).toContain('No plan asks for a part "Hub"');
    expect(await refused(['season', 'New', '--must', 'Q-9'])).toContain(
      'no car with the inventory number "Q-9"',
    );
    expect(await act('long summer', '--remove')).toEqual({ removed: 'Long summer' });
    expect((await answer(on('seasons'))).map(({ name }: { name: string }) => name)).toEqual(['Winter']);

    // Its cars go to the bench, as far as they wait.
    await act('winter', '--to-bench');
    expect((await act('winter')).cars.map(({ state }: Car) => state)).toEqual([
      'on the bench',
      'on the bench',
    ]);
    expect(await refused(['seasons', 'winter', '--to-bench'])).toContain('No car of Winter waits');
  });
});
