import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { answer, playworn } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const collection = join(folder, 'collection');
const file = (name: string, text: string): string => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
const list = file(
  'list.csv',
  'My cars,,,,,\n\n#,Car,Yr,Paint,Cond.,Base\n1,Brackenhall Van,68,purple,7.5,painted front\n2,Silver Kite,70,aqua,beater,plain\n3,Silver Kite,,lime,4,plain\nTOTAL,,,,,3 cars\n',
);
const on = (...args: string[]) => [...args, '--collection', collection];

describe('the command line', () => {
  it('tells of every line what was understood of it, and leaves nothing behind', async () => {
    const { rows, not_understood } = await answer(on('import', list, '--as', 'lot', '--dry-run', '--rows'));
    expect(rows.map(({ line, outcome, not }: Record<string, unknown>) => [line, outcome, not])).toEqual([
      [1, 'rejected', 'a title'],
      [3, 'rejected', 'headings'],
      [4, 'accepted', null],
      [5, 'accepted', null],
      [6, 'accepted', null],
      [7, 'rejected', 'a total'],
    ]);
    expect(rows[2]).toMatchObject({
      sheet: null,
      fields: {
        casting: 'Brackenhall Van',
        release_year: 1968,
        colour: 'purple',
        grade: 7.5,
        base_paint: 'front quarter',
      },
      unread: [],
    });
    expect(rows[3].fields).not.toHaveProperty('grade');
    expect(rows[3].unread).toContainEqual({ column: 'Base', text: 'plain' });
    expect(not_understood).toEqual([
      { column: 'Base', text: 'plain', field: 'base_paint', meaning: 'none', count: 2, lines: [5, 6] },
      { column: 'Cond.', text: 'beater', field: 'grade', meaning: 'C2', count: 1, lines: [5] },
    ]);
    expect(existsSync(collection)).toBe(false);
  });

  it('writes what it asks in the form in which it takes the answers, and settles with them what it has imported', async () => {
    const asked = join(folder, 'asked.csv');
    await answer(on('import', list, '--as', 'lot', '--not-understood', asked));
    expect(readFileSync(asked, 'utf8')).toBe(
      'column,text,field,meaning\nBase,plain,base_paint,none\nCond.,beater,grade,C2\n',
    );
    expect(await answer(on('words', asked))).toMatchObject({
      added: 2,
      settled: { cars: 2, sales: 0 },
      waiting: [],
    });
    const out = join(folder, 'words.csv');
    await answer(on('export', 'words', '--out', out));
    const again = await answer(on('import', list, '--as', 'lot', '--words', out));
    expect(again).toMatchObject({ accepted: 0, duplicates: 3, not_understood: [] });
  });

  it('refuses a meaning that its field does not have, with the line on which it stands', async () => {
    const wrong = file('wrong.csv', 'column,text,field,meaning\n*,mint,grade,lovely\n');
    const refused = await playworn(on('words', wrong));
    expect(refused).toMatchObject({ code: 1, stderr: expect.stringContaining('line 2, "mint"') });
  });
});
