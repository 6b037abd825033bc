import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { ReportEntry } from '../../reports/types.ts';
import { createReportPdf } from '../../reports/typesetting/pdf.ts';
import { writeSamplePhoto } from '../helpers/pictures/sample-photos.ts';
import { canReadPdf, pdfTags, pdfText, squeezed } from './read-pdf.ts';
import { plainEntry, sampleReport } from './sample-report.ts';

/**
 * The categories of Object ID, the international standard for describing cultural objects (ICOM; Thornes,
 * Introduction to Object ID, Getty Information Institute, 1999), and the four that it recommends besides;
 * each with the words of a toy car's entry by which it is met.
 */
const categories: Record<string, string[]> = {
  'type of object': ['die-cast toy car, estate'],
  'materials and techniques': ['zinc alloy body, plastic glazing; cast, plated, lacquered'],
  measurements: ['length 72 mm'],
  'inscriptions and markings': ['Markings', 'base: \u201cLow Meadow\u201d in relief'],
  'distinguishing features': ['Distinguishing', 'scratched owner\u2019s mark inside the base'],
  title: ['Low Meadow Estate', 'released as \u201cMeadow Estate Special\u201d'],
  // What the toy depicts: the body of the car.
  subject: ['estate'],
  'date or period': ['in 1971'],
  maker: ['Quillon Toys of Wrenmoor', 'Moor Haulers'],
  'short description': ['Kingfisher', 'candy lacquer', 'rear quarter', 'C7.5', 'original'],
  'inventory number': ['Q-0417'],
  'place of origin': ['Country', 'Eastholm'],
  'related material': ['Accessory', 'hamper', 'Comes with its box and the folded leaflet'],
  'date documented': ['Documented', '4 October 2026'],
};

const full = (photos: ReportEntry['photos']): ReportEntry =>
  plainEntry({
    inventoryNumber: 'Q-0417',
    photos,
    identity: {
      maker: 'Quillon Toys of Wrenmoor',
      makerCountry: 'Wrenmark',
      series: 'Moor Haulers',
      casting: 'Low Meadow Estate',
      releaseName: 'Meadow Estate Special',
      releaseYear: 1971,
      features: {
        colour: 'Kingfisher',
        bodyFinish: 'candy lacquer',
        basePaint: 'rear quarter',
        accessory: 'hamper',
        country: 'Eastholm',
      },
      swatch: '#1d7fa3',
      asWritten: null,
      type: 'die-cast toy car, estate',
      materials: 'zinc alloy body, plastic glazing; cast, plated, lacquered',
      measurements: 'length 72 mm',
      markings: 'base: \u201cLow Meadow\u201d in relief',
      distinguishingFeatures: 'scratched owner\u2019s mark inside the base',
    },
    grade: 7.5,
    documentedOn: '2026-10-04',
    notes: 'Comes with its box and the folded leaflet.',
  });

describe.skipIf(!canReadPdf)('a car in the report, by the categories of Object ID', () => {
  let folder: string;
  let photos: ReportEntry['photos'];
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'playworn-object-id-'));
    const car = { swatch: '#1d7fa3', body: 1, grade: 7, seed: 1 };
    photos = [{ path: await writeSamplePhoto(folder, 'a.jpg', car), alt: 'The car from its left side' }];
  });
  afterAll(() => rm(folder, { recursive: true }));

  const printed = async (entry: ReportEntry, density: 'full' | 'compact' = 'full') => {
    const { pdf, warnings } = await createReportPdf(sampleReport([entry]), { standard: 'ua-1', density });
    expect(warnings).toEqual([]);
    // The page of the car alone: the glossary and the schedule say some of the words too.
    const pages = (await pdfText(pdf, 'raw')).split('\f').map(squeezed);
    const text = pages.find(page => page.includes(squeezed('Quillon Toys of Wrenmoor'))) ?? '';
    return { pdf, raw: Buffer.from(pdf).toString('latin1'), text };
  };

  it.each(['full', 'compact'] as const)('has every category in a %s entry', async density => {
    const { pdf, raw, text } = await printed(full(photos), density);
    for (const [category, words] of Object.entries(categories))
      for (const word of words) expect(text, category).toContain(squeezed(word));
    // The photograph, with words for who cannot see it.
    expect(await pdfTags(pdf)).toContain('Figure');
    expect(raw).toContain('The car from its left side');
    expect((await printed(full([]), density)).raw).not.toContain('The car from its left side');
  });

  it('leaves out what is not recorded, and lets the maker\u2019s country stand for the car\u2019s own', async () => {
    const { text } = await printed(plainEntry());
    expect(text).toContain('WrenmoorLintel');
    for (const label of ['Markings', 'Distinguishing', 'Country', 'Accessory', 'Documented'])
      expect(text).not.toContain(label);
    const { country: _, ...features } = full([]).identity.features;
    const abroad = { ...full([]).identity, features };
    const stood = (await printed(plainEntry({ identity: abroad }))).text;
    expect(stood).toContain(squeezed('Maker\u2019s country Wrenmark'));
    expect((await printed(full([]))).text).not.toContain('Wrenmark');
  });
});
