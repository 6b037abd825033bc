import { describe, expect, it } from 'vitest';
import type { DocumentBlock, PaperDocument } from '../../reports/documents/document.ts';
import { documentParts, mostInOne } from '../../reports/documents/document-parts.ts';
import { labelParts, mostLabels } from '../../reports/labels/label-model.ts';
import { labelSheets } from '../../reports/labels/label-sheets.ts';
import { createDocumentPdf, createLabelsPdf } from '../../reports/typesetting/pdf.ts';
import { canReadStructure, faultsOf, readStructure } from './pdf-structure.ts';
import { canReadPdf, pdfText } from './read-pdf.ts';

const stampedAt = '2026-03-14T00:00:00Z';
const numberOf = (i: number): string => `Q-${String(i + 1).padStart(5, '0')}`;
const columns = [{ title: 'No' }, { title: 'Spent', align: 'right' as const }];

const tableOf = (from: number, to: number, total: string): DocumentBlock => ({
  kind: 'table',
  columns,
  rows: Array.from({ length: to - from }, (_, i) => [numberOf(from + i), '1.00']),
  total: ['', total],
});

/** Longer than what is set in one: a section with a table that is itself cut, and one after it. */
const long: PaperDocument = {
  title: 'Long book',
  subtitle: 'of many lines',
  author: '',
  footer: 'Records',
  paper: 'a4',
  blocks: [
    { kind: 'heading', level: 2, text: 'First section' },
    tableOf(0, mostInOne + 10, 'Sum 4,010'),
    { kind: 'heading', level: 2, text: 'Second section' },
    tableOf(mostInOne + 10, mostInOne + 60, 'Sum 50'),
  ],
};
const rows = mostInOne + 60;

describe('a long paper', () => {
  it('is cut before sections and within a table, with nothing lost or twice', () => {
    const parts = documentParts(long);
    expect(parts.map(({ opens }) => opens)).toEqual([true, false, false, false, false]);
    const said = parts.flatMap(({ blocks }) =>
      blocks.flatMap(block => (block.kind === 'table' ? block.rows.map(([number]) => number) : [])),
    );
    expect(said).toEqual(Array.from({ length: rows }, (_, i) => numberOf(i)));
    const totals = parts.flatMap(({ blocks }) =>
      blocks.flatMap(block => (block.kind === 'table' && block.total ? [block.total[1]] : [])),
    );
    expect(totals).toEqual(['Sum 4,010', 'Sum 50']);
    const short = { blocks: long.blocks.slice(2) };
    expect(documentParts(short)).toEqual([
      { blocks: short.blocks, opens: true, headings: [{ level: 1 }, { level: 2 }] },
    ]);
  });

  it.skipIf(!canReadPdf).each(['a-2a', 'ua-1'] as const)(
    'reads as one document: numbers, totals, pages and tags, in %s',
    async standard => {
      const made = await createDocumentPdf(long, { stampedAt, standard });
      expect(made).toMatchObject({ standard, warnings: [] });
      const pages = (await pdfText(made.pdf)).split('\f').slice(0, -1);
      expect(pages).toHaveLength(made.pages);
      for (const [i, page] of pages.entries()) expect(page).toMatch(new RegExp(`Records +${i + 1}\\s*$`));
      const text = pages.join('\n');
      expect(text.match(/Q-\d{5}/g)).toEqual(Array.from({ length: rows }, (_, i) => numberOf(i)));
      for (const once of ['Long book', 'Second section', 'Sum 4,010', 'Sum 50'])
        expect(text.split(once)).toHaveLength(2);
      if (canReadStructure) expect(faultsOf(readStructure(made.pdf))).toEqual([]);
    },
  );

  it('is the same file of the same lines', async () => {
    const [one, other] = [
      await createDocumentPdf(long, { stampedAt }),
      await createDocumentPdf(long, { stampedAt }),
    ];
    expect(Buffer.from(one.pdf).equals(Buffer.from(other.pdf))).toBe(true);
  });

  it.skipIf(!canReadPdf)('of labels goes on from sheet to sheet, from where it begins', async () => {
    const sheet = labelSheets['a4-5x13'];
    const labels = Array.from({ length: 2 * mostLabels + 1 }, (_, i) => ({
      number: numberOf(i),
      name: 'Osmerry',
      colour: '',
    }));
    const parts = labelParts(labels, sheet, 4);
    expect(parts.flatMap(part => part.labels)).toEqual(labels);
    // Each but the last ends with its sheet.
    for (const { labels: own, start } of parts.slice(0, -1)) expect((start - 1 + own.length) % 65).toBe(0);
    const { pdf, pages, standard } = await createLabelsPdf(labels, { sheet, start: 4 }, { stampedAt });
    expect(standard).toBe('a-2a');
    expect(pages).toBe(Math.ceil((3 + labels.length) / 65));
    const said = (await pdfText(pdf, 'raw')).match(/Q-\d{5}/g);
    expect(said).toEqual(labels.map(({ number }) => number));
    if (canReadStructure) expect(faultsOf(readStructure(Buffer.from(pdf)))).toEqual([]);
  });
});
