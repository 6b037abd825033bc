import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import sharp from 'sharp';
import { afterEach, describe, expect, it } from 'vitest';
import { paperKinds } from '../../../../electron/api/inputs.ts';
import { type Api, addReference, newCollectionService, refusalOf, resultOf } from '../../../helpers/api.ts';
import { archiveFaults } from '../../../reports/pdf-archive.ts';
import { readObjects } from '../../../reports/pdf-objects.ts';
import { canReadStructure, faultsOf, readStructure } from '../../../reports/pdf-structure.ts';
import { canReadPdf, squeezed } from '../../../reports/read-pdf.ts';

const folders: string[] = [];
afterEach(() => {
  for (const folder of folders.splice(0)) rmSync(folder, { recursive: true, force: true });
});

/** What the programs that read PDF say of one. */
const readBack = (pdf: Buffer) => {
  const folder = mkdtempSync(join(tmpdir(), 'playworn-kinds-'));
  folders.push(folder);
  const file = join(folder, 'paper.pdf');
  writeFileSync(file, pdf);
  const run = (program: string, ...args: string[]) =>
    execFileSync(program, args, { encoding: 'utf8', maxBuffer: 1e9, stdio: ['ignore', 'pipe', 'pipe'] });
  const info = new Map(
    run('pdfinfo', file)
      .split('\n')
      .map(line => [line.slice(0, line.indexOf(':')), line.slice(line.indexOf(':') + 1).trim()]),
  );
  const fonts = run('pdffonts', file)
    .trimEnd()
    .split('\n')
    .slice(2)
    .map(line => /(yes|no)\s+(yes|no)\s+(yes|no)\s+\d+\s+\d+$/.exec(line.trimEnd())?.slice(1, 4));
  /** Whether every page's outermost three millimetres are bare, so that nothing runs off the paper. */
  const edgesAreBare = async () => {
    run('pdftoppm', '-r', '50', '-gray', '-png', file, join(folder, 'page'));
    for (const name of readdirSync(folder).filter(entry => entry.endsWith('.png'))) {
      const { data, info: size } = await sharp(join(folder, name))
        .greyscale()
        .raw()
        .toBuffer({ resolveWithObject: true });
      const edge = Math.floor((3 / 25.4) * 50);
      for (let y = 0; y < size.height; y++)
        for (let x = 0; x < size.width; x++)
          if (
            (x < edge || y < edge || x >= size.width - edge || y >= size.height - edge) &&
            data[y * size.width + x]! < 250
          )
            return false;
    }
    return true;
  };
  return {
    info,
    fonts,
    edgesAreBare,
    text: squeezed(run('pdftotext', '-raw', file, '-').replaceAll('\u200b', '')),
    check: () =>
      canReadStructure ? run('qpdf', '--check', file) : 'No syntax or stream encoding errors found',
  };
};

const long = 'Long note of a drawer that was opened in the rain '.repeat(8).slice(0, 300);
const names = [
  '#set page(width: 1cm)',
  '*bold* _emphasis_ $x^2$ \\ `raw`',
  'שלום עולם מכונית',
  'Racer 🏎️ 😀',
  'a\u0000b\u0007c\u202ed',
  'N'.repeat(200),
];

/** Cars whose words are hostile, each with two checks, in a lot that is named so, with all that papers print of them. */
const shelf = async () => {
  const service = await newCollectionService();
  const { api } = service;
  const { variations } = await addReference(api);
  const { id: lotId } = await api.lots.create({
    name: '#panic() *lot* 🧸 שלום',
    seller: names[1]!,
    boughtOn: '2026-01-02',
    currency: 'USD',
    costs: [{ kind: 'price', minor: 12_345 }],
  });
  const { ids } = await api.cars.create({
    lotId,
    cars: names.map((name, i) => ({
      inventoryNumber: `#${i}_*Q$\\${i}`,
      ...(i % 2 === 0 ? { variationId: variations.emberTwin } : { asWritten: { casting: name } }),
      grade: 7,
      location: name,
      notes: `${name}\n${long}`,
    })),
  });
  for (const carId of ids) {
    await api.cars.saveCheck({ carId, checkedOn: '2026-02-01', grade: 7, notes: names[0]!, parts: [] });
    await api.cars.saveCheck({ carId, checkedOn: '2026-03-01', grade: 4, notes: long, parts: [] });
    await api.cars.addExpense({
      carId,
      spentOn: '2026-02-02',
      what: names[carId % names.length]!,
      minor: 301,
      currency: 'USD',
    });
  }
  return { ...service, lotId, ids };
};

const numberOf = (i: number) => `#${i}_*Q$\\${i}`;
const kinds = ['collection', ...paperKinds, 'labels'] as const;
const ofOneCar = new Set<string>(['dossier', 'sale-sheet', 'claim', 'bench-sheet']);

describe.skipIf(!canReadPdf)('every kind of paper', () => {
  it.each(kinds)('with words that are markup, of other scripts, long or unprintable: %s', async kind => {
    const { api, lotId, ids } = await shelf();
    const pdfOf = async (index: number, standard: 'a-2a' | 'ua-1') => {
      const made = await resultOf<{ token: string; warnings: string[]; pages: number }>(
        kind === 'collection'
          ? await api.reports.make({ format: 'pdf', standard, withChanges: true })
          : kind === 'labels'
            ? await api.papers.labels({})
            : await api.papers.make({
                kind,
                standard,
                ...(ofOneCar.has(kind) && { carId: ids[index]! }),
                ...(kind === 'bid' && { lotId }),
              }),
      );
      const file = await api.reports.file({ token: made.token });
      return { made, pdf: Buffer.from(await file.arrayBuffer()) };
    };
    for (const index of ofOneCar.has(kind) ? ids.keys() : [0])
      for (const standard of kind === 'labels' ? (['a-2a'] as const) : (['a-2a', 'ua-1'] as const)) {
        const { made, pdf } = await pdfOf(index, standard);
        expect(made.warnings.filter(warning => warning.startsWith('Made as a plain'))).toEqual([]);
        const { info, fonts, edgesAreBare, text, check } = readBack(pdf);
        expect(info.get('Tagged')).toBe('yes');
        expect(info.get('Title')).not.toBe('');
        expect(info.get('Pages')).toBe(String(made.pages));
        expect(fonts.length).toBeGreaterThan(0);
        for (const font of fonts) expect(font?.[0], 'fonts are embedded').toBe('yes');
        expect(check()).toMatch(/No syntax or stream encoding errors found/);
        if (canReadStructure)
          expect(faultsOf(readStructure(pdf)), 'a reader can be led through it').toEqual([]);
        if (canReadStructure) expect(archiveFaults(readObjects(pdf), standard)).toEqual([]);
        expect(pdf.toString('latin1')).toContain(
          standard === 'ua-1' ? '<pdfuaid:part>1</pdfuaid:part>' : '<pdfaid:part>2</pdfaid:part>',
        );
        if (kind !== 'want-list' && kind !== 'ledger')
          for (const i of ofOneCar.has(kind) ? [index] : ids.keys()) expect(text).toContain(numberOf(i));
        if (kind === 'ledger') {
          expect(text).toContain('123.45');
          expect(text).toContain('18.06');
        }
        if (kind === 'dossier' || kind === 'collection') expect(text).toContain(squeezed(long));
        if (kind !== 'labels') expect(await edgesAreBare(), 'nothing runs off the paper').toBe(true);
      }
  });
});

/** A paper of any kind with nothing said but what it is about. */
const plainPaper = async (
  api: Api,
  kind: (typeof kinds)[number],
  about: { carId?: number; lotId?: number },
) => {
  const made = await resultOf<{ token: string; warnings: string[]; pages: number }>(
    kind === 'collection'
      ? await api.reports.make({ format: 'pdf' })
      : kind === 'labels'
        ? await api.papers.labels({})
        : await api.papers.make({ kind, ...about }),
  );
  return { made, pdf: Buffer.from(await (await api.reports.file({ token: made.token })).arrayBuffer()) };
};

describe.skipIf(!canReadPdf)('a collection with next to nothing in it', () => {
  it.each(kinds)('without a car, and without a reference: %s', async kind => {
    const { api } = await newCollectionService();
    if (kind === 'want-list' || kind === 'ledger') {
      const { made, pdf } = await plainPaper(api, kind, {});
      expect(made.warnings).toEqual([]);
      const { text, info } = readBack(pdf);
      expect(info.get('Pages')).toBe('1');
      expect(text).toContain(squeezed(kind === 'want-list' ? 'Want list' : 'Ledger'));
      expect(text).not.toMatch(/NaN|undefined|null|Infinity/);
    } else if (kind === 'bid') {
      const { id: lotId } = await api.lots.create({ name: 'Loft', currency: 'USD' });
      expect((await refusalOf(plainPaper(api, kind, {}))).message).toMatch(/about one lot: say which/);
      const { message } = await refusalOf(plainPaper(api, kind, { lotId }));
      expect(message).toBe('There is no car to bid for. Add the cars of the lot first.');
    } else if (ofOneCar.has(kind)) {
      expect((await refusalOf(plainPaper(api, kind, {}))).message).toMatch(/about one car: say which/);
      expect(await refusalOf(plainPaper(api, kind, { carId: 1 }))).toMatchObject({ code: 'NOT_FOUND' });
    } else {
      const { message } = await refusalOf(plainPaper(api, kind, {}));
      expect(message).toMatch(/^There is no car .*Add cars, or choose others\.$/);
    }
  });

  it.each(kinds)('with one car of which nothing is known but its number: %s', async kind => {
    const { api } = await newCollectionService();
    const { id: lotId } = await api.lots.create({ name: 'Loft', currency: 'USD' });
    const { ids } = await api.cars.create({ lotId, cars: [{ inventoryNumber: 'Q-7' }] });
    const about = { ...(ofOneCar.has(kind) && { carId: ids[0]! }), ...(kind === 'bid' && { lotId }) };
    const wants: Partial<Record<typeof kind, RegExp>> = {
      claim: /Record its condition as it is now/,
      bid: /Identify and grade them first/,
    };
    if (wants[kind]) {
      expect((await refusalOf(plainPaper(api, kind, about))).message).toMatch(wants[kind]);
      return;
    }
    const { made, pdf } = await plainPaper(api, kind, about);
    expect(made.warnings).toEqual([]);
    const { text, info } = readBack(pdf);
    expect(info.get('Pages')).toBe(String(made.pages));
    if (kind !== 'want-list' && kind !== 'ledger') expect(text).toContain('Q-7');
    expect(text, 'where there is no value, nothing rests on anything').not.toContain(
      squeezed('What the figures rest on'),
    );
    expect(text).not.toMatch(/NaN|undefined|null|Infinity/);
  });
});
