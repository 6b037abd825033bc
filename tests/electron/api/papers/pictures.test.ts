import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { describe, expect, it, onTestFinished } from 'vitest';
import { paperKinds } from '../../../../electron/api/inputs.ts';
import { type Api, addReference, newCollectionService, resultOf } from '../../../helpers/api.ts';
import { telephonePicture } from '../../../helpers/pictures/pictures.ts';
import { canReadPdf } from '../../../reports/read-pdf.ts';

/** The pictures of a PDF as `pdfimages` takes them out. */
const picturesOf = (pdf: Buffer): Buffer[] => {
  const folder = mkdtempSync(join(tmpdir(), 'playworn-pictures-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  const file = join(folder, 'paper.pdf');
  writeFileSync(file, pdf);
  execFileSync('pdfimages', ['-all', file, join(folder, 'picture')]);
  return readdirSync(folder)
    .filter(name => name.startsWith('picture'))
    .map(name => readFileSync(join(folder, name)));
};

/** A lot of two cars; the first lies on its side in two photographs of a telephone, before and after the work. */
const shelf = async (api: Api) => {
  const { variations } = await addReference(api);
  const { id: lotId } = await api.lots.create({ name: 'Loft', currency: 'USD' });
  const { ids } = await api.cars.create({
    lotId,
    cars: [
      { variationId: variations.emberTwin, grade: 6 },
      { variationId: variations.mossTwin, grade: 5 },
    ],
  });
  const carId = ids[0]!;
  for (const [state, background] of [
    ['before', '#a33'],
    ['after', '#33a'],
  ] as const)
    await api.photos.add({
      carId,
      view: 'front',
      state,
      files: [new File([new Uint8Array(await telephonePicture(background))], `${state}.jpg`)],
    });
  await api.cars.saveCheck({ carId, checkedOn: '2026-02-01', grade: 6, notes: 'Fell', parts: [] });
  return { lotId, carId };
};

/** How many photographs stand on a paper: the report has one on its cover, too; the buyer is shown the car as it is. */
const shown: Partial<Record<string, number>> = { collection: 3, dossier: 2, claim: 2, 'sale-sheet': 1 };

describe.skipIf(!canReadPdf)('the photographs of papers', () => {
  it.each(['collection', ...paperKinds, 'labels'] as const)(
    'stand upright in it, without place and camera: %s',
    async kind => {
      const { api } = await newCollectionService();
      const { lotId, carId } = await shelf(api);
      const about =
        kind === 'bid' ? { lotId } : kind === 'worksheet' || kind === 'want-list' ? {} : { carId };
      const { token, warnings } = await resultOf<{ token: string; warnings: string[] }>(
        kind === 'collection'
          ? await api.reports.make({ format: 'pdf' })
          : kind === 'labels'
            ? await api.papers.labels({})
            : await api.papers.make({ kind, ...about }),
      );
      expect(warnings).toEqual([]);
      const pdf = Buffer.from(await (await api.reports.file({ token })).arrayBuffer());
      const pictures = picturesOf(pdf);
      expect(pictures).toHaveLength(shown[kind] ?? 0);
      for (const bytes of [pdf, ...pictures]) expect(bytes.includes('Quillon camera')).toBe(false);
      for (const bytes of pictures) {
        const { exif, width, height } = await sharp(bytes).metadata();
        expect(exif).toBeUndefined();
        expect(height).toBeGreaterThan(width);
      }
    },
  );
});
