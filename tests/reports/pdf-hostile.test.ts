import { mkdtemp, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { ReportEntry } from '../../reports/types.ts';
import { createReportPdf } from '../../reports/typesetting/pdf.ts';
import { canReadPdf, pdfText, squeezed } from './read-pdf.ts';
import { plainEntry, sampleEntry, sampleReport } from './sample-report.ts';

const named = (name: string, changes: Partial<ReportEntry> = {}): ReportEntry =>
  plainEntry({ identity: { ...plainEntry().identity, casting: name, releaseName: name }, ...changes });
const textOf = async (entries: ReportEntry[]): Promise<string> =>
  squeezed(await pdfText((await createReportPdf(sampleReport(entries))).pdf));

const markup = [
  '#panic("gone")',
  '#read("/etc/passwd")',
  '#let x = 1; #x',
  '*bold* _emphasis_ `raw` $x^2$',
  '= Heading',
  '<label> @reference',
  '// comment /* block */',
  '\\u{41} \\ "quoted" \'single\'',
  '[content] {code} ~ --- ...',
  '{"json": [1, "two"]}',
];

describe.skipIf(!canReadPdf)('hostile names and notes in the PDF', () => {
  it('are inert: the template\u2019s own language is printed as it was typed', async () => {
    const everywhere = (text: string, i: number): ReportEntry =>
      named(text, {
        inventoryNumber: `N${i}`,
        notes: text,
        location: text,
        acquisition: { lot: text, on: null, from: text, cost: null, currency: null },
      });
    const text = await textOf(markup.map(everywhere));
    for (const name of markup) expect(text.split(squeezed(name)).length).toBeGreaterThan(4);
    const titled = await createReportPdf(
      sampleReport([], { title: '#panic()', owner: '*x*', collection: '$y$', scope: '#z' }),
    );
    expect(await pdfText(titled.pdf)).toMatch(/#panic\(\)[\s\S]*\$y\$[\s\S]*\*x\*[\s\S]*#z/);
  });

  it('may be in other scripts, hold emoji, NUL and half characters', async () => {
    const entries = [
      named('Caf\u00e9 \u017bubr \u0396\u03b5\u03cd\u03c2 \u0416\u0443\u043a'),
      named('\u05de\u05db\u05d5\u05e0\u05d9\u05ea', { inventoryNumber: 'RTL-1' }),
      named('a\0b\u202ec\ud83d', { inventoryNumber: 'NUL-1' }),
    ];
    const result = await createReportPdf(sampleReport(entries));
    const text = await pdfText(result.pdf);
    expect(text).toContain('Caf\u00e9 \u017bubr \u0396\u03b5\u03cd\u03c2 \u0416\u0443\u043a');
    expect(text).toContain('RTL-1');
    expect(text).toMatch(/NUL-1\s+abc/);
  });

  it('whose characters no font has are printed as \u25a1, and that is told', async () => {
    // Old script, in hardly any font, and a private-use character beside it.
    const result = await createReportPdf(
      sampleReport([named('x\u{1f9a0}\u{10a60}y\ue123z', { inventoryNumber: 'E-1' })]),
    );
    expect(result.standard).toBe('a-2a');
    const text = await pdfText(result.pdf);
    expect(text).toMatch(/E-1\s+x\S*\u25a1y\u25a1z/);
    expect(result.warnings.join()).toContain('U+10A60');
  });

  it('may be as long as they like: notes run over pages whole, long names stay on the paper', async () => {
    const words = Array.from({ length: 1800 }, (_, i) => `w${i}x`);
    const long = words.join(' ');
    expect(long.length).toBeGreaterThan(9_900);
    const unbroken = 'y'.repeat(9_000);
    const text = await textOf([
      plainEntry({ notes: long }),
      plainEntry({ inventoryNumber: 'LINES', notes: 'one\n'.repeat(900) }),
      named(unbroken, { inventoryNumber: 'NAME' }),
      plainEntry({ inventoryNumber: 'LAST' }),
    ]);
    for (const word of words) if (!text.includes(word)) expect.fail(`${word} is not on any page`);
    expect(text.match(/one/g)!.length).toBeGreaterThanOrEqual(900);
    expect(text.match(/y/g)!.length).toBeGreaterThan(9_000);
    expect(text).toContain('LAST');
  });

  it('and photographs that are missing or damaged leave a place and a warning, never a failure', async () => {
    const folder = await mkdtemp(join(tmpdir(), 'playworn-hostile-'));
    const damaged = join(folder, 'damaged.jpg');
    await writeFile(damaged, Buffer.from([0xff, 0xd8, 0xff, 0xe0, 1, 2, 3]));
    const entries = [
      plainEntry({ photos: [{ path: join(folder, 'absent.jpg'), alt: '' }] }),
      plainEntry({ inventoryNumber: 'Q-2', photos: [{ path: damaged, alt: '' }] }),
      plainEntry({ inventoryNumber: 'Q-3' }),
    ];
    const result = await createReportPdf(sampleReport(entries));
    expect(result.warnings).toHaveLength(2);
    expect(result.warnings[0]).toMatch(/^Q-0001: photograph missing \(/);
    expect(result.warnings[1]).toMatch(/^Q-2: photograph missing \(/);
    expect(result.standard).toBe('a-2a');
    const text = await pdfText(result.pdf);
    expect(text.match(/photograph missing/g)).toHaveLength(2);
    expect(text.match(/no photograph yet/g)).toHaveLength(1);
    await rm(folder, { recursive: true });
  });

  it('and a thousand cars are all there', async () => {
    const entries = Array.from({ length: 1000 }, (_, i) => sampleEntry(i));
    const { pdf, pages } = await createReportPdf(sampleReport(entries));
    const text = await pdfText(pdf);
    const numbers = new Set(text.match(/Q-\d{4}/g));
    expect(numbers.size).toBe(1000);
    expect(text).toContain(`${pages} pages.`);
  });

  it('and the compact layout says the same of each car', async () => {
    const hostile = markup.map((name, i) => named(name, { inventoryNumber: `N${i}`, notes: name }));
    const entries = [...Array.from({ length: 12 }, (_, i) => sampleEntry(i)), ...hostile];
    const full = await createReportPdf(sampleReport(entries));
    const compact = await createReportPdf(sampleReport(entries), { density: 'compact' });
    expect(compact).toMatchObject({ standard: 'a-2a' });
    expect(compact.pages).toBeLessThan(full.pages);
    const text = squeezed(await pdfText(compact.pdf));
    for (const name of markup) expect(text.split(squeezed(name)).length).toBeGreaterThan(3);
    for (const { inventoryNumber, worths, location } of entries) {
      expect(text.split(inventoryNumber).length).toBeGreaterThan(2);
      if (location) expect(text).toContain(squeezed(location).slice(0, 8));
      if (worths.asFound.range) expect(text).toContain((worths.asFound.range.high / 100).toFixed(2));
    }
    expect(text).toContain('notenoughevidence');
  });
});
