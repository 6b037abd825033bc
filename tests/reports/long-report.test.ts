import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createReportPdf } from '../../reports/typesetting/pdf.ts';
import { writeSamplePhoto } from '../helpers/pictures/sample-photos.ts';
import { canReadStructure, faultsOf, readStructure } from './pdf-structure.ts';
import { canReadPdf, pdfText } from './read-pdf.ts';
import { sampleEntry, sampleReport } from './sample-report.ts';

let folder = '';
const photos: string[] = [];
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'playworn-long-'));
  for (let seed = 0; seed < 6; seed += 1) {
    const large = await writeSamplePhoto(folder, `${seed}.jpg`, {
      swatch: '#c2452d',
      body: 0,
      grade: 6,
      seed,
    });
    const path = join(folder, `small-${seed}.jpg`);
    // As it comes from a camera, with what the camera wrote.
    await sharp(large).resize(400).withMetadata().toFile(path);
    photos.push(path);
  }
  await writeFile(join(folder, 'broken.jpg'), (await readFile(photos[0]!)).subarray(0, 900));
});
afterAll(() => rm(folder, { recursive: true }));

const cars = 410;
const report = () =>
  sampleReport(
    Array.from({ length: cars }, (_, i) =>
      sampleEntry(i, [
        { path: i === 7 ? join(folder, 'broken.jpg') : photos[i % photos.length]!, alt: `Side of car ${i}` },
      ]),
    ),
  );

const compact = () => createReportPdf(report(), { density: 'compact' });
let held: ReturnType<typeof compact> | undefined;
/** The same for all who only read it. */
const compactOnce = () => {
  held ??= compact();
  return held;
};

/** The lines of the list of all cars: number and page. */
const listed = (pages: string[]): Map<string, number> =>
  new Map(
    pages
      .slice(pages.findIndex(page => /^\s*Schedule\s*$/m.test(page)))
      .flatMap(page => [...page.matchAll(/^\s*(Q-\d+) .* (\d+)\s*$/gm)])
      .map(([, number, page]) => [number!, Number(page)]),
  );

describe.skipIf(!canReadPdf)('a report that is set in stretches', () => {
  it('reads as one document: pages, lists, outline, tags and links', async () => {
    const made = await compactOnce();
    expect(made.standard).toBe('a-2a');
    expect(made.warnings).toEqual([expect.stringMatching(/^Q-0008: photograph missing/)]);
    const pages = (await pdfText(made.pdf)).split('\f').slice(0, -1);
    expect(pages).toHaveLength(made.pages);
    expect(pages[0]).toContain(`${made.pages} pages.`);
    // Each page but the first has its number.
    for (const [i, page] of pages.entries())
      if (i > 0) expect(page.trimEnd().split(/\s+/).at(-1), `page ${i + 1}`).toBe(String(i + 1));
    const places = listed(pages);
    expect(places.size).toBe(cars);
    for (const [number, page] of places)
      expect(pages[page - 1], `${number} is described on page ${page}`).toContain(number);
    const bytes = Buffer.from(made.pdf).toString('latin1');
    expect(bytes).not.toContain('playworn:');
    for (const secret of ['SampleCameraMaker', 'SampleOwnerName', 'Exif', 'GPS'])
      expect(bytes).not.toContain(secret);
    expect(bytes.match(/\/Type ?\/Catalog/g)).toHaveLength(1);
    if (!canReadStructure) return;
    const structure = readStructure(made.pdf);
    expect(faultsOf(structure)).toEqual([]);
    expect(structure.pages).toHaveLength(made.pages);
    const { outline, targets } = structure;
    expect(outline.filter(({ level }) => level === 1).map(({ title }) => title)).toEqual([
      'Totals',
      'Method and limits',
      'Cars',
      'Schedule',
      'By place',
    ]);
    const inOutline = new Map(
      outline.filter(({ level }) => level === 3).map(({ title, page }) => [title.slice(0, 6), page]),
    );
    expect(inOutline).toEqual(new Map([...places].map(([number, page]) => [number.slice(0, 6), page])));
    // Links are drawn in the order of the list, each to the page that it names.
    for (const { page, words } of targets.values()) expect(words).toBe(`Section, page ${page}`);
    expect([...targets.values()].length).toBeGreaterThan(2 * cars);
  });

  it('gives the same bytes for the same cars, and PDF/UA-1 where it is asked for', async () => {
    const [first, second] = [await compactOnce(), await compact()];
    expect(Buffer.from(first.pdf).equals(second.pdf)).toBe(true);
    const readable = await createReportPdf(report(), { standard: 'ua-1', density: 'compact', preview: true });
    expect(readable.standard).toBe('ua-1');
    expect(Buffer.from(readable.pdf).toString('latin1')).toContain('<pdfuaid:part>1</pdfuaid:part>');
    expect(readable.preview).toHaveLength(readable.pages);
    if (canReadStructure) expect(faultsOf(readStructure(readable.pdf))).toEqual([]);
  });

  it('replaces what no font has in every stretch, and says so once', async () => {
    const odd = sampleReport(
      Array.from({ length: 405 }, (_, i) => ({
        ...sampleEntry(i),
        notes: i % 200 === 3 ? 'Old \u{10a60} mark' : null,
      })),
    );
    const { warnings, pdf, standard } = await createReportPdf(odd, { density: 'compact' });
    expect(standard).toBe('a-2a');
    expect(warnings).toEqual([expect.stringContaining('U+10A60')]);
    expect((await pdfText(pdf)).match(/Old \u25a1 mark/g)).toHaveLength(3);
  });
});
