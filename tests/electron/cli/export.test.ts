import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { TextWriter, Uint8ArrayReader, ZipReader } from '@zip.js/zip.js';
import Excel from 'exceljs';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runAction } from '../../../db/history/history.ts';
import { createCollection, openCollection } from '../../../db/open-collection.ts';
import { saveView } from '../../../db/records/collection/saved-views.ts';
import { at as now } from '../../helpers/collections.ts';
import { contentHash, referenceTables } from '../../helpers/content-hash.ts';
import { readRfc4180 } from '../../helpers/rfc-4180.ts';
import { answer, playworn } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string) => join(folder, name);

const reference = [
  'maker,series,casting,release_name,release_year,colour,body_finish,base_paint,rear_end,roof,interior,glazing,wheels,accessory,country,rarity',
  'Quillon Toys,Weir,Osmerry,Osmerry,1969,Ember,candy lacquer,none,bar lamp,plain,ivory,clear,dished disc,,England,common',
  'Quillon Toys,Weir,Osmerry,Osmerry,1969,Ember,candy lacquer,full,bar lamp,plain,ivory,clear,dished disc,,England,scarce',
  '=Quillon Toys,Weir,Skiffle,"Skiffle ""Two""",1970,Tidepool,enamel,none,,,white,clear,slotted plate,sail,England,',
];
const sales = [
  'sold_on,price,currency,casting,colour,base_paint,grade,finish_state,missing_parts,reproduction_parts,source,reference',
  '2025-03-04,1250.50,USD,Osmerry,Ember,full,7.5,original,,wheels,auction,"lot 7, day 2"',
  '2025-04-05,12000,JPY,Osmerry,Ember,none,6,restored,roof; interior,,fair,',
  '2025-05-06,9.90,EUR,Skiffle,"sea, pale",,,original,,,listing,=1+1',
];

const out = (list: string, format: string, from = 'shelf') => {
  const file = at(`${from}-${list}.${format}`);
  return answer(['export', list, '--collection', at(from), '--out', file]).then(made => ({ file, made }));
};

describe('a list that goes out whole', () => {
  beforeAll(async () => {
    writeFileSync(at('reference.csv'), reference.join('\r\n'));
    writeFileSync(at('sales.csv'), sales.join('\r\n'));
    await answer(['import', at('reference.csv'), '--as', 'reference', '--collection', at('shelf')]);
    await answer(['import', at('sales.csv'), '--as', 'sales', '--collection', at('shelf')]);
  });

  it('is CSV after RFC 4180 with our import’s headings, and nothing in it can run', async () => {
    const { file, made } = await out('reference', 'csv');
    expect(made).toMatchObject({ list: 'reference', rows: 3 });
    const rows = readRfc4180(readFileSync(file, 'utf8'));
    // The year of a casting follows from its first release.
    expect(rows[0]!.join(',')).toBe(`${reference[0]},first_year`);
    expect(rows.slice(1).map(row => [row[0], row[3], row[7], row[15]])).toEqual([
      ["'=Quillon Toys", 'Skiffle "Two"', 'none', ''],
      ['Quillon Toys', 'Osmerry', 'none', 'common'],
      ['Quillon Toys', 'Osmerry', 'full', 'scarce'],
    ]);
  });

  it('is XLSX with typed cells and a frozen heading', async () => {
    const { file } = await out('sales', 'xlsx');
    const workbook = new Excel.Workbook();
    await workbook.xlsx.readFile(file);
    const sheet = workbook.getWorksheet('Sales')!;
    expect(sheet.views[0]).toMatchObject({ state: 'frozen', ySplit: 1 });
    const heads = (sheet.getRow(1).values as string[]).slice(1);
    const cell = (row: number, name: string) => sheet.getRow(row).getCell(heads.indexOf(name) + 1);
    expect(cell(2, 'sold_on').value).toEqual(new Date('2025-05-06T00:00:00Z'));
    expect([2, 3, 4].map(row => [cell(row, 'price').value, cell(row, 'price').numFmt])).toEqual([
      [9.9, '#,##0.00'],
      [12_000, '#,##0'],
      [1250.5, '#,##0.00'],
    ]);
    expect(cell(4, 'grade').value).toBe(7.5);
    expect(cell(2, 'reference').value).toBe('=1+1');
    expect(cell(2, 'reference').formula).toBeUndefined();
    expect(cell(2, 'colour').value).toBe('sea, pale');
  });

  it('is JSON lines with amounts as decimal strings, and null where nothing is known', async () => {
    const { file } = await out('sales', 'jsonl');
    const rows = readFileSync(file, 'utf8')
      .trimEnd()
      .split('\n')
      .map(line => JSON.parse(line));
    expect(
      rows.map(({ price, currency, grade, missing_parts }) => [price, currency, grade, missing_parts]),
    ).toEqual([
      ['9.90', 'EUR', null, null],
      ['12000', 'JPY', 6, 'roof; interior'],
      ['1250.50', 'USD', 7.5, null],
    ]);
  });

  it('comes back equal: the reference', async () => {
    const before = readFileSync((await out('reference', 'csv')).file, 'utf8');
    for (const format of ['csv', 'xlsx', 'jsonl']) {
      const { file } = await out('reference', format);
      await answer(['import', file, '--as', 'reference', '--collection', at(`again-${format}`)]);
      const again = await out('reference', 'csv', `again-${format}`);
      expect(readFileSync(again.file, 'utf8'), format).toBe(before);
    }
  });

  it.each(['cars', 'sales', 'reference', 'lots', 'expenses', 'disposals', 'decisions', 'jobs'])(
    'has its headings alone where there is nothing: %s',
    async list => {
      if (list === 'cars') await createCollection(at('empty'), { at: now, reportingCurrency: 'USD' });
      const { file, made } = await out(list, 'csv', 'empty');
      expect(made.rows).toBe(0);
      expect(readRfc4180(readFileSync(file, 'utf8'))).toHaveLength(1);
    },
  );

  it('is shared as one file with a description, the same bytes each time, and nothing of the owner’s cars', async () => {
    writeFileSync(
      at('cars.csv'),
      'Car,Colour,Grade,Notes\nOsmerry,Ember,7,found in the attic of E. Tarrow\n',
    );
    await answer(['import', at('cars.csv'), '--as', 'lot', '--collection', at('shelf')]);
    const share = async (name: string) => {
      await answer(['share', '--collection', at('shelf'), '--out', at(name)]);
      return readFileSync(at(name));
    };
    const bytes = await share('market.zip');
    expect(await share('market-2.zip')).toEqual(bytes);
    const texts: Record<string, string> = {};
    const reader = new ZipReader(new Uint8ArrayReader(bytes), { useWebWorkers: false });
    for (const entry of await reader.getEntries())
      if (!entry.directory) texts[entry.filename] = await entry.getData(new TextWriter());
    expect(Object.keys(texts)).toEqual(['datapackage.json', 'reference.csv', 'sales.csv']);
    const described = JSON.parse(texts['datapackage.json']!);
    for (const { path, schema } of described.resources)
      expect(schema.fields.map((field: { name: string }) => field.name)).toEqual(
        readRfc4180(texts[path]!)[0],
      );
    expect(readRfc4180(texts['sales.csv']!)).toHaveLength(1 + 3);
    expect(Object.values(texts).join('')).not.toMatch(/attic|Tarrow/);
  });

  it('is taken in by a friend: new records added, known ones recognised, one action', async () => {
    const taken = await answer(['import', at('market.zip'), '--as', 'market', '--collection', at('friend')]);
    expect(taken).toMatchObject({ reference: { accepted: 3 }, sales: { accepted: 3 } });
    for (const list of ['reference', 'sales'])
      expect(readFileSync((await out(list, 'csv', 'friend')).file, 'utf8')).toBe(
        readFileSync((await out(list, 'csv')).file, 'utf8'),
      );
    const market = {
      tables: [...referenceTables, 'sale_record'],
      // What is written of a car that is identified goes out by its names in the reference.
      without: ['sale_record.as_written'],
    };
    expect(contentHash(at('friend'), market)).toBe(contentHash(at('shelf'), market));
    expect(contentHash(at('friend'))).not.toBe(contentHash(at('shelf')));
    const again = await answer(['import', at('market.zip'), '--as', 'market', '--collection', at('friend')]);
    expect(again).toMatchObject({
      reference: { accepted: 0, duplicates: 3 },
      sales: { accepted: 0, duplicates: 3 },
    });
    writeFileSync(at('letter.zip'), 'dear');
    const refused = await playworn([
      'import',
      at('letter.zip'),
      '--as',
      'market',
      '--collection',
      at('none'),
    ]);
    expect(refused).toMatchObject({ code: 1, stderr: expect.stringContaining('not a shared market') });
    expect(existsSync(at('none'))).toBe(false);
  });

  it('goes out as a saved view shows it, by its name', async () => {
    const { file } = await out('sales', 'csv');
    const collection = await openCollection(at('shelf'), { at: now, host: 'command line' });
    const query = 'finish=original&sort=price&columns=price,casting';
    await runAction(collection, 'Saved a view', now, trx =>
      saveView(trx, { list: 'sales', name: 'Cheap', body: JSON.stringify({ query, named: {} }), at: now }),
    );
    await collection.close({ at: now });
    const view = (list: string, name: string) =>
      playworn(['export', list, '--collection', at('shelf'), '--out', at('view.csv'), '--view', name]);
    expect((await view('sales', 'cheap')).code).toBe(0);
    const whole = readRfc4180(readFileSync(file, 'utf8'));
    expect(whole).toHaveLength(4);
    expect(readRfc4180(readFileSync(at('view.csv'), 'utf8'))).toEqual([
      ['sold_on', 'price', 'currency', 'casting', 'finish_state'],
      ['2025-05-06', '9.90', 'EUR', 'Skiffle', 'original'],
      ['2025-03-04', '1250.50', 'USD', 'Osmerry', 'original'],
    ]);
    expect((await view('sales', 'Dear')).stderr).toMatch(/No view of sales is called "Dear".*Cheap/);
    // Of a list about cars, what a view of cars shows.
    expect((await view('expenses', 'Cheap')).stderr).toMatch(/There is no saved view of cars/);
    expect((await view('lots', 'Cheap')).stderr).toMatch(/saved views of cars and of sales, not of lots/);
  });

  it('refuses a list or a form that there is not, as wrong use', async () => {
    for (const args of [
      ['export', 'wishes', '--out', at('x.csv')],
      ['export', 'sales', '--out', at('x.doc')],
    ])
      expect((await playworn([...args, '--collection', at('shelf')])).code).toBe(2);
  });
});
