import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { filledSheets, readXlsx } from '../../../db/import/files/read-xlsx.ts';
import { isDateFormat, openBook } from '../../../db/import/files/xlsx-book.ts';
import { ImportFileError, type TableRow } from '../../../db/import/types.ts';
import { bookOf, zipOf } from './raw-zip.ts';

const rowsOf = async (bytes: Uint8Array<ArrayBuffer>, sheet = 'Cars'): Promise<TableRow[]> => {
  const rows: TableRow[] = [];
  for await (const batch of readXlsx(await openBook(new Blob([bytes])), sheet)) rows.push(...batch);
  return rows;
};

describe('a workbook of another program', () => {
  it('may have its parts in any order, prefixed names, packed or not', async () => {
    const parts = bookOf(
      {
        Cars: '<row><c t="s"><v>0</v></c><c><v>7.5</v></c></row>',
        More: '<row><c t="str"><v>x</v></c></row>',
      },
      { texts: '<si><r><t>Os</t></r><r><t>merry</t></r><rPh><t>spoken</t></rPh></si>' },
    );
    for (const packed of [true, false]) {
      const bytes = zipOf(parts, { packed });
      expect(await rowsOf(bytes)).toEqual([{ line: 1, cells: ['Osmerry', 7.5] }]);
      expect(await filledSheets(await openBook(new Blob([bytes])))).toEqual(['Cars', 'More']);
    }
  });

  it('may leave out places, and have texts in cells, errors, truth values and dates as text', async () => {
    const xml =
      '<row r="3"><c r="B3" t="inlineStr"><is><t>a</t><rPh><t>spoken</t></rPh><t>b</t></is></c><c t="e"><v>#N/A</v></c></row>' +
      '<row><c r="A4" t="b"><v>1</v></c><c t="d"><v>2026-03-14</v></c><c r="AB4"><f>1+1</f><v>2</v></c></row>';
    const [third, fourth] = await rowsOf(zipOf(bookOf({ Cars: xml })));
    expect(third).toEqual({ line: 3, cells: [null, 'ab', '#N/A'] });
    expect(fourth?.line).toBe(4);
    expect(fourth?.cells.slice(0, 2)).toEqual([true, new Date('2026-03-14T00:00:00Z')]);
    expect([fourth?.cells.length, fourth?.cells[27]]).toEqual([28, 2]);
  });

  it('counts its days from 1900, or from 1904 where it says so', async () => {
    const styles =
      '<numFmts><numFmt numFmtId="164" formatCode="yyyy\\-mm\\-dd"/></numFmts><cellXfs><xf numFmtId="0"/><xf numFmtId="164"/><xf numFmtId="14"/></cellXfs>';
    const xml = '<row><c s="1"><v>46095</v></c><c s="2"><v>1</v></c><c s="0"><v>46095</v></c></row>';
    const dates = async (properties: string) =>
      (await rowsOf(zipOf(bookOf({ Cars: xml }, { styles, properties }))))[0]?.cells.map(cell =>
        cell instanceof Date ? cell.toISOString().slice(0, 10) : cell,
      );
    expect(await dates('')).toEqual(['2026-03-14', '1900-01-01', 46095]);
    expect(await dates('<workbookPr date1904="1"/>')).toEqual(['2030-03-15', '1904-01-02', 46095]);
  });

  it('shows an amount with the sign of its format, and a time as no day', async () => {
    const formats = [
      '#,##0.00 "€"',
      '[$kr-41D] #,##0',
      '0.00',
      'h:mm',
      '"USD" 0.00',
      '0 "days"',
      '[$-407]0.00',
    ];
    const styles =
      `<numFmts>${formats.map((format, i) => `<numFmt numFmtId="${164 + i}" formatCode="${format.replaceAll('"', '&quot;')}"/>`).join('')}</numFmts>` +
      `<cellXfs>${formats.map((_, i) => `<xf numFmtId="${164 + i}"/>`).join('')}</cellXfs>`;
    const xml = `<row>${formats.map((_, i) => `<c s="${i}"><v>${i === 3 ? 0.604166666666667 : 45}</v></c>`).join('')}</row>`;
    const [row] = await rowsOf(zipOf(bookOf({ Cars: xml }, { styles })));
    expect(row?.cells).toEqual([
      { number: 45, sign: '€' },
      { number: 45, sign: 'kr' },
      45,
      '14:30',
      { number: 45, sign: 'USD' },
      45,
      45,
    ]);
  });

  it('takes no span of hours for a day of 1900', async () => {
    const formats = ['h:mm', '[h]:mm', '[mm]:ss', 'yyyy-mm-dd', 'h:mm'];
    const values = [1.25, 30.5 / 24, 1 / 24, 1.25, 45_000.5];
    const styles =
      `<numFmts>${formats.map((format, i) => `<numFmt numFmtId="${164 + i}" formatCode="${format}"/>`).join('')}</numFmts>` +
      `<cellXfs>${formats.map((_, i) => `<xf numFmtId="${164 + i}"/>`).join('')}</cellXfs>`;
    const xml = `<row>${values.map((value, i) => `<c s="${i}"><v>${value}</v></c>`).join('')}</row>`;
    const [row] = await rowsOf(zipOf(bookOf({ Cars: xml }, { styles })));
    expect(row?.cells.map(cell => (cell instanceof Date ? cell.toISOString().slice(0, 10) : cell))).toEqual([
      '30:00',
      '30:30',
      '1:00',
      '1900-01-01',
      '2023-03-15',
    ]);
  });

  it('tells date formats from others', () => {
    expect(
      ['yyyy-mm-dd', 'd/m/yy', 'h:mm AM/PM', '[$-407]d. mmmm yyyy', 'mmm-yy'].map(isDateFormat),
    ).not.toContain(false);
    expect(
      ['General', '0.00', '#,##0.00 "days"', '[Red]0', '0.00E+00', '@', '_-* #,##0.00\\d'].map(isDateFormat),
    ).not.toContain(true);
  });
});

describe('a damaged or hostile workbook is refused with a reason', () => {
  const good = zipOf(bookOf({ Cars: '<row><c><v>1</v></c></row>' }));
  const refused = async (bytes: Uint8Array<ArrayBuffer>) => {
    const reading = rowsOf(bytes);
    await expect(reading).rejects.toThrow(ImportFileError);
  };

  it('cut off anywhere', async () => {
    expect(await rowsOf(good)).toHaveLength(1);
    for (const share of [0.1, 0.5, 0.9, 0.999]) await refused(good.slice(0, Math.floor(good.length * share)));
  });

  it('with bits changed: read whole or refused, never a crash', async () => {
    const fixture = new Uint8Array(
      readFileSync(new URL('../../fixtures/messy/barn-tin.xlsx', import.meta.url)),
    );
    for (let i = 0; i < 60; i++) {
      const changed = fixture.slice();
      const place = (i * 7919) % changed.length;
      changed[place] = (changed[place] ?? 0) ^ (1 << (i % 8));
      try {
        await rowsOf(changed, 'Tin');
      } catch (error) {
        expect(error).toBeInstanceOf(ImportFileError);
      }
    }
  });

  it('whose directory names a file beyond its own end: read whole or refused', async () => {
    const changed = good.slice();
    const entry = changed.findLastIndex(
      (byte, i) => byte === 0x50 && changed[i + 1] === 0x4b && changed[i + 2] === 1 && changed[i + 3] === 2,
    );
    changed[entry + 29] = 0xff;
    const outcome = await rowsOf(changed).catch((error: unknown) => error);
    if (!(outcome instanceof ImportFileError)) expect(outcome).toEqual(await rowsOf(good));
  });

  it('whose bytes are not those that its checksum was made of', async () => {
    const xml = '<row><c t="str"><v>Osmerry</v></c></row>';
    const spoilt = zipOf(bookOf({ Cars: xml }), { packed: false });
    const place = Buffer.from(spoilt).indexOf('Osmerry');
    spoilt[place] = 'A'.charCodeAt(0);
    await refused(spoilt);
  });

  it('that unpacks to hundreds of times its size, says so, and is not unpacked', async () => {
    const filler = zipOf(bookOf({ Cars: `<row><c t="str"><v>${' '.repeat(40_000_000)}</v></c></row>` }));
    expect(filler.length).toBeLessThan(100_000);
    await expect(rowsOf(filler)).rejects.toThrow('unpacks to more than 200 times its size');
  });

  it('with one cell beyond all measure, in its sheet, its shared texts or a tag', async () => {
    const noise = (length: number) =>
      Array.from({ length }, (_, i) => ((i * 7919) % 1_000_003).toString(36)).join('');
    const long = noise(700_000);
    const sentence = /a cell of more than 2 million characters/;
    await expect(rowsOf(zipOf(bookOf({ Cars: `<row><c t="str"><v>${long}</v></c></row>` })))).rejects.toThrow(
      sentence,
    );
    await expect(
      rowsOf(
        zipOf(bookOf({ Cars: '<row><c t="s"><v>0</v></c></row>' }, { texts: `<si><t>${long}</t></si>` })),
      ),
    ).rejects.toThrow(sentence);
    await expect(rowsOf(zipOf(bookOf({ Cars: `<row x="${long}"/>` })))).rejects.toThrow(sentence);
  });

  it('whose rows are wider than a list, or together too many cells', async () => {
    const wide = async (reference: string, rows: number) => {
      const file = zipOf(bookOf({ Cars: `<row><c r="${reference}"><v>1</v></c></row>`.repeat(rows) }));
      for await (const _ of readXlsx(await openBook(new Blob([file])), 'Cars'));
    };
    await expect(wide('XFD1', 1)).rejects.toThrow(
      /Line 1 of this sheet has something beyond its 2,000th column/,
    );
    await expect(wide('BXX1', 50_001)).rejects.toThrow(/more than 100 million cells/);
  });

  it('that unpacks to more than it announces', async () => {
    const bomb = zipOf(bookOf({ Cars: `<row><c t="str"><v>${'x'.repeat(500_000)}</v></c></row>` }), {
      announce: (name, size) => (name.includes('pages') ? 1000 : size),
    });
    await refused(bomb);
  });

  it('with entities of its own, rows out of all bounds, or no sheets', async () => {
    const parts = bookOf({ Cars: '<row><c t="str"><v>&lol;</v></c></row>' });
    const page = '<?xml version="1.0"?><!DOCTYPE x [<!ENTITY lol "lol">]>';
    await refused(
      zipOf({
        ...parts,
        'xl/pages/p1.xml': parts['xl/pages/p1.xml']!.replace('<?xml version="1.0"?>', page),
      }),
    );
    await refused(zipOf(bookOf({ Cars: '<row r="99999999"><c><v>1</v></c></row>' })));
    await refused(zipOf({ mimetype: 'application/zip' }));
  });
});
