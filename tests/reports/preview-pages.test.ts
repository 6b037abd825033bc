import { describe, expect, it } from 'vitest';
import { createReportPdf } from '../../reports/pdf.ts';
import { previewPages } from '../../reports/preview-pages.ts';
import { sampleEntry, sampleReport } from './sample-report.ts';

const cars = Array.from({ length: 12 }, (_, i) => sampleEntry(i));

describe('the pages of a report to look at', { timeout: 120_000 }, () => {
  it('are as many as the document has, each a picture of its own size that draws nothing of the others', async () => {
    const { pages, preview } = await createReportPdf(sampleReport(cars), { preview: true });
    expect(preview).toHaveLength(pages);
    expect(pages).toBeGreaterThan(2);
    for (const [i, page] of preview.entries()) {
      const [, top, height] = /viewBox="0 ([\d.]+) [\d.]+ ([\d.]+)"/.exec(page)!;
      expect(Number(top)).toBeCloseTo(i * Number(height), 3);
      const used = [...page.matchAll(/<use [^>]*href="#([^"]+)"/g)].map(([, id]) => id);
      for (const id of used) expect(page).toContain(`id="${id}"`);
      expect(page).not.toMatch(/<script|<foreignObject|href="http/);
    }
    expect((await createReportPdf(sampleReport(cars))).preview).toEqual([]);
  });

  it('are none where the drawing is not what is expected', () => {
    expect(previewPages('<svg></svg>', 1)).toEqual([]);
    expect(previewPages('<svg viewBox="0 0 100 200">\n    <g>\n    </g>\n</svg>', 2)).toEqual([]);
  });
});
