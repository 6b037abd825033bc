import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';
import { answer, playworn } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
const collection = join(folder, 'collection');
const practice = (name: string) => fileURLToPath(new URL(`../../fixtures/practice/${name}`, import.meta.url));
const on = (command: string, ...args: string[]) => answer([command, ...args, '--collection', collection]);

interface Car {
  asFound: { low: string; mid: string; high: string } | null;
}
const valued = async () => {
  const { cars, helpful } = await on('value');
  return {
    cars: (cars as Car[]).filter(({ asFound }) => asFound !== null).length,
    helpful: helpful as { kind: string; cars: number; sentence: string }[],
  };
};

afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('a list and six jotted sales of a stranger become values and decisions in a few commands', {
  timeout: 600_000,
}, async () => {
  const list = practice('my-cars.csv');
  const imported = await on('import', list, '--as', 'lot');
  expect(imported).toMatchObject({ accepted: 7, duplicates: 0 });
  let answers = 0;

  const nothing = await valued();
  expect(nothing.cars).toBe(0);
  expect(nothing.helpful.map(({ kind }) => kind)).toEqual(['name', 'name', 'name']);

  expect(await on('read-sales', practice('sold.csv'), '--add')).toMatchObject({ added: 6, leftOut: 0 });
  const sold = await valued();
  expect(sold.helpful[0]).toMatchObject({
    kind: 'name',
    cars: 3,
    sentence: 'Settle the name “Corriemuir Coupe”: 3 cars get a value.',
  });
  const text = (await playworn(['value', '--collection', collection])).stdout;
  expect(text).toContain('What would help the most:\n  Settle the name “Corriemuir Coupe”');

  await on('settle', 'Corriemuir Coupe', '--as', 'casting');
  answers += 1;
  expect((await valued()).cars).toBe(3);
  for (const name of ['Brackenhall Van', 'Silver Kite']) {
    await on('settle', name, '--as', 'casting');
    answers += 1;
  }
  // The one that somebody has repainted waits until its owner says what that makes of it.
  expect(await valued()).toEqual({ cars: 6, helpful: [] });

  const words = join(folder, 'words.csv');
  writeFileSync(
    words,
    'column,text,field,meaning\n*,plain,base_paint,none\n*,mint,grade,C9.5\n*,beater,grade,C2\n*,repainted by someone,finish_state,customised\n',
  );
  await on('import', list, '--as', 'lot', '--words', words);
  answers += 4;
  const { cars } = await on('value');
  expect((cars as { grade: number | null }[]).every(({ grade }) => grade !== null)).toBe(true);

  const decided = await on('decide');
  expect(decided.helpful).toEqual([]);
  const known = (decided.cars as { recommendation: string }[]).filter(
    ({ recommendation }) => recommendation !== 'not-enough-evidence',
  );
  expect(known).toHaveLength(7);
  console.log(`The first hour on the command line: 7 of 7 cars valued and weighed after ${answers} answers.`);
});

it('a belief gives as many cars a value as it was said to', async () => {
  const own = join(folder, 'believed');
  const at = (command: string, ...args: string[]) => answer([command, ...args, '--collection', own]);
  const list = join(folder, 'tractors.csv');
  writeFileSync(list, 'Car,Cond.\nMoorcot Tractor,6\nMoorcot Tractor,4\n');
  await at('import', list, '--as', 'lot');
  await at('settle', 'Moorcot Tractor', '--as', 'casting', '--series', 'Farmyard', '--maker', 'Quillon Toys');
  const { helpful } = await at('value');
  expect(helpful).toMatchObject([
    { kind: 'belief', series: 'Farmyard', grade: 5, cars: 2 },
    { kind: 'sales', casting: 'Moorcot Tractor', sales: 1, cars: 2 },
  ]);
  expect(helpful[0].sentence).toBe('Say what a common Farmyard in about C5 brings: 2 cars get a value.');
  await at('believe', '--series', 'Farmyard', '--grade', 'C5', '--low', '20', '--high', '35');
  const after = await at('value');
  expect(after.helpful).toEqual([]);
  expect((after.cars as Car[]).every(({ asFound }) => asFound !== null)).toBe(true);
});
