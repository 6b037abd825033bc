import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { copyDemo } from '../../helpers/demo/demo-template.ts';
import { answer, playworn } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string) => join(folder, name);

/** All rows of tables, in no order and without their own numbers and instants of entering. */
const rowsOf = (collection: string, ...tables: string[]) => {
  const file = new Database(join(at(collection), 'collection.sqlite'), { readonly: true });
  const found = tables.map(table =>
    (file.prepare(`SELECT * FROM "${table}"`).all() as Record<string, unknown>[])
      .map(({ id: _, created_at: __, updated_at: ___, disposal_id: ____, identity: _____, ...row }) =>
        JSON.stringify(row),
      )
      .sort(),
  );
  file.close();
  return found;
};

const copyFrom = (from: string, to: string) => cpSync(at(from), at(to), { recursive: true });

const without = (collection: string, ...tables: string[]) => {
  const file = new Database(join(at(collection), 'collection.sqlite'));
  for (const table of tables) file.exec(`DELETE FROM "${table}"`);
  file.close();
};

const out = async (collection: string, list: string, format = 'csv') => {
  const file = at(`${collection}-${list}.${format}`);
  await answer(['export', list, '--collection', at(collection), '--out', file]);
  return file;
};
const back = (collection: string, file: string, as: string, ...more: string[]) =>
  answer(['import', file, '--as', as, '--collection', at(collection), ...more]);

describe('a list of the books that goes out and comes back', () => {
  beforeAll(async () => {
    await copyDemo(at('demo'));
    const file = new Database(join(at('demo'), 'collection.sqlite'));
    file.exec(
      `INSERT INTO lot_cost (lot_id, kind, minor, note) VALUES (1, 'carriage', 1250, 'by van; 2 boxes: "big"')`,
    );
    file.exec(`UPDATE lot SET price_from = 'cars', notes = 'two' || char(10) || 'lines' WHERE id = 2`);
    file.exec(
      `INSERT INTO expense (car_id, spent_on, what, minor, currency) VALUES (1, '2025-01-02', '=1+1 polish', 1234, 'JPY'), (1, '2025-01-02', '=1+1 polish', 1234, 'JPY')`,
    );
    file.exec(
      `INSERT OR REPLACE INTO decision (car_id, decided_on, choice, recommended, overruled, reason) VALUES (1, '2025-01-02', 'leave', 'restore', '["scarce","original finish"]', 'a "gift"')`,
    );
    file.close();
  });

  it.each(['csv', 'xlsx', 'jsonl'])('has every lot with all its costs (%s)', async format => {
    const before = rowsOf('demo', 'lot', 'lot_cost');
    const file = await out('demo', 'lots', format);
    writeFileSync(at('none.csv'), 'Car\nNone\n');
    await back(`lots-${format}`, at('none.csv'), 'lot');
    without(`lots-${format}`, 'car', 'lot');
    expect(await back(`lots-${format}`, file, 'lots')).toMatchObject({ rejected: [], duplicates: 0 });
    const plain = ([lots = [], costs = []]: string[][]) => [
      lots,
      costs.map(row => JSON.stringify({ ...JSON.parse(row), lot_id: 0 })).sort(),
    ];
    expect(plain(rowsOf(`lots-${format}`, 'lot', 'lot_cost'))).toEqual(plain(before));
    expect(await back(`lots-${format}`, file, 'lots')).toMatchObject({ accepted: 0, rejected: [] });
  });

  it.each(['csv', 'xlsx', 'jsonl'])('has every expense, disposal and decision (%s)', async format => {
    copyFrom('demo', `books-${format}`);
    const tables = ['expense', 'disposal', 'decision', 'sale_record'];
    const before = rowsOf('demo', ...tables);
    const files = await Promise.all(
      ['expenses', 'disposals', 'decisions'].map(list => out('demo', list, format)),
    );
    without(`books-${format}`, 'expense', 'decision');
    const file = new Database(join(at(`books-${format}`), 'collection.sqlite'));
    file.exec(`DELETE FROM sale_record WHERE disposal_id IS NOT NULL`);
    file.exec(`DELETE FROM disposal`);
    file.close();
    for (const [i, list] of ['expenses', 'disposals', 'decisions'].entries()) {
      const tried = await back(`books-${format}`, files[i] ?? '', list, '--dry-run');
      const taken = await back(`books-${format}`, files[i] ?? '', list);
      expect(taken).toMatchObject({ rejected: [], duplicates: 0 });
      expect(tried).toEqual(taken);
    }
    expect(rowsOf(`books-${format}`, ...tables)).toEqual(before);
    for (const [i, list] of ['expenses', 'disposals', 'decisions'].entries())
      expect(await back(`books-${format}`, files[i] ?? '', list)).toMatchObject({
        accepted: 0,
        rejected: [],
      });
  });

  it('has of sale records how far they are trusted and why they are left out', async () => {
    copyFrom('demo', 'sales');
    const file = new Database(join(at('sales'), 'collection.sqlite'));
    file.exec('UPDATE sale_record SET reliability_percent = 60 WHERE id % 7 = 0');
    file.exec(`UPDATE sale_record SET excluded = 1, excluded_why = 'a "friend"; cheap' WHERE id % 11 = 0`);
    file.close();
    const seen = (collection: string) => {
      const open = new Database(join(at(collection), 'collection.sqlite'), { readonly: true });
      const rows = open
        .prepare(
          'SELECT sold_on, price_minor, currency, reliability_percent, excluded, excluded_why FROM sale_record WHERE disposal_id IS NULL',
        )
        .all()
        .map(row => JSON.stringify(row))
        .sort();
      open.close();
      return rows;
    };
    const before = seen('sales');
    for (const format of ['csv', 'xlsx', 'jsonl']) {
      const list = await out('sales', 'sales', format);
      without('sales', 'sale_record');
      await back('sales', list, 'sales');
      expect(seen('sales'), format).toEqual(before);
    }
  });

  it('says of each row that cannot stand where and why', async () => {
    writeFileSync(
      at('wrong.csv'),
      'inventory_number,spent_on,what,amount,currency\nNOPE-1,2025-01-01,polish,1.00,USD\n,2025-01-01,polish,1.00,USD\n',
    );
    const result = await playworn([
      'import',
      at('wrong.csv'),
      '--as',
      'expenses',
      '--collection',
      at('demo'),
    ]);
    expect(result.stdout).toMatch(/Line 2, inventory_number: no car has the number NOPE-1/);
    writeFileSync(at('other.csv'), readFileSync(at('wrong.csv'), 'utf8').replace('spent_on', 'day'));
    const other = await playworn(['import', at('other.csv'), '--as', 'expenses', '--collection', at('demo')]);
    expect(other.stderr).toMatch(/not a list of expenses: it has no column "spent_on"/);
  });
});
