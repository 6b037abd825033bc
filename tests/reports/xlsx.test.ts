import { createWriteStream } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Writable } from 'node:stream';
import Excel from 'exceljs';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { writeCollectionXlsx } from '../../reports/spreadsheet/xlsx.ts';
import type { CollectionReport } from '../../reports/types.ts';
import { plainEntry, sampleEntry, sampleReport, worth } from './sample-report.ts';

let folder = '';
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'playworn-xlsx-'));
});
afterAll(() => rm(folder, { recursive: true }));

const readBack = async (report: CollectionReport): Promise<Excel.Workbook> => {
  const file = join(folder, 'report.xlsx');
  await writeCollectionXlsx(report, createWriteStream(file));
  const workbook = new Excel.Workbook();
  await workbook.xlsx.readFile(file);
  return workbook;
};
const cell = (sheet: Excel.Worksheet, row: number, heading: string): Excel.Cell => {
  const headings = sheet.getRow(1).values as string[];
  expect(headings).toContain(heading);
  return sheet.getRow(row).getCell(headings.indexOf(heading));
};

describe('the report as XLSX', () => {
  it('is the same file whenever it is written, and names no hour', async () => {
    const write = async (): Promise<Buffer> => {
      const pieces: Buffer[] = [];
      const to = new Writable({
        write(piece: Buffer, _encoding, done) {
          pieces.push(Buffer.from(piece));
          done();
        },
      });
      await writeCollectionXlsx(sampleReport([sampleEntry(0)]), to);
      return Buffer.concat(pieces);
    };
    vi.useFakeTimers({ toFake: ['Date'], now: new Date('2031-05-06T07:08:10Z') });
    const first = await write();
    vi.setSystemTime(new Date('2032-01-02T03:04:06Z'));
    const second = await write();
    vi.useRealTimers();
    expect(second.equals(first)).toBe(true);
    // Each central directory entry (APPNOTE.TXT 4.3.12) has its time and date 12 bytes in.
    const dates = new Set<string>();
    for (let at = first.indexOf('PK\u0001\u0002'); at !== -1; at = first.indexOf('PK\u0001\u0002', at + 4))
      dates.add(first.subarray(at + 12, at + 16).toString('hex'));
    expect([...dates]).toEqual(['00002100']);
  });

  it('writes amounts as numbers with their currency\u2019s decimals, dates as dates, names as text', async () => {
    const sheet = (await readBack(sampleReport([sampleEntry(0)]))).getWorksheet('Cars')!;
    expect(cell(sheet, 2, 'inventory_number').value).toBe('Q-0001');
    const mid = sampleEntry(0).worths.asFound.range!.mid;
    expect(cell(sheet, 2, 'as_found_mid')).toMatchObject({ value: mid / 100, numFmt: '#,##0.00' });
    expect(cell(sheet, 2, 'effective_date').value).toEqual(new Date('2026-11-25T00:00:00Z'));
    expect(cell(sheet, 2, 'effective_date').numFmt).toBe('yyyy-mm-dd');
  });

  it.each([
    ['JPY', '#,##0', 8000],
    ['BHD', '#,##0.000', 8],
  ])('follows the decimals of %s', async (currency, format, low) => {
    const sheet = (await readBack(sampleReport([plainEntry()], { currency }))).getWorksheet('Cars')!;
    expect(cell(sheet, 2, 'as_found_low')).toMatchObject({ value: low, numFmt: format });
  });

  it('keeps hostile text as text, without a formula and without an apostrophe', async () => {
    const hostile = ['=1+1', '+1', '-x', '@a', '<b>&"', '\u05e9\u05dc\u05d5\u05dd', '🚗', "'q", 'line\nend'];
    const sheet = (await readBack(sampleReport(hostile.map(notes => plainEntry({ notes }))))).getWorksheet(
      'Cars',
    )!;
    for (const [i, notes] of hostile.entries()) {
      expect(cell(sheet, i + 2, 'notes').type).toBe(Excel.ValueType.String);
      expect(cell(sheet, i + 2, 'notes').value).toBe(notes);
    }
  });

  it('leaves out what XML cannot hold and cuts at what a cell can', async () => {
    const report = sampleReport([
      plainEntry({ notes: 'a\0b\u0008c\ud800' }),
      plainEntry({ notes: 'x'.repeat(40_000) }),
    ]);
    const sheet = (await readBack(report)).getWorksheet('Cars')!;
    expect(cell(sheet, 2, 'notes').value).toBe('abc\ufffd');
    expect(String(cell(sheet, 3, 'notes').value)).toHaveLength(32_767);
  });

  it('keeps an amount exact that a spreadsheet number could not', async () => {
    const vast = { ...plainEntry().worths, asFound: worth(1, 2, 9_007_199_254_740_991) };
    const sheet = (await readBack(sampleReport([plainEntry({ worths: vast })]))).getWorksheet('Cars')!;
    expect(cell(sheet, 2, 'as_found_high').value).toBe('90071992547409.91');
  });

  it('tells basis, totals and cars without worth on its own sheet', async () => {
    const none = plainEntry({ worths: { ...plainEntry().worths, asFound: worth(null) } });
    const sheet = (await readBack(sampleReport([plainEntry(), none]))).getWorksheet('About')!;
    const lines = sheet.getSheetValues().slice(1) as Excel.CellValue[][];
    const about = new Map(lines.map(line => [line[1], line[2]]));
    expect(about.get('Basis of value')).toBe('fair market value');
    expect(about.get('As found, fair market value')).toBe(120);
    expect(lines.map(line => line[2])).toContain(
      '1 car has no value because there is too little evidence, and is in no total',
    );
  });

  it('stops when cancelled, and when the disk does', async () => {
    const report = sampleReport(Array.from({ length: 2500 }, (_, i) => sampleEntry(i)));
    const cancelled = new AbortController();
    const half = createWriteStream(join(folder, 'cancelled.xlsx'));
    const writing = writeCollectionXlsx(report, half, cancelled.signal);
    cancelled.abort(new Error('the owner changed their mind'));
    await expect(writing).rejects.toThrow('the owner changed their mind');
    expect(half.destroyed).toBe(true);
    const full = new Writable({ write: (_chunk, _encoding, done) => done(new Error('no space left')) });
    await expect(writeCollectionXlsx(report, full)).rejects.toThrow('no space left');
  });
});
