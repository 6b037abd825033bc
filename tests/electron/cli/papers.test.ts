import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { pdfText } from '../../reports/read-pdf.ts';
import { answer } from './run-command.ts';

const folder = mkdtempSync(join(tmpdir(), 'playworn-test-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it('gallery and report --definition on the command line', async () => {
  const dir = join(folder, 'shelf');
  const list = join(folder, 'list.csv');
  writeFileSync(list, 'Casting,Colour,Grade,Location\nOsmerry,Ember,7,Drawer 9\n');
  await answer(['import', list, '--as', 'lot', '--collection', dir]);
  const out = join(folder, 'gallery');
  expect(await answer(['gallery', '--collection', dir, '--out', out, '--title', 'Shelf'])).toMatchObject({
    out,
    cars: 1,
    photographs: 0,
    warnings: [],
  });
  expect(readFileSync(join(out, 'index.html'), 'utf8')).toContain('<h1 dir="auto">Shelf</h1>');
  const pdf = join(folder, 'none.pdf');
  await expect(
    answer(['report', '--collection', dir, '--definition', 'Insurance', '--out', pdf]),
  ).rejects.toThrow(/There is no report "Insurance"/);
  expect(existsSync(pdf)).toBe(false);
  await answer(['report', '--collection', dir, '--no-values', '--no-places', '--keep', '--out', pdf]);
  const text = await pdfText(readFileSync(pdf));
  expect(text).toContain('Osmerry');
  expect(text).not.toMatch(/Drawer|USD|not enough evidence|basis of value/i);
  const accessible = join(folder, 'accessible.pdf');
  await answer(['report', '--collection', dir, '--standard', 'ua-1', '--changes', '--out', accessible]);
  expect(readFileSync(accessible, 'latin1')).toContain('<pdfuaid:part>1</pdfuaid:part>');
}, 120_000);
