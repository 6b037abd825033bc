import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { answer, playworn } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
const collection = join(folder, 'collection');
const file = (name: string, lines: string[]) => {
  writeFileSync(join(folder, name), lines.join('\n'));
  return join(folder, name);
};
const on = (...words: string[]) => answer([...words, '--collection', collection]);

const list = [
  '#,Car,Year,Colour,Cond.',
  '1,Brackenhall Van,1968,purple,7.5',
  '2,Brackenhal van,1968,purple,4',
  '3,Corriemuir Coupe,1969,lime,8',
  '4,"Coupé, Corriemuir",1969,lime,3',
  '5,Silver Kite,1970,aqua,6',
  '6,Sliver Kites,1970,aqua,2',
];
const sales = [
  '3/14/26, Brackenhall Van purple C8 original nice, $61.00',
  '2/2/26, Brackenhall Van purple beater for parts, $14.50',
  '11/20/25, brackenhall van - restored repro wheels, $28',
  '6/1/26, Corriemuir Coupe lime near mint, $120',
  '5/5/26, Corriemuir Coupe blue played with 5/10, $33.50',
  '8/8/26, Silver Kite aqua C6, $25',
];

describe('from a list and some sales to values, on an empty reference', () => {
  beforeAll(async () => {
    await on('import', file('list.csv', list), '--as', 'lot');
    await on('read-sales', file('sales.txt', sales), '--add');
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('no car has a value, and three names wait', async () => {
    const { cars } = await on('value');
    expect(cars.map((car: { asFound: unknown }) => car.asFound)).toEqual([
      null,
      null,
      null,
      null,
      null,
      null,
    ]);
    const { names } = await on('names');
    expect(
      names.map((one: { name: string; cars: number; sales: number }) => [one.name, one.cars, one.sales]),
    ).toEqual([
      ['Brackenhall Van', 2, 3],
      ['Corriemuir Coupe', 2, 2],
      ['Silver Kite', 2, 1],
    ]);
    const { stdout } = await playworn(['names', '--collection', collection]);
    expect(stdout).toContain('Brackenhal van');
  });

  it('refuses what says nothing, and names what is near', async () => {
    const unknown = await playworn(['settle', 'Corriemuir', '--as', 'casting', '--collection', collection]);
    expect(unknown.code).toBe(1);
    expect(unknown.stderr).toContain('Near it: Corriemuir Coupe');
    const both = await playworn([
      'settle',
      'Silver Kite',
      '--as',
      'casting',
      '--same-as',
      'x',
      '--collection',
      collection,
    ]);
    expect(both.stderr).toContain('Give one of --as, --same-as and --release-of');
    const none = await playworn([
      'settle',
      'Silver Kite',
      '--same-as',
      'Silver Kite',
      '--collection',
      collection,
    ]);
    expect(none.stderr).toContain('There is no casting "Silver Kite" in the reference');
  });

  it('three answers settle the names, and every car has three values', async () => {
    expect(await on('settle', 'BRACKENHAL  Van', '--as', 'casting', '--series', 'Slipwinds')).toMatchObject({
      casting: 'Brackenhall Van',
      cars: 2,
      sales: 3,
    });
    expect(await on('settle', 'corriemuir coupe', '--as', 'casting', '--series', 'Slipwinds')).toMatchObject({
      cars: 2,
      sales: 2,
    });
    expect(await on('settle', 'silver kite', '--release-of', 'Corriemuir Coupé')).toMatchObject({
      casting: 'Corriemuir Coupe',
      cars: 2,
      sales: 1,
    });
    expect((await on('names')).names).toEqual([]);
    const { cars } = await on('value');
    for (const { asFound, restored, originalFinish } of cars)
      for (const range of [asFound, restored, originalFinish]) expect(Number(range.mid)).toBeGreaterThan(0);
  });
});
