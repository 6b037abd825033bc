import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { answer, playworn } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
const collection = join(folder, 'collection');
const strangers = (name: string) =>
  fileURLToPath(new URL(`../../fixtures/strangers/${name}`, import.meta.url));
const file = (name: string, lines: string[]) => {
  writeFileSync(join(folder, name), lines.join('\n'));
  return join(folder, name);
};
const on = (path: string, ...more: string[]) =>
  answer(['read-sales', path, '--collection', collection, ...more]);
const recorded = () => {
  const sqlite = new Database(join(collection, 'collection.sqlite'), { readonly: true });
  try {
    return sqlite.prepare('SELECT * FROM sale_record ORDER BY id').all() as Record<string, unknown>[];
  } finally {
    sqlite.close();
  }
};

describe('sales jotted down one a line', () => {
  beforeAll(() =>
    answer(['import', strangers('reference.csv'), '--as', 'reference', '--collection', collection]),
  );
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('are read, with nothing recorded', async () => {
    const list = file('headed.csv', [
      'date,title,price',
      '3/14/26,Brackenhall Van damson C8 original nice,$61.00',
      '',
      '2/3/26,"Silver Kite w/o ramp, aqua, C5",11.75',
    ]);
    const { rows, notes } = await on(list);
    expect(notes).toEqual(['Dates with "/" are read month first, as the other lines show.']);
    expect(rows).toMatchObject([
      {
        line: 2,
        text: '3/14/26,Brackenhall Van damson C8 original nice,$61.00',
        fields: {
          casting: 'Brackenhall Van',
          colour: 'Damson',
          grade: '8',
          price: '61.00',
          sold_on: '2026-03-14',
        },
        unread: [{ column: 'title', text: 'nice' }],
        not: null,
      },
      {
        line: 4,
        fields: { missing_parts: 'accessory', price: '11.75', currency: 'USD', sold_on: '2026-02-03' },
      },
    ]);
    expect(recorded()).toEqual([]);
  });

  it('become sale records once, the rest left out with its reason', async () => {
    const list = file('seen.txt', [
      '2026-05-01 Brackenhall Van damson two lamps C6 nice $30',
      '2026-05-01 Brackenhall Van damson two lamps C6 nice $30',
      '2026-05-02 Sluice Racer red repaint $18 | Saltby toy fair',
      '2026-05-03 lot of 4 cars $40',
      '4/5/26 Silver Kite $20',
      '2026-05-04 Wobbleston Flyer green C7 $18',
    ]);
    const first = await on(list, '--add');
    expect(first).toMatchObject({ added: 3, known: 1, leftOut: 2 });
    expect(first.rows.map(({ not }: { not: string | null }) => not)).toEqual([
      null,
      null,
      null,
      'lot',
      'no date',
      null,
    ]);
    expect(first.notes).toContain('One date can be read day first or month first; say which.');
    const rows = recorded();
    expect(rows).toMatchObject([
      {
        price_minor: 3000,
        grade_half: 12,
        notes: '2026-05-01 Brackenhall Van damson two lamps C6 nice $30',
        excluded: 0,
      },
      { source: 'Saltby toy fair', excluded: 1, excluded_why: 'Its finish is not settled: "red repaint"' },
      { casting_id: null, grade_half: 14 },
    ]);
    expect(rows[0]?.variation_id).not.toBeNull();
    expect(JSON.parse(String(rows[0]?.unread))).toEqual([{ column: 'line', text: 'nice' }]);
    expect(JSON.parse(String(rows[2]?.unread))).toEqual([]);
    expect(await on(list, '--add')).toMatchObject({ added: 0, known: 4, leftOut: 2 });
    expect(await on(list, '--add', '--dates', 'dmy')).toMatchObject({ added: 1, known: 4, leftOut: 1 });
    expect(recorded()).toHaveLength(4);
  });

  it('are read with the words of a file, which must have its columns', async () => {
    const list = file('mint.txt', ['2026-05-09 Silver Kite honeycomb mint $200']);
    const words = file('words.csv', ['column,text,field,meaning', '*,mint,grade,C9.5']);
    const { rows } = await on(list, '--words', words);
    expect(rows[0]).toMatchObject({ fields: { grade: '9.5' }, unread: [] });
    const wrong = await playworn(['read-sales', list, '--collection', collection, '--words', list]);
    expect(wrong).toMatchObject({ code: 1, stderr: expect.stringContaining('lacks text, field, meaning') });
  });
});
