import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CollectionReport, ReportEntry } from '../../reports/types.ts';
import { createReportPdf } from '../../reports/typesetting/pdf.ts';
import { writeSamplePhoto } from '../helpers/pictures/sample-photos.ts';
import { canReadPdf, pdfInfo, pdfTags, pdfText, squeezed } from './read-pdf.ts';
import { plainEntry, sampleColours, sampleEntry, sampleReport, worth } from './sample-report.ts';

let folder = '';
let entries: ReportEntry[] = [];
let report: CollectionReport = sampleReport([]);
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'playworn-report-'));
  entries = await Promise.all(
    Array.from({ length: 20 }, async (_, i) => {
      const car = { swatch: sampleColours[i % 6]![1], body: i, grade: 5, seed: i };
      const path = await writeSamplePhoto(folder, `${i}.jpg`, car);
      return sampleEntry(i, [{ path, alt: `Side view of car ${i}` }]);
    }),
  );
  report = sampleReport(entries);
});
afterAll(() => rm(folder, { recursive: true }));

const total = (cars: ReportEntry[]): string => {
  const minor = cars.reduce((sum, entry) => sum + (entry.worths.asFound.range?.mid ?? 0), 0);
  return `USD ${Math.floor(minor / 100).toLocaleString('en-US')}.${String(minor % 100).padStart(2, '0')}`;
};

describe.skipIf(!canReadPdf)('the report as PDF', () => {
  it('has every inventory number, the exact total, basis, dates and page numbers', async () => {
    const { pdf, pages, warnings, standard } = await createReportPdf(report);
    expect(warnings).toEqual([]);
    expect(standard).toBe('a-2a');
    const text = await pdfText(pdf);
    for (const entry of entries) expect(text.split(entry.inventoryNumber).length).toBeGreaterThan(2);
    expect(text).toContain(total(entries));
    expect(text).toContain('fair market value');
    expect(text).toContain('26 CFR 20.2031-1(b)');
    expect(text).toContain('25 November 2026');
    expect(text).toContain('2 cars have no value because there is too little evidence, and are in no total.');
    expect(text).toContain(`3 of ${pages}`);
    expect(text).toContain(`${pages} of ${pages}`);
    expect(text).toContain('not an appraisal');
  });

  it('is tagged: title, author, language, headings, tables, and words for every picture and strip', async () => {
    for (const standard of ['a-2a', 'ua-1'] as const) {
      const result = await createReportPdf(sampleReport(entries.slice(0, 4)), { standard });
      expect(result).toMatchObject({ standard, warnings: [] });
      const info = await pdfInfo(result.pdf);
      expect(info.get('Title')).toBe('The Wrenmoor cars');
      expect(info.get('Author')).toBe('R. Ashgrove');
      expect(info.get('Tagged')).toBe('yes');
      expect(info.get('CreationDate')).toContain('2026');
      const raw = Buffer.from(result.pdf).toString('latin1');
      expect(raw).toMatch(/\/Lang \(en/);
      const figures = raw.match(/\/S \/Figure/g)!.length;
      expect(figures).toBeGreaterThanOrEqual(4 * 2);
      expect(raw.match(/\/Alt [(<]/g)!.length).toBeGreaterThanOrEqual(figures);
      const tags = await pdfTags(result.pdf);
      for (const tag of ['H1', 'H2', 'H3', 'THead', 'TH', 'TD', 'Figure']) expect(tags).toContain(tag);
    }
  });

  it('is the same to the byte for the same input', async () => {
    const [first, second] = [await createReportPdf(report), await createReportPdf(report)];
    expect(Buffer.compare(first.pdf, second.pdf)).toBe(0);
    for (const changed of [{ preparedOn: '2026-11-26T15:46:00Z' }, { stampedAt: '2026-11-26T00:00:00Z' }]) {
      const later = await createReportPdf({ ...report, ...changed });
      expect(Buffer.compare(first.pdf, later.pdf)).not.toBe(0);
    }
    const silent = await createReportPdf({ ...report, preparedOn: null });
    expect(await pdfText(silent.pdf)).not.toMatch(/prepared \d/i);
  });

  it('carries no trace of where or by whom the photographs were taken', async () => {
    const { pdf } = await createReportPdf(report, { standard: '1.7' });
    // The place stands in the file as numbers, under this heading; "GPS" alone turns up in
    // any compressed megabytes.
    for (const secret of ['SampleCameraMaker', 'SampleOwnerName', 'Exif\0\0', folder])
      expect(Buffer.from(pdf).includes(secret)).toBe(false);
  });

  it('says in words that a restored car is restored, and how it departs from the factory', async () => {
    const restored = entries.filter(entry => entry.finishState === 'restored');
    const text = squeezed(
      await pdfText((await createReportPdf(sampleReport(restored), { withPhotographs: false })).pdf),
    );
    const statements = text.split(squeezed('It departs from the factory specification: another color,'));
    expect(statements.length - 1).toBe(restored.length);
  });

  it('prints two bases of value apart', async () => {
    const insured = plainEntry({ inventoryNumber: 'Q-9', basis: 'retail replacement value' });
    const text = await pdfText((await createReportPdf(sampleReport([plainEntry(), insured]))).pdf);
    expect(text).toContain('As found, retail replacement value');
    expect(text).toContain('do not add the two totals together');
    expect(text).not.toContain('240.00');
  });

  it.each([
    ['JPY', 'JPY 12,000'],
    ['BHD', 'BHD 12.000'],
  ])('follows the decimals of %s', async (currency, expected) => {
    const text = await pdfText((await createReportPdf(sampleReport([plainEntry()], { currency }))).pdf);
    expect(text).toContain(expected);
  });

  it('goes onto either paper, with and without photographs', async () => {
    const letter = await createReportPdf(report, { paper: 'us-letter', withPhotographs: false });
    expect((await pdfInfo(letter.pdf)).get('Page size')).toContain('612 x 792');
    expect(await pdfText(letter.pdf)).not.toContain('no photograph yet');
    const a4 = await createReportPdf(report);
    expect((await pdfInfo(a4.pdf)).get('Page size')).toContain('A4');
    const pictures = (pdf: Uint8Array): number =>
      Buffer.from(pdf)
        .toString('latin1')
        .match(/\/DCTDecode/g)?.length ?? 0;
    expect([pictures(letter.pdf), pictures(a4.pdf)]).toEqual([0, entries.length]);
  });

  it('is whole without a single car, and with cars of which nothing is known', async () => {
    const empty = await createReportPdf(sampleReport([]));
    expect(await pdfText(empty.pdf)).toContain('This collection has no cars yet.');
    const unknown = { asFound: worth(null), restored: worth(null), originalFinish: worth(null) };
    const bare = plainEntry({
      grade: null,
      worths: unknown,
      identity: {
        ...plainEntry().identity,
        maker: null,
        series: null,
        casting: null,
        releaseName: null,
        releaseYear: null,
        features: {},
        swatch: null,
      },
    });
    const text = await pdfText(
      (await createReportPdf(sampleReport([bare], { owner: '', collection: '' }))).pdf,
    );
    expect(text).toContain('Not identified');
    expect(text).toContain('not enough evidence');
    expect(text).toContain('1 car has no value because there is too little evidence');
  });
});
