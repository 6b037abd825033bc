import { describe, expect, it } from 'vitest';
import { createDocumentPdf, createReportPdf } from '../../reports/typesetting/pdf.ts';
import { previewPages } from '../../reports/typesetting/preview-pages.ts';
import { sampleEntry, sampleReport } from './sample-report.ts';

const cars = Array.from({ length: 12 }, (_, i) => sampleEntry(i));

describe('the pages of a report to look at', () => {
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

  it('are none of a document that is too long to be drawn, which is made all the same', async () => {
    const blocks = Array.from({ length: 401 }, (_, i) => [
      { kind: 'paragraph' as const, text: String(i) },
      { kind: 'pageBreak' as const },
    ]).flat();
    const document = {
      title: 'Long',
      subtitle: '',
      author: '',
      footer: '',
      paper: 'pocket' as const,
      blocks,
    };
    const made = await createDocumentPdf(document, { stampedAt: '2026-01-01T00:00:00Z', preview: true });
    expect(made.pages).toBeGreaterThan(400);
    expect(made.preview).toEqual([]);
    expect(Buffer.from(made.pdf.subarray(0, 4)).toString()).toBe('%PDF');
  });

  it('are none where the drawing is not what is expected', () => {
    expect(previewPages('<svg></svg>', 1)).toEqual([]);
    expect(previewPages('<svg viewBox="0 0 100 200">\n    <g>\n    </g>\n</svg>', 2)).toEqual([]);
  });
});
