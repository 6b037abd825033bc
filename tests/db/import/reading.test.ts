import ExcelJS from 'exceljs';
import { describe, expect, it } from 'vitest';
import { openTable } from '../../../db/import/files/table.ts';
import {
  ImportFileError,
  type ImportKind,
  type ImportOptions,
  type TableRow,
} from '../../../db/import/index.ts';
import { fileOf } from './importing.ts';

const open = (
  content: string | Uint8Array<ArrayBuffer>,
  options: Partial<ImportOptions> = {},
  name?: string,
) => {
  const file = fileOf(content, name);
  const as: ImportKind = 'lot';
  return openTable(file, file.name, { as, map: {}, decimal: {}, dateOrder: {}, ...options });
};

/** Every row of the list; titles and headings are left out. */
const all = async (rows: AsyncGenerator<TableRow[]>): Promise<TableRow[]> => {
  const list: TableRow[] = [];
  for await (const batch of rows) list.push(...batch.filter(row => row.not === undefined));
  return list;
};

const utf16 = (text: string, big: boolean, mark: boolean): Uint8Array<ArrayBuffer> => {
  const bytes = Buffer.from((mark ? '\ufeff' : '') + text, 'utf16le');
  return new Uint8Array(big ? bytes.swap16() : bytes);
};

describe('a CSV file', () => {
  const text = 'casting,colour,notes\nOsmerry,Café,“ok”\n';

  it('is read in the encoding that its bytes show, and says how that was found', async () => {
    const cases: [Uint8Array<ArrayBuffer>, RegExp][] = [
      [new Uint8Array(Buffer.from(text)), /^utf-8 \(it is valid UTF-8\)/],
      [new Uint8Array(Buffer.from(`\ufeff${text}`)), /^utf-8 \(it begins with the UTF-8 mark\)/],
      [utf16(text, false, true), /^utf-16le \(it begins with the UTF-16 mark\)/],
      [utf16(text, true, true), /^utf-16be \(it begins with the UTF-16 mark\)/],
      [utf16(text, false, false), /^utf-16le \(every second byte is zero\)/],
      [utf16(text, true, false), /^utf-16be \(every second byte is zero\)/],
    ];
    for (const [bytes, how] of cases) {
      const table = await open(bytes);
      expect(`${table.encoding} (${table.encodingBecause})`).toMatch(how);
      expect(table.headings).toEqual(['casting', 'colour', 'notes']);
      expect((await all(table.rows()))[0]?.cells).toEqual(['Osmerry', 'Café', '“ok”']);
      expect(table.warnings).toEqual([]);
    }
  });

  it('that is no UTF-8 is read as Windows-1252, with a warning', async () => {
    const bytes = Uint8Array.from(
      [...text].map(sign => ({ '“': 0x93, '”': 0x94 })[sign] ?? sign.charCodeAt(0)),
    );
    const table = await open(bytes);
    expect(table.encoding).toBe('windows-1252');
    expect(table.encodingBecause).toBe('it is not valid UTF-8');
    expect(table.warnings.join()).toContain('Windows-1252');
    expect((await all(table.rows()))[0]?.cells).toEqual(['Osmerry', 'Café', '“ok”']);
  });

  it('has the separator found that fits most lines, or the one that is chosen', async () => {
    for (const separator of [',', ';', '\t', '|'] as const) {
      const table = await open(`casting${separator}notes\nOsmerry${separator}a\n`);
      expect(table.separator).toBe(separator);
    }
    const amounts = 'casting;notes\nOsmerry;1,5\nHalcyard;2,5, or 3\n';
    expect((await open(amounts)).separator).toBe(';');
    const table = await open(amounts, { separator: ',' });
    expect(table.separator).toBe(',');
    expect((await all(table.rows())).map(row => row.cells[0])).toEqual(['Osmerry;1', 'Halcyard;2']);
  });

  it('of one column is read, with the doubt said', async () => {
    const table = await open('casting\nOsmerry\nHalcyard\n');
    expect(table.headings).toEqual(['casting']);
    expect(await all(table.rows())).toHaveLength(2);
    expect(table.warnings.join()).toContain('separator is not certain');
  });

  it('numbers its lines as a spreadsheet does: a row is one, however many lines its cells have, and blank ones count', async () => {
    for (const newline of ['\n', '\r\n', '\r']) {
      const table = await open(
        [
          'casting,notes',
          'Osmerry,"two',
          'lines"',
          '',
          'Halcyard,"a ""quoted"" one"',
          'Isobar,"three',
          '',
          'lines"',
          'Ashlock,',
        ].join(newline),
      );
      const rows = await all(table.rows());
      const filled = rows.filter(row => row.cells.some(cell => cell !== ''));
      expect(filled.map(row => [row.line, row.cells[0]])).toEqual([
        [2, 'Osmerry'],
        [4, 'Halcyard'],
        [5, 'Isobar'],
        [6, 'Ashlock'],
      ]);
      expect(filled[1]?.cells[1]).toBe('a "quoted" one');
    }
  });

  it('of which a quotation mark swallowed rows has the swallowing row marked, with its line', async () => {
    const faults = async (text: string) =>
      (await all((await open(text)).rows())).flatMap(row => (row.fault ? [[row.line, row.fault]] : []));
    const closed = 'no,casting,notes\n1,Osmerry,"open\n2,Halcyard,b\n3,Isobar,c"\n4,Ashlock,d\n';
    expect(await faults(closed)).toEqual([[2, expect.stringContaining('closed only on line 4')]]);
    const inch = 'no,casting,notes\n1,Osmerry,"12" wheel\n2,Halcyard,"b"\n3,Isobar,c\n';
    expect(await faults(inch)).toEqual([[2, expect.stringContaining('closed only on line 3')]]);
    const fine =
      'no,casting,notes\n1,Osmerry,"bought from Anna,\nwith its box, and papers"\n2,"The "Big" one",c\n';
    expect(await faults(fine)).toEqual([]);
  });

  it('may have a cell of a million characters, which is no unclosed quotation mark', async () => {
    const long = 'x'.repeat(1_000_000);
    const table = await open(`casting,notes\nOsmerry,"${long}"\nHalcyard,b\n`);
    const rows = await all(table.rows());
    expect(rows.map(row => row.cells[1]?.toString().length)).toEqual([1_000_000, 1]);
    const endless = open(`casting,notes\nOsmerry,"${'x\n'.repeat(4_500_000)}`).then(({ rows: read }) =>
      all(read()),
    );
    await expect(endless).rejects.toThrow(/Line 2: a row here is longer than 8 million characters/);
  });

  it('with a single spoilt byte stays UTF-8, and says where the byte lies', async () => {
    const bytes = new Uint8Array(Buffer.from('casting,notes\nOsmerry,café à la Zoë\nHalcyard,x?y\n'));
    bytes[bytes.indexOf('?'.charCodeAt(0))] = 0xe9;
    const table = await open(bytes);
    expect(table.encoding).toBe('utf-8');
    expect(table.warnings.join()).toMatch(/1 bytes are not UTF-8, the first on line 3/);
    expect((await all(table.rows()))[0]?.cells[1]).toBe('café à la Zoë');
  });

  it('has its headings found where they were mapped, and not in a row of answers', async () => {
    const mapped = await open('My list\n\nTag,What is it\nB-1,Osmerry\n', {
      map: { Tag: 'inventory_number', 'What is it': 'casting' },
    });
    expect([mapped.headingLine, mapped.headings]).toEqual([3, ['Tag', 'What is it']]);
    const answers = await open('Tag,What is it,Painted?\nB-1,Osmerry,no\nB-2,Halcyard,rear\n');
    expect(answers.headingLine).toBe(1);
  });

  it('has the mark that makes a cell inert taken off, and nothing else', async () => {
    const table = await open(`casting,notes\n'=1+1,'tis\n'-5,'''=two\n'x,"'\r=1"\n`);
    expect((await all(table.rows())).map(row => row.cells)).toEqual([
      ['=1+1', "'tis"],
      ['-5', "''=two"],
      ["'x", '\r=1'],
    ]);
  });

  it('may have titles and blank lines above its headings', async () => {
    const table = await open('My cars,,\nas of March,,\n,,\nNo.,Car,Color\n1,Osmerry,Ember\n');
    expect(table.headingLine).toBe(4);
    expect(table.headings).toEqual(['No.', 'Car', 'Color']);
    expect(await all(table.rows())).toHaveLength(1);
  });

  it('has headings told apart that stand twice or are empty', async () => {
    const table = await open('casting,Notes,notes,,\nOsmerry,a,b,c,d\n');
    expect(table.headings).toEqual(['casting', 'Notes', 'notes (2)', 'column 4', 'column 5']);
    expect(table.warnings.join()).toContain('appears more than once');
  });

  it('is refused with a plain reason where it is no table', async () => {
    const refusals: [string | Uint8Array<ArrayBuffer>, RegExp][] = [
      ['', /is empty/],
      ['\n\n  \n', /holds no rows/],
      [Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0, 0]), /old \.xls/],
      ['%PDF-1.7\n', /is a PDF/],
      [Uint8Array.from([0x50, 0x4b, 3, 4, 1, 2, 3]), /cannot be read as a spreadsheet|holds no filled sheet/],
    ];
    for (const [content, reason] of refusals) {
      const refusal = open(content);
      await expect(refusal).rejects.toThrow(ImportFileError);
      await expect(refusal).rejects.toThrow(reason);
    }
  });
});

describe('an XLSX file', () => {
  const book = async (fill: (book: ExcelJS.Workbook) => void): Promise<Uint8Array<ArrayBuffer>> => {
    const workbook = new ExcelJS.Workbook();
    fill(workbook);
    return new Uint8Array(await workbook.xlsx.writeBuffer());
  };

  it('gives numbers, dates, formulas, rich text and links as what they show', async () => {
    const bytes = await book(workbook => {
      const sheet = workbook.addWorksheet('Cars');
      sheet.addRow(['casting', 'grade', 'notes', 'location', 'colour', 'rear_end']);
      sheet.addRow([
        { richText: [{ text: 'Os' }, { text: 'merry', font: { bold: true } }] },
        7.5,
        { formula: 'B2*2', result: 15 },
        new Date(Date.UTC(2026, 2, 14)),
        { text: 'Ember', hyperlink: 'https://example.com/' },
        true,
      ]);
    });
    const table = await open(bytes, {}, 'cars.xlsx');
    const [row] = await all(table.rows());
    expect(row?.line).toBe(2);
    expect(row?.cells).toEqual(['Osmerry', 7.5, 15, new Date(Date.UTC(2026, 2, 14)), 'Ember', true]);
  });

  it('has all its filled sheets read, or the one that is chosen', async () => {
    const bytes = await book(workbook => {
      workbook.addWorksheet('Empty');
      workbook.addWorksheet('Cars').addRows([['casting'], ['Osmerry']]);
      workbook.addWorksheet('Old').addRows([['casting'], ['Halcyard'], ['Isobar']]);
    });
    const table = await open(bytes, {}, 'cars.xlsx');
    expect([table.sheet, table.sheets]).toEqual([null, ['Cars', 'Old']]);
    expect((await all(table.rows())).map(row => [row.sheet, row.line, row.cells[0]])).toEqual([
      ['Cars', 2, 'Osmerry'],
      ['Old', 2, 'Halcyard'],
      ['Old', 3, 'Isobar'],
    ]);
    expect(table.warnings.join()).toContain('2 sheets; all of them are read');
    const old = await open(bytes, { sheet: 'Old' }, 'cars.xlsx');
    expect((await all(old.rows())).map(row => row.cells[0])).toEqual(['Halcyard', 'Isobar']);
    await expect(open(bytes, { sheet: 'Nowhere' }, 'cars.xlsx')).rejects.toThrow('has no sheet "Nowhere"');
  });

  it('has a hidden sheet read only where it is asked for, or where there is no other', async () => {
    const bytes = await book(workbook => {
      workbook.addWorksheet('Draft', { state: 'hidden' }).addRows([['casting'], ['Isobar']]);
      workbook.addWorksheet('Cars').addRows([['casting'], ['Osmerry']]);
    });
    const table = await open(bytes, {}, 'cars.xlsx');
    expect([table.sheet, table.sheets]).toEqual(['Cars', ['Cars', 'Draft']]);
    expect(table.warnings.join()).toContain('The sheet "Draft" is hidden in the file, and not read.');
    const alone = await book(workbook => {
      workbook.addWorksheet('Cars');
      workbook.addWorksheet('Draft', { state: 'veryHidden' }).addRows([['casting'], ['Isobar']]);
    });
    const hidden = await open(alone, {}, 'cars.xlsx');
    expect([hidden.sheet, hidden.warnings.join()]).toEqual(['Draft', expect.stringContaining('is hidden')]);
  });

  it('may have gaps in its rows and cells; lines are those of the sheet', async () => {
    const bytes = await book(workbook => {
      const sheet = workbook.addWorksheet('Cars');
      sheet.getCell('A1').value = 'casting';
      sheet.getCell('C1').value = 'notes';
      sheet.getCell('C4').value = 'far';
      sheet.getCell('A6').value = 'Osmerry';
    });
    const table = await open(bytes, {}, 'cars.xlsx');
    expect(table.headings).toEqual(['casting', 'column 2', 'notes']);
    const rows = (await all(table.rows())).filter(row => row.cells.some(cell => cell !== null));
    expect(rows).toEqual([
      { line: 4, cells: [null, null, 'far'], sheet: 'Cars' },
      { line: 6, cells: ['Osmerry'], sheet: 'Cars' },
    ]);
  });
});
