import { describe, expect, it } from 'vitest';
import type { PaperDocument } from '../../reports/documents/document.ts';
import { createDocumentPdf, createReportPdf } from '../../reports/typesetting/pdf.ts';
import { differenceOf, expectAccepted, rendered } from './accepted-page.ts';
import { canReadPdf } from './read-pdf.ts';
import { sampleEntry, sampleReport } from './sample-report.ts';

const report = (changes: Parameters<typeof sampleReport>[1] = {}) =>
  createReportPdf(
    sampleReport(
      Array.from({ length: 12 }, (_, i) => sampleEntry(i)),
      changes,
    ),
  );

const document: PaperDocument = {
  title: 'Q-0001  Wrenmoor Lintel',
  subtitle: 'C4, restored',
  author: 'P. Marrow',
  footer: 'An inventory made by the owner, not an appraisal',
  paper: 'a4',
  blocks: [
    { kind: 'paragraph', tone: 'statement', text: 'Restored: this is not the factory finish.' },
    {
      kind: 'facts',
      facts: [
        { label: 'Casting', value: 'Wrenmoor Lintel' },
        { label: 'Name', value: 'N'.repeat(200) },
      ],
    },
    { kind: 'heading', level: 2, text: 'Condition' },
    { kind: 'paragraph', text: '#set text(red) *bold* '.repeat(30) },
    {
      kind: 'table',
      columns: [{ title: 'Part' }, { title: 'Grade', align: 'right' }, { title: 'Note', width: 'wide' }],
      rows: [
        ['roof', 'C4', 'n '.repeat(300)],
        ['wheels', 'C7', 'y'.repeat(120)],
      ],
      total: ['', '', 'in all'],
    },
    { kind: 'paragraph', tone: 'caution', text: 'Wear gloves.' },
    { kind: 'checklist', items: ['Look at it by daylight', 'Write down what is missing'] },
  ],
};

describe.skipIf(!canReadPdf)('rendered pages', () => {
  it('of a report look as they were accepted', async () => {
    const { pdf, pages } = await report();
    for (const page of [1, 2, 4]) await expectAccepted(`report-${page}`, await rendered(pdf, page));
    await expectAccepted('report-schedule', await rendered(pdf, pages - 1));
  });

  it('of a copy without values look as they were accepted', async () => {
    const { pdf } = await report({ withoutValues: true });
    for (const page of [1, 2]) await expectAccepted(`bare-${page}`, await rendered(pdf, page));
  });

  it('of a document look as they were accepted', async () => {
    const { pdf } = await createDocumentPdf(document, { stampedAt: '2026-03-14T00:00:00Z' });
    await expectAccepted('document-1', await rendered(pdf, 1));
  });

  it('are told apart where a line is missing', async () => {
    const shorter = { ...document, blocks: document.blocks.slice(0, -1) };
    const { pdf } = await createDocumentPdf(shorter, { stampedAt: '2026-03-14T00:00:00Z' });
    const { differs, most } = await differenceOf('document-1', await rendered(pdf, 1));
    expect(differs).toBeGreaterThan(most);
  });
});
