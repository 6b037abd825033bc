import { createWriteStream } from 'node:fs';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { collectionCsv, writeCollectionCsv } from '../../reports/spreadsheet/csv.ts';
import type { CollectionReport } from '../../reports/types.ts';
import { activeCell } from '../../valuation/reading/inert.ts';
import { plainEntry, sampleEntry, sampleReport, worth } from './sample-report.ts';

const textOf = (report: CollectionReport): string => [...collectionCsv(report)].join('');
const rowsOf = (report: CollectionReport): Record<string, string>[] =>
  Papa.parse<Record<string, string>>(textOf(report).slice(1), { header: true, skipEmptyLines: true }).data;

const lotHeadings =
  'inventory_number,casting,release_name,release_year,colour,base_paint,rear_end,roof,interior,glazing,wheels,accessory,country,grade,finish_state,location,notes';

describe('the report as CSV', () => {
  it('begins with a byte-order mark and the lot import\u2019s own columns, ends every row with CRLF', () => {
    const text = textOf(sampleReport([plainEntry()]));
    expect(text.startsWith(`\ufeff${lotHeadings},currency,as_found_low,as_found_mid,as_found_high,`)).toBe(
      true,
    );
    expect(text.endsWith('\r\n')).toBe(true);
    expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });

  it('has a heading row alone for a collection without cars', () => {
    expect(textOf(sampleReport([])).match(/\r\n/g)).toHaveLength(1);
  });

  it('writes amounts with the decimals of their currency, and nothing where there is no worth', () => {
    const amounts = (currency: string): string[] => {
      const [row] = rowsOf(
        sampleReport(
          [plainEntry({ worths: { ...plainEntry().worths, asFound: worth(5, 1234567, 2000000) } })],
          { currency },
        ),
      );
      return [row!.as_found_low!, row!.as_found_mid!, row!.as_found_high!, row!.restored_mid!];
    };
    expect(amounts('USD')).toEqual(['0.05', '12345.67', '20000.00', '']);
    expect(amounts('JPY')).toEqual(['5', '1234567', '2000000', '']);
    expect(amounts('BHD')).toEqual(['0.005', '1234.567', '2000.000', '']);
  });

  it('keeps hostile text whole and inert', () => {
    const hostile = [
      '=HYPERLINK("x")',
      '+1+1|cmd',
      '-x',
      '@a',
      '\tz',
      '\0',
      'a,"b"\r\nc',
      "'=q",
      '\u05e9\u05dc\u05d5\u05dd',
      '🚗',
    ];
    const rows = rowsOf(sampleReport(hostile.map(notes => plainEntry({ notes }))));
    for (const [i, notes] of hostile.entries()) {
      expect(activeCell(rows[i]!.notes!)).toBe(notes);
      expect(rows[i]!.notes).not.toMatch(/^[=+\-@\t\0]/);
    }
  });

  it('keeps numbers numbers', () => {
    const net = { ...plainEntry().worths, asFound: worth(-500, 100, 200) };
    expect(rowsOf(sampleReport([plainEntry({ worths: net, grade: 7.5 })]))[0]).toMatchObject({
      as_found_low: '-5.00',
      grade: '7.5',
      release_year: '1968',
    });
  });

  it('says what an owner\u2019s own figure and a restoration are, and on what basis each car stands', () => {
    const [row] = rowsOf(
      sampleReport([
        plainEntry({
          finishState: 'restored',
          restoration: { fidelity: 'with deviations', deviations: ['another colour'], completedOn: null },
          basis: 'retail replacement value',
          worths: { ...plainEntry().worths, asFound: worth(1, 2, 3, { own: true }) },
        }),
      ]),
    );
    expect(row).toMatchObject({
      finish_state: 'restored',
      restoration: 'with deviations: another colour',
      basis_of_value: 'retail replacement value',
      own_figures: 'as found',
      effective_date: '2026-11-25',
    });
  });

  it('writes a long list to a stream whole', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'playworn-csv-'));
    const report = sampleReport(Array.from({ length: 3001 }, (_, i) => sampleEntry(i)));
    await writeCollectionCsv(report, createWriteStream(join(folder, 'list.csv')));
    const { data } = Papa.parse<string[]>(await readFile(join(folder, 'list.csv'), 'utf8'), {
      skipEmptyLines: true,
    });
    expect(data).toHaveLength(3002);
    expect(data.at(-1)![0]).toBe('Q-3001');
    await rm(folder, { recursive: true });
  });
});
