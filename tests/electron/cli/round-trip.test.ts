import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Papa from 'papaparse';
import { afterAll, describe, expect, it } from 'vitest';
import { copyDemo } from '../../helpers/demo/demo-template.ts';
import { answer, playworn } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string) => join(folder, name);

/**
 * What a list of cars brings: every column of the export that is the owner's own, and not worked
 * out or the lot's.
 */
const own =
  'inventory_number maker series casting release_name release_year colour body_finish base_paint rear_end roof interior glazing wheels accessory country grade finish_state status location bought_on seller price_paid price_paid_currency notes own_estimate purchase_left_out parts documented_on worn_colour worn_finish restorer_mark'.split(
    ' ',
  );

const rowsOf = (file: string) => {
  const { data } = Papa.parse<Record<string, string>>(readFileSync(file, 'utf8').replace('\ufeff', ''), {
    header: true,
    skipEmptyLines: true,
  });
  return data.map(row => Object.fromEntries(own.map(column => [column, row[column]])));
};

const carriedOver = async (from: string, format: 'csv' | 'xlsx') => {
  const list = at(`${from}.${format}`);
  await answer(['report', '--collection', at(from), '--out', list]);
  const taken = await answer(['import', list, '--as', 'lot', '--collection', at(`${from}-${format}`)]);
  expect(taken.rejected).toEqual([]);
  const before = at(`${from}-before.csv`);
  const after = at(`${from}-${format}-after.csv`);
  await answer(['report', '--collection', at(from), '--out', before]);
  await answer(['report', '--collection', at(`${from}-${format}`), '--out', after]);
  return { taken, before: rowsOf(before), after: rowsOf(after) };
};

describe('a list that goes out and comes back', () => {
  it('has every car of the demo with all that its owner wrote, as CSV and as XLSX', async () => {
    await copyDemo(at('demo'));
    for (const format of ['csv', 'xlsx'] as const) {
      const { taken, before, after } = await carriedOver('demo', format);
      expect(before.length).toBeGreaterThan(70);
      expect(taken.accepted).toBe(before.length);
      expect(before.every(row => own.every(column => row[column] !== undefined))).toBe(true);
      expect(after).toEqual(before);
    }
  });

  it('has the words of cars that nobody could identify, odd ones included', async () => {
    const list = at('odd.csv');
    writeFileSync(
      list,
      [
        'No,Casting,Release,Year,Colour,Base paint,Wheels,Notes,Paid,Bought on,Seller',
        `1,Skiffle,Skiffle Two,1969,lt grn,rear quarter,repro,"''=two",12.50,2024-05-04,Anna`,
        `2,,,,green?,,,"'=1+1",EUR 7,,`,
        `3,Osmerry,,,Ember,full,,"two\nlines, a ""quoted"" one"`,
        `4,,,,,,,`,
      ].join('\r\n'),
    );
    await answer(['import', list, '--as', 'lot', '--collection', at('odd'), '--currency', 'USD']);
    const { taken, before, after } = await carriedOver('odd', 'csv');
    // What was worked out, such as "fair market value", is no word of the owner's.
    expect(taken.not_understood.map(({ text }: { text: string }) => text)).toEqual(['lt grn', 'green?']);
    expect(
      before.map(row => [row.casting, row.release_name, row.release_year, row.colour, row.base_paint]),
    ).toEqual([
      ['Skiffle', 'Skiffle Two', '1969', 'lt grn', 'rear quarter'],
      ['', '', '', 'green?', ''],
      ['Osmerry', '', '', 'Ember', 'full'],
      ['', '', '', '', ''],
    ]);
    expect(before.map(row => [row.bought_on, row.seller, row.price_paid, row.price_paid_currency])).toEqual([
      ['2024-05-04', 'Anna', '12.50', 'USD'],
      ['', '', '7.00', 'EUR'],
      ['', '', '', ''],
      ['', '', '', ''],
    ]);
    expect(after).toEqual(before);
  });

  it('has every car as JSON lines', async () => {
    await copyDemo(at('demo-for-lines'));
    const out = async (from: string, format: string, list = 'cars') => {
      const file = at(`${from}-${list}.${format}`);
      await answer(['export', list, '--collection', at(from), '--out', file]);
      return file;
    };
    const file = await out('demo-for-lines', 'jsonl');
    const taken = await answer(['import', file, '--as', 'lot', '--collection', at('demo-jsonl')]);
    expect(taken.rejected).toEqual([]);
    // What makes a car a sold one is its line in the list of disposals.
    const disposals = await out('demo-for-lines', 'jsonl', 'disposals');
    await answer(['import', disposals, '--as', 'disposals', '--collection', at('demo-jsonl')]);
    const before = rowsOf(await out('demo-for-lines', 'csv'));
    expect(before.length).toBeGreaterThan(70);
    expect(rowsOf(await out('demo-jsonl', 'csv'))).toEqual(before);
    const broken = at('broken.jsonl');
    writeFileSync(broken, '{"casting":"Osmerry"}\n{"casting":\n');
    const refused = await playworn(['import', broken, '--as', 'lot', '--collection', at('demo-jsonl')]);
    expect(refused.stderr).toMatch(/Line 2 is not JSON/);
  });

  it('is read as its owner says: characters, order of dates, decimal sign', async () => {
    const list = at('sales.csv');
    writeFileSync(
      list,
      Buffer.from(
        'date;price;car;where\n03/04/2021;1.250;Osmerry;caf\xe9 \x9e\n05/06/2021;12,50;Osmerry;fair\n',
        'latin1',
      ),
    );
    const read = async (...more: string[]) =>
      answer(
        [
          'import',
          list,
          '--as',
          'sales',
          '--add-reference',
          '--dry-run',
          '--collection',
          at('none'),
          ...more,
        ],
        more.length === 0 ? undefined : 0,
      );
    const unsaid = await playworn([
      'import',
      list,
      '--as',
      'sales',
      '--add-reference',
      '--dry-run',
      '--collection',
      at('none'),
    ]);
    expect(unsaid.stdout).toMatch(/Line 2, date: "03\/04\/2021" can be read day first or month first/);
    expect(await read('--dates', 'mdy', '--encoding', 'windows-1252')).toMatchObject({ accepted: 2 });
    const pointed = await read('--dates', 'dmy', '--decimal', 'point');
    expect(pointed.rejected).toMatchObject([
      { line: 3, reason: expect.stringContaining('does not fit the decimal sign') },
    ]);
    const unknown = await playworn([
      'import',
      list,
      '--as',
      'sales',
      '--collection',
      at('none'),
      '--dates',
      'day',
    ]);
    expect([unknown.code, unknown.stderr]).toEqual([2, expect.stringContaining('dmy')]);
  });
});
