import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, expect, it } from 'vitest';
import { answer } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
const collection = join(folder, 'collection');
const fixture = (name: string) => fileURLToPath(new URL(`../../fixtures/${name}`, import.meta.url));
const on = (command: string, ...args: string[]) => answer([command, ...args, '--collection', collection]);

/** Lists by ten hands, CSV and XLSX, each with how many of its rows are cars. */
const lists: [string, number][] = [
  ['strangers/sixty.csv', 60],
  ['strangers/stars.csv', 7],
  ['strangers/percent.csv', 6],
  ['strangers/two-blocks.csv', 7],
  ['strangers/no-headings.csv', 8],
  ['strangers/one-cell.csv', 9],
  ['strangers/purchases.csv', 10],
  ['strangers/german.csv', 7],
  ['other-hands/french.csv', 4],
  ['messy/barn-tin.xlsx', 9],
];
/** What the owner answers to what the longest of them asks. */
const answers = [
  'Paint,lt grn,colour,Limewash',
  'Paint,yel,colour,yellow',
  'Paint,dk blue,colour,dark blue',
  'Base,plain,base_paint,none',
  'Base,painted,base_paint,full',
  'Finish,repaint,finish_state,restored',
  'Cond.,beater,grade,C2',
  'Cond.,VG+,grade,C6.5',
  'Cond.,7+,grade,C7.5',
  'Cond.,mint,grade,C9.5',
  'Cond.,8-9,grade,C8.5',
  'Cond.,nice,grade,C7',
];

interface Imported {
  accepted: number;
  duplicates: number;
  cells: { understood: number; partly: number; unknown: number };
  rows: { line: number; outcome: string; not: string | null }[];
}

afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('ten lists by ten hands and a notebook of sales become values and decisions', {
  timeout: 600_000,
}, async () => {
  const words = join(folder, 'words.csv');
  writeFileSync(words, ['column,text,field,meaning', ...answers, ''].join('\n'));
  let taken = 0;
  for (const [name, cars] of lists) {
    const isFirst = taken === 0;
    const done: Imported = await on(
      'import',
      fixture(name),
      ...['--as', 'lot', '--name', name, '--rows'],
      ...(isFirst ? ['--words', words] : []),
    );
    const { understood, partly, unknown } = done.cells;
    const cells = understood + partly + unknown;
    console.log(
      `${name}: ${done.accepted} of ${cars} cars taken, ${done.duplicates} known, ${understood} of ${cells} cells understood`,
    );
    expect(done.accepted + done.duplicates, name).toBe(cars);
    for (const { outcome, not, line } of done.rows)
      if (outcome === 'rejected') expect(not, `${name}, line ${line}`).not.toBeNull();
    // At most twelve answers for the first sixty rows.
    if (isFirst) expect(understood / cells).toBeGreaterThanOrEqual(0.9);
    taken += done.accepted;
  }
  const sold = await on('read-sales', fixture('practice/sold.csv'), '--add');
  expect(sold.added).toBe(6);

  const { names } = await on('names');
  for (const { name } of names as { name: string }[]) await on('settle', name, '--as', 'casting');
  expect((await on('names')).names).toEqual([]);
  const { cars } = await on('value');
  const valued = (cars as { asFound: unknown }[]).filter(({ asFound }) => asFound !== null).length;
  const decided = (await on('decide')).cars as { recommendation: string; best?: object; why: string }[];
  const weighed = decided.filter(({ recommendation }) => recommendation !== 'not-enough-evidence').length;
  console.log(
    `${taken} rows taken, ${answers.length} answers about words, ${names.length} names settled: ${valued} of ${cars.length} cars valued, ${weighed} of ${decided.length} weighed.`,
  );
  expect(valued / cars.length).toBeGreaterThanOrEqual(0.8);
  expect(weighed / decided.length).toBeGreaterThanOrEqual(0.8);
  // A gain that is left lying is explained where it is named.
  const left = decided.filter(({ best }) => best);
  expect(left.length).toBeGreaterThan(0);
  for (const { why } of left) expect(why).toMatch(/ under the .* you ask for\./);
});
