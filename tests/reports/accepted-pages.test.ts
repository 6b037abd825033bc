import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import pixelmatch from 'pixelmatch';
import sharp from 'sharp';
import { describe, expect, it } from 'vitest';
import type { PaperDocument } from '../../reports/documents/document.ts';
import { createDocumentPdf, createReportPdf } from '../../reports/typesetting/pdf.ts';
import { canReadPdf } from './read-pdf.ts';
import { sampleEntry, sampleReport } from './sample-report.ts';

const accepted = fileURLToPath(new URL('./accepted/', import.meta.url));
/** Where a page that was not accepted is put to be looked at. */
const output = fileURLToPath(new URL('../../output/pages/', import.meta.url));

const rendered = async (pdf: Uint8Array, page: number) => {
  const folder = mkdtempSync(join(tmpdir(), 'playworn-pages-'));
  writeFileSync(join(folder, 'paper.pdf'), pdf);
  const range = ['-f', String(page), '-l', String(page)];
  execFileSync('pdftoppm', [
    ...['-r', '60', '-png', '-singlefile'],
    ...range,
    join(folder, 'paper.pdf'),
    join(folder, 'page'),
  ]);
  const picture = await sharp(join(folder, 'page.png')).png({ palette: true, colours: 32 }).toBuffer();
  rmSync(folder, { recursive: true });
  return picture;
};

const pixelsOf = async (picture: Buffer) => {
  const { data, info } = await sharp(picture)
    .removeAlpha()
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return { data, width: info.width, height: info.height };
};

/** Pixels that may differ: programs that draw a page smooth its letters a little otherwise; a short line that is missing is more than that. */
const mostOf = ({ width, height }: { width: number; height: number }) => width * height * 0.0003;

/**
 * Holds a page against the one that was accepted. `ACCEPT_PAGES=1 npx vitest run --config tests/vitest.config.ts tests/reports/accepted-pages.test.ts`
 * accepts what is made now; look at the pictures before they are committed.
 */
const expectAccepted = async (name: string, picture: Buffer) => {
  const file = join(accepted, `${name}.png`);
  if (process.env.ACCEPT_PAGES === '1') {
    mkdirSync(accepted, { recursive: true });
    writeFileSync(file, picture);
  }
  expect(existsSync(file), `${name} has been accepted`).toBe(true);
  const [was, is] = [await pixelsOf(readFileSync(file)), await pixelsOf(picture)];
  const differs =
    was.width === is.width && was.height === is.height
      ? pixelmatch(was.data, is.data, undefined, is.width, is.height, { threshold: 0.25 })
      : Number.POSITIVE_INFINITY;
  const most = mostOf(is);
  if (differs > most) {
    mkdirSync(output, { recursive: true });
    writeFileSync(join(output, `${name}.png`), picture);
  }
  expect(differs, `${name} looks as it was accepted; what it is now lies in output/pages`).toBeLessThan(most);
};

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

describe.skipIf(!canReadPdf)('rendered pages', { timeout: 120_000 }, () => {
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
    const [was, is] = [
      await pixelsOf(readFileSync(join(accepted, 'document-1.png'))),
      await pixelsOf(await rendered(pdf, 1)),
    ];
    const differs = pixelmatch(was.data, is.data, undefined, is.width, is.height, { threshold: 0.25 });
    expect(differs).toBeGreaterThan(mostOf(is));
  });
});
