import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import jsQr from 'jsqr';
import sharp from 'sharp';
import { describe, expect, it, onTestFinished } from 'vitest';
import {
  type LabelSheet,
  labelPlace,
  labelSheetKeys,
  labelSheets,
} from '../../../reports/labels/label-sheets.ts';
import { createLabelsPdf } from '../../../reports/typesetting/pdf.ts';

const stampedAt = '2026-03-14T00:00:00Z';
const odd = ['Q-001', 'Ä 7/b', '车 12', 'A-VERY-LONG-INVENTORY-NUMBER-0001', '#set *x*'];
const labelsOf = (count: number) =>
  Array.from({ length: count }, (_, i) => ({
    number: odd[i] ?? `Q-${String(i + 1).padStart(4, '0')}`,
    name: 'Thornwick Saloon, the long one with a name that does not end where it should',
    colour: 'Inkwell',
  }));

const dpi = 300;
const pixels = (mm: number) => Math.round((mm / 25.4) * dpi);

/** Each page as the printer would have it, in grey, with the means to cut a piece out. */
const pagesOf = (pdf: Uint8Array): string[] => {
  const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  writeFileSync(join(folder, 'labels.pdf'), pdf);
  execFileSync('pdftoppm', ['-r', String(dpi), '-png', join(folder, 'labels.pdf'), join(folder, 'page')]);
  return readdirSync(folder)
    .filter(name => name.endsWith('.png'))
    .sort()
    .map(name => join(folder, name));
};

/**
 * What a reader finds in the place of a label, and how far its code's corner lies from the label's
 * own, in millimetres.
 */
const readAt = async (page: string, sheet: LabelSheet, x: number, y: number) => {
  const { data, info } = await sharp(page)
    .extract({
      left: Math.max(0, pixels(x)),
      top: Math.max(0, pixels(y)),
      width: pixels(sheet.label.width) - 2,
      height: pixels(sheet.label.height) - 2,
    })
    .extend({ top: 20, bottom: 20, left: 20, right: 20, background: 'white' })
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  const found = jsQr.default(new Uint8ClampedArray(data), info.width, info.height);
  const corner = found?.location.topLeftCorner;
  const mm = (at: number) => ((at - 20) / dpi) * 25.4;
  return { text: found?.data, left: corner && mm(corner.x), top: corner && mm(corner.y) };
};

describe('labels', () => {
  it.each(labelSheetKeys)('lie in their places on %s, and each code reads as its number', async key => {
    const sheet: LabelSheet = labelSheets[key];
    const perPage = sheet.columns * sheet.rows;
    const count = Math.min(7, perPage + 1);
    const start = perPage > 4 ? perPage - 3 : 1;
    const labels = labelsOf(count);
    const { pdf, standard, warnings } = await createLabelsPdf(labels, { sheet, start }, { stampedAt });
    expect(standard).toBe('a-2a');
    const pages = pagesOf(pdf);
    expect(pages).toHaveLength(Math.ceil((start - 1 + count) / perPage));
    const offsets: number[] = [];
    const tops: number[] = [];
    for (const [i, label] of labels.entries()) {
      const { page, x, y } = labelPlace(sheet, start - 1 + i);
      const read = await readAt(pages[page]!, sheet, x, y);
      expect([i, read.text]).toEqual([i, label.number]);
      offsets.push(read.left!);
      tops.push(read.top!);
    }
    const pad = Math.min(2.5, sheet.label.height * 0.09);
    const side = Math.min(sheet.label.height - 2 * pad, sheet.label.width * 0.36);
    for (const top of tops) expect(Math.abs(top - (sheet.label.height - side) / 2)).toBeLessThan(0.5);
    for (const left of offsets) expect(Math.abs(left - (sheet.inset ?? pad))).toBeLessThan(0.5);
    expect(warnings.filter(warning => !/No font/.test(warning))).toEqual([]);
  });

  it('begin on the label that is asked for, and nowhere that the sheet does not have', async () => {
    const sheet = labelSheets['a4-3x8'];
    expect(labelPlace(sheet, 4)).toEqual({ page: 0, x: sheet.left + 70, y: sheet.top + 36 });
    expect(labelPlace(sheet, 24)).toEqual({ page: 1, x: sheet.left, y: sheet.top });
    await expect(createLabelsPdf(labelsOf(1), { sheet, start: 25 }, { stampedAt })).rejects.toThrow(
      /has 24 labels/,
    );
  });

  // Worked out by hand from the measures in the names: margins are half of what the labels and gaps leave.
  it.each([
    ['a4-3x8', { x: 0, y: 4.5 }, { x: 140, y: 256.5 }],
    ['a4-3x7', { x: 7.25, y: 15.15 }, { x: 139.25, y: 243.75 }],
    ['a4-5x13', { x: 4.75, y: 10.7 }, { x: 167.15, y: 265.1 }],
    ['letter-3x10', { x: 4.7625, y: 12.7 }, { x: 144.4625, y: 241.3 }],
    ['letter-4x20', { x: 7.62, y: 12.7 }, { x: 163.83, y: 254 }],
    ['roll-57x32', { x: 0, y: 0 }, { x: 0, y: 0 }],
    ['roll-62x29', { x: 0, y: 0 }, { x: 0, y: 0 }],
  ] as const)('fill a whole sheet of %s to half a millimetre', async (key, first, last) => {
    const sheet: LabelSheet = labelSheets[key];
    const labels = labelsOf(sheet.columns * sheet.rows);
    const { pdf } = await createLabelsPdf(labels, { sheet, start: 1 }, { stampedAt });
    const pages = pagesOf(pdf);
    expect(pages).toHaveLength(1);
    const { width, height } = await sharp(pages[0]).metadata();
    expect(Math.abs(width - pixels(sheet.page.width))).toBeLessThanOrEqual(1);
    expect(Math.abs(height - pixels(sheet.page.height))).toBeLessThanOrEqual(1);
    const pad = Math.min(2.5, sheet.label.height * 0.09);
    const side = Math.min(sheet.label.height - 2 * pad, sheet.label.width * 0.36);
    for (const [label, { x, y }] of [
      [labels.at(0)!, first],
      [labels.at(-1)!, last],
    ] as const) {
      const read = await readAt(pages[0]!, sheet, x, y);
      expect(read.text).toBe(label.number);
      expect(Math.abs(read.left! - (sheet.inset ?? pad))).toBeLessThan(0.5);
      expect(Math.abs(read.top! - (sheet.label.height - side) / 2)).toBeLessThan(0.5);
    }
  });

  it('fit on their pages', () => {
    for (const sheet of Object.values(labelSheets) as LabelSheet[]) {
      const last = labelPlace(sheet, sheet.columns * sheet.rows - 1);
      for (const edge of [sheet.left, sheet.top]) expect(edge).toBeGreaterThanOrEqual(-1e-9);
      expect(last.x + sheet.label.width).toBeLessThanOrEqual(sheet.page.width + 1e-9);
      expect(last.y + sheet.label.height).toBeLessThanOrEqual(sheet.page.height + 1e-9);
      if (sheet.columns > 1) expect(sheet.across).toBeGreaterThanOrEqual(sheet.label.width);
    }
  });
});
