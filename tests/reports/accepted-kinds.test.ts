import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { labelSheets } from '../../reports/labels/label-sheets.ts';
import { createDocumentPdf, createLabelsPdf } from '../../reports/typesetting/pdf.ts';
import { sampleCarSvg } from '../helpers/pictures/sample-photos.ts';
import { differenceOf, expectAccepted, rendered } from './accepted-page.ts';
import { canReadPdf } from './read-pdf.ts';
import { samplePapers } from './sample-papers.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
const photo = join(folder, 'car.jpg');
const stampedAt = '2026-03-14T00:00:00Z';

describe.skipIf(!canReadPdf)('the first page of every kind of paper', () => {
  beforeAll(async () => {
    await sharp(Buffer.from(sampleCarSvg('#c0392b', 1, 7, 3)))
      .flatten({ background: '#ddd' })
      .jpeg()
      .toFile(photo);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it.each(Object.keys(samplePapers('')))('looks as it was accepted: %s', async kind => {
    const { pdf, warnings } = await createDocumentPdf(samplePapers(photo)[kind]!, { stampedAt });
    expect(warnings).toEqual([]);
    await expectAccepted(`kind-${kind}`, await rendered(pdf, 1));
  });

  it('looks as it was accepted: labels', async () => {
    const labels = [
      { number: 'Q-0001', name: 'Osmerry Sprint', colour: 'Ember' },
      {
        number: 'Q-0002',
        name: 'A name that is too long for any label of this size, and its end',
        colour: '',
      },
    ];
    const { pdf } = await createLabelsPdf(labels, { sheet: labelSheets['a4-3x8'], start: 2 }, { stampedAt });
    await expectAccepted('kind-labels', await rendered(pdf, 1));
  });

  it('is told from one that lacks a table', async () => {
    const { bid } = samplePapers(photo);
    const { pdf } = await createDocumentPdf({ ...bid!, blocks: bid!.blocks.slice(0, -1) }, { stampedAt });
    const { differs, most } = await differenceOf('kind-bid', await rendered(pdf, 1));
    expect(differs).toBeGreaterThan(most);
  });
});
