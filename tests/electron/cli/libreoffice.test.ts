import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { readRfc4180 } from '../../helpers/rfc-4180.ts';
import { answer } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string) => join(folder, name);

const canConvert = ((): boolean => {
  try {
    execFileSync('soffice', ['--version'], { stdio: 'ignore' });
    return true;
  } catch {
    console.warn('SKIPPED: LibreOffice (soffice) is not installed, so no XLSX is opened by it.');
    return false;
  }
})();

describe.skipIf(!canConvert)('a list as XLSX, opened by LibreOffice', () => {
  it('has the same rows as the CSV, with typed cells and nothing that runs', async () => {
    writeFileSync(
      at('sales.csv'),
      [
        'sold_on,price,currency,casting,colour,grade,finish_state,source,reference',
        '2025-03-04,1250.50,USD,Osmerry,Ember,7.5,original,auction,"lot 7, day 2"',
        '2025-04-05,12000,JPY,Osmerry,Ember,6,restored,fair,',
        '2025-05-06,9.90,EUR,Skiffle,"sea, pale",,original,listing,=1+1',
      ].join('\r\n'),
    );
    await answer(['import', at('sales.csv'), '--as', 'sales', '--collection', at('shelf')]);
    for (const format of ['csv', 'xlsx'])
      await answer(['export', 'sales', '--collection', at('shelf'), '--out', at(`out.${format}`)]);
    execFileSync(
      'soffice',
      [
        `-env:UserInstallation=file://${at('profile')}`,
        '--headless',
        '--convert-to',
        'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false',
        '--outdir',
        at('read'),
        at('out.xlsx'),
      ],
      { stdio: 'ignore' },
    );
    const [heads = [], ...rows] = readRfc4180(readFileSync(at('out.csv'), 'utf8'));
    // It ends its lines as the system does; no cell here has several.
    const written = readFileSync(at('read/out.csv'), 'utf8').replaceAll('\n', '\r\n');
    const [readHeads, ...readRows] = readRfc4180(written);
    expect(readHeads).toEqual(heads);
    expect(readRows).toHaveLength(3);
    const column = (name: string, from: string[][]) => from.map(row => row[heads.indexOf(name)] ?? '');
    for (const name of ['currency', 'casting', 'colour', 'finish_state', 'source'])
      expect(column(name, readRows), name).toEqual(column(name, rows));
    // Amounts are written as they are shown, thousands parted.
    for (const name of ['price', 'grade'])
      expect(
        column(name, readRows).map(text => Number(text.replaceAll(',', ''))),
        name,
      ).toEqual(column(name, rows).map(Number));
    // What looks like a formula is a text: had it run, it would say 2.
    expect(column('reference', readRows).join()).toContain('=1+1');
  });
});
