import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, expect, it } from 'vitest';
import { pdfText } from '../../reports/read-pdf.ts';
import { answer, playworn } from './run-command.ts';

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
});

it('a bid on the command line knows what delivery costs, and what was saved with the lot', async () => {
  const dir = join(folder, 'seen');
  const list = join(folder, 'seen.csv');
  writeFileSync(list, 'Number,Casting,Colour,Grade\nS-1,Osmerry,Ember,7\n');
  const sales = join(folder, 'sales.csv');
  const sale = 'sold_on,price,currency,casting,colour,grade,source';
  writeFileSync(sales, `${sale}\n${'2025-03-03,90,USD,Osmerry,Ember,7,fair\n'.repeat(9)}`);
  await answer(['import', list, '--as', 'lot', '--name', 'Seen tray', '--collection', dir]);
  await answer(['import', sales, '--as', 'sales', '--add-reference', '--collection', dir]);
  const bid = async (...options: string[]) => {
    const out = join(folder, 'bid.pdf');
    const lot = ['--kind', 'bid', '--lot', 'Seen tray'];
    await answer(['report', ...lot, '--collection', dir, '--out', out, ...options]);
    const text = await pdfText(readFileSync(out));
    return Number(/Bid no more than USD ([\d.]+)\./.exec(text)?.[1]);
  };
  const without = await bid();
  expect(without).toBeGreaterThan(20);
  expect(await bid('--delivery', '12.50')).toBeCloseTo(without - 12.5, 2);
  await expect(bid('--delivery', '1.234')).rejects.toThrow(/--delivery/);
});

it('a paper without its car or lot, and a file of another kind, are refused with what to write instead', async () => {
  const dir = join(folder, 'asked');
  const list = join(folder, 'asked.csv');
  writeFileSync(list, 'Number,Casting\nA-1,Osmerry\n');
  await answer(['import', list, '--as', 'lot', '--name', 'Tray', '--collection', dir]);
  const out = ['--collection', dir, '--out', join(folder, 'asked.pdf')];
  const said = async (args: string[], code = 1) => {
    const outcome = await playworn(args);
    expect(outcome.code, outcome.stderr).toBe(code);
    return outcome.stderr;
  };
  for (const kind of ['dossier', 'sale-sheet', 'claim', 'bench-sheet'])
    expect(await said(['report', '--kind', kind, ...out])).toContain('Say which car with --car NUMBER.');
  expect(await said(['report', '--kind', 'bid', ...out])).toContain('Say which lot with --lot "Name".');
  expect(await said(['report', '--kind', 'want-list', '--car', 'A-1', ...out])).toContain(
    '--car goes with --kind dossier',
  );
  expect(await said(['report', '--kind', 'ledger', '--lot', 'Tray', ...out])).toContain(
    '--lot goes with --kind collection',
  );
  for (const name of ['archive', 'gallery'])
    expect(await said([name, '--collection', dir, '--out', join(folder, 'a.tar')], 2)).toContain(
      'It is written as FILE.zip, or as a folder.',
    );
  const other = await said(['unarchive', list, '--collection', join(folder, 'back')]);
  expect(other).toContain('it is not a ZIP file.');
  expect(other).not.toContain('playworn restore');
  expect(existsSync(join(folder, 'back'))).toBe(false);
});
