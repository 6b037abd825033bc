import { execFileSync, spawn, spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { answer, command, playworn, playwornProcess } from './run-command.ts';

const referenceRows = `maker,series,casting,release_name,release_year,colour,base_paint,rear_end,rarity
Quillon Toys of Wrenmoor,Hedgerow,Thornby,Thornby,1968,Ember,none,,common
Quillon Toys of Wrenmoor,Hedgerow,Thornby,Thornby,1968,Harebell,none,,scarce
Quillon Toys of Wrenmoor,Hedgerow,Alder Post,Alder Post,1970,Ember,none,,common
`;
const lotRows = `inventory_number,casting,colour,base_paint,grade,finish_state
A-1,Thornby,Ember,none,C5,original
A-2,Thornby,Harebell,none,7.5,original
A-3,Alder Post,Ember,none,3,stripped
A-4,Nobody Knows,Ember,none,6,original
A-5,Thornby,Ember,none,eleven,original
A-1,Alder Post,Ember,none,6,original
`;
const sale = (day: number, price: string, casting: string, colour: string, grade: number) =>
  `2026-0${1 + (day % 9)}-1${day % 10},${price},USD,${casting},${colour},none,${grade},original,Field sale,${day}`;
const salesRows = [
  'sold_on,price,currency,casting,colour,base_paint,grade,finish_state,source,reference',
  ...Array.from({ length: 12 }, (_, day) => sale(day, `${20 + day}.50`, 'Thornby', 'Ember', 4 + (day % 5))),
  ...Array.from({ length: 8 }, (_, day) => sale(day, `${31 + day}.00`, 'Alder Post', 'Ember', 5 + (day % 4))),
].join('\n');

let folder: string;
let collection: string;
const file = (name: string, text: string): string => {
  const path = join(folder, name);
  writeFileSync(path, text);
  return path;
};
const on = (...args: string[]) => [...args, '--collection', collection];

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'cli-'));
  collection = join(folder, 'Collection');
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** One day at the bench, from an empty folder to the report; each step stands on the one before. */
describe('the command line', () => {
  it('tries an import without leaving anything behind', async () => {
    const reference = file('reference.csv', referenceRows);
    const tried = await answer(on('import', reference, '--as', 'reference', '--dry-run'));
    expect(tried).toMatchObject({ accepted: 3, rejected: [], duplicates: 0 });
    expect(existsSync(collection)).toBe(false);
    expect(readdirSync(folder)).toEqual(['reference.csv']);
  });

  it('makes a missing collection on import, and says so', async () => {
    const { code, stdout, stderr } = await playwornProcess(
      on('import', join(folder, 'reference.csv'), '--as', 'reference', '--currency', 'USD', '--json'),
    );
    expect(code).toBe(0);
    expect(stderr).toContain(`Made a collection in ${collection}`);
    expect(JSON.parse(stdout)).toMatchObject({ accepted: 3, rejected: [], duplicates: 0 });
    const again = await answer(on('import', join(folder, 'reference.csv'), '--as', 'reference'));
    expect(again).toMatchObject({ accepted: 0, duplicates: 3 });
  });

  it('imports a lot with its price, naming line, column and reason of what it rejects', async () => {
    const lot = file('lot.csv', lotRows);
    const result = await answer(
      on('import', lot, '--as', 'lot', '--price', '412.50', '--currency', 'USD', '--name', 'Barn tin'),
    );
    expect(result.accepted).toBe(6);
    expect(result.lot).toMatchObject({ name: 'Barn tin' });
    expect(result.not_understood).toMatchObject([{ column: 'grade', text: 'eleven', lines: [6] }]);
    expect(result).toMatchObject({ duplicates: 0, rejected: [] });
  });

  it('maps headings that are not ours', async () => {
    const theirs = file('theirs.csv', 'Tag,What is it,Paint,Shape it is in\nB-1,Thornby,Ember,C6\n');
    const map = ['Tag=inventory_number', 'What is it=casting', 'Paint=colour', 'Shape it is in=grade'];
    const result = await answer(
      on('import', theirs, '--as', 'lot', '--name', 'Mapped', ...map.flatMap(mapping => ['--map', mapping])),
    );
    expect(result).toMatchObject({ accepted: 1, rejected: [], lot: { name: 'Mapped' } });
  });

  it('offers to add castings that sales name and the reference does not have', async () => {
    const sales = file('sales.csv', salesRows);
    expect(await answer(on('import', sales, '--as', 'sales'))).toMatchObject({ accepted: 20, rejected: [] });
    const unknown = file(
      'unknown.csv',
      'sold_on,price,currency,casting,grade\n2026-05-01,12.00,USD,Marshlight,6\n',
    );
    const without = await answer(on('import', unknown, '--as', 'sales', '--dry-run'));
    expect(without).toMatchObject({ accepted: 1, unidentified: 1 });
    const added = await answer(on('import', unknown, '--as', 'sales', '--add-reference'));
    expect(added).toMatchObject({ accepted: 1, addedCastings: 1 });
  });

  it('values every car, in decimal strings', async () => {
    const { on: day, currency, cars } = await answer(on('value', '--on', '2026-10-31'), 0, playwornProcess);
    expect({ day, currency }).toEqual({ day: '2026-10-31', currency: 'USD' });
    expect(cars.map((car: { inventoryNumber: string }) => car.inventoryNumber).sort()).toEqual([
      '0001',
      'A-1',
      'A-2',
      'A-3',
      'A-4',
      'A-5',
      'B-1',
    ]);
    const found = cars.find((car: { inventoryNumber: string }) => car.inventoryNumber === 'A-1');
    expect(found).toMatchObject({ casting: 'Thornby', grade: 5, finishState: 'original' });
    expect(found.variation).toContain('Ember');
    const { low, mid, high } = found.asFound;
    for (const amount of [low, mid, high]) expect(amount).toMatch(/^\d+\.\d\d$/);
    expect(Number(low)).toBeLessThan(Number(mid));
    expect(Number(mid)).toBeLessThan(Number(high));
    expect(found.evidence).toEqual({ sales: 12, credibility: expect.any(Number) });
    const unknown = cars.find((car: { inventoryNumber: string }) => car.inventoryNumber === 'A-4');
    expect(unknown).toMatchObject({ casting: null, asFound: null, restored: null, originalFinish: null });
  });

  it('decides for every car, with reasons', async () => {
    const { cars, chosen } = await answer(on('decide', '--hours', '6', '--cash', '40'));
    const words = ['leave', 'conserve', 'restore', 'customise', 'donor', 'not-enough-evidence'];
    for (const car of cars) {
      expect(words).toContain(car.recommendation);
      expect(Object.keys(car.cost)).toEqual(['low', 'mid', 'high']);
      expect(car.reasons.length).toBeGreaterThan(0);
      expect(car.why.startsWith(car.reasons[0])).toBe(true);
      // What is too little was told just before.
      expect(car.why).not.toMatch(/(?<! cases\.) That is under/);
      if (car.recommendation === 'not-enough-evidence') continue;
      expect(car.expectedGain).toMatch(/^-?\d+\.\d\d$/);
      expect(car.probability).toBeGreaterThanOrEqual(0);
      expect(car.probability).toBeLessThanOrEqual(1);
      if (car.recommendation === 'leave')
        expect(car).toMatchObject({ expectedGain: '0.00', cost: { mid: '0.00' } });
    }
    const unknown = cars.find((car: { inventoryNumber: string }) => car.inventoryNumber === 'A-4');
    // No number is made up where none is known.
    expect(unknown).toMatchObject({
      recommendation: 'not-enough-evidence',
      expectedGain: null,
      probability: null,
      cost: { low: null, mid: null, high: null },
    });
    expect(Array.isArray(chosen)).toBe(true);
  });

  it('reports as PDF and CSV, of all or of one lot', async () => {
    const pdf = join(folder, 'report.pdf');
    expect((await answer(on('report', '--out', pdf))).bytes).toBe(readFileSync(pdf).byteLength);
    const text = execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8' });
    for (const number of ['A-1', 'A-2', 'A-3', 'A-4', 'B-1']) expect(text).toContain(number);
    const csv = join(folder, 'report.csv');
    await answer(on('report', '--out', csv, '--lot', 'barn tin'));
    const rows = readFileSync(csv, 'utf8');
    expect(rows).toContain('A-1');
    expect(rows).not.toContain('B-1');
    const unknown = await answer(on('report', '--out', csv, '--lot', 'No such lot'), 1);
    expect(unknown.error).toContain('"Barn tin"');
    expect(readdirSync(folder).filter(name => name.endsWith('.part'))).toEqual([]);
  });

  it('backs up, restores and checks', async () => {
    const before = (await answer(on('value'))).cars.length;
    const made = await answer(on('backup'));
    expect(made).toMatchObject({ name: expect.any(String), bytes: expect.any(Number) });
    await answer(on('import', file('more.csv', 'inventory_number,casting\nC-1,Thornby\n'), '--as', 'lot'));
    expect((await answer(on('value'))).cars.length).toBe(before + 1);
    expect(await answer(on('restore', made.name))).toMatchObject({ restored: made.name });
    expect((await answer(on('value'))).cars.length).toBe(before);
    expect((await answer(on('check'))).sound).toBe(true);
    expect((await answer(on('restore', 'no-such-backup'), 1)).error).toBeTruthy();
  });

  it.each([
    ['empty', (path: string) => writeFileSync(path, '')],
    ['cut short', (path: string) => truncateSync(path, Math.floor(statSync(path).size / 2))],
    ['overwritten', (path: string) => writeFileSync(path, 'not a database at all', { flag: 'r+' })],
    ['gone', (path: string) => rmSync(path)],
  ])('says how to restore a collection whose file is %s, and restores it', async (_state, harm) => {
    const before = (await answer(on('value'))).cars.length;
    harm(join(collection, 'collection.sqlite'));
    for (const words of [['value'], ['check'], ['backup']])
      expect((await answer(on(...words), 1)).error).toContain('"playworn restore --collection DIR"');
    await answer(on('restore'));
    expect((await answer(on('value'))).cars.length).toBe(before);
    expect((await answer(on('check'))).sound).toBe(true);
  });

  it('finds damage, ends with 1, and is put right by a backup', async () => {
    const before = (await answer(on('value'))).cars.length;
    const path = join(collection, 'collection.sqlite');
    const whole = readFileSync(path);
    writeFileSync(path, whole.subarray(0, Math.floor(whole.length / 2)));
    expect((await answer(on('check'), 1, playwornProcess)).error).toMatch(
      /damaged|cut short|Restore a backup/,
    );
    expect((await answer(on('value'), 1)).error).toMatch(/Restore a backup/);
    await answer(on('restore'));
    expect((await answer(on('check'))).sound).toBe(true);
    expect((await answer(on('value'))).cars.length).toBe(before);
  });
});

it('takes nothing in when it is interrupted, and closes the collection', async () => {
  const dir = join(folder, 'Interrupted');
  const lines = Array.from({ length: 120_000 }, (_, i) => `S-${i},Casting ${i % 50}`).join('\n');
  const many = file('many.csv', `inventory_number,casting\n${lines}`);
  const child = spawn(process.execPath, [command, 'import', many, '--as', 'lot', '--collection', dir]);
  let said = '';
  child.stderr.on('data', chunk => {
    said += chunk;
    // Twice, as a terminal and a program in between may.
    if (String(chunk).includes('Made a collection')) child.kill('SIGINT') && child.kill('SIGINT');
  });
  expect(await new Promise(resolve => child.once('exit', resolve))).toBe(130);
  expect(said).toMatch(/stopped/);
  expect(existsSync(dir)).toBe(false);
});

describe('use', () => {
  it('refuses a missing collection with 1, whatever the command but demo and import', async () => {
    const nowhere = join(folder, 'nowhere');
    const commands = [
      ['value'],
      ['decide'],
      ['report', '--out', join(folder, 'x.pdf')],
      ['backup'],
      ['restore'],
      ['check'],
    ];
    for (const words of commands) {
      const { error } = await answer([...words, '--collection', nowhere], 1);
      expect(error, words[0]).toContain(nowhere);
      expect(existsSync(nowhere), words[0]).toBe(false);
    }
  });
  it('refuses a file that is not there with 1, and makes no collection for it', async () => {
    const nowhere = join(folder, 'nowhere');
    const { error } = await answer(
      ['import', join(folder, 'gone.csv'), '--as', 'lot', '--collection', nowhere],
      1,
    );
    expect(error).toContain('gone.csv');
    expect(existsSync(nowhere)).toBe(false);
  });
  it('is wrong with 2 where a command is unknown or an option is missing', async () => {
    for (const words of [['frobnicate'], ['value'], []]) {
      const { code, stderr } = await playwornProcess(words);
      expect(code, words.join()).toBe(2);
      expect(stderr).not.toBe('');
    }
  });
  it('says what was wrong as JSON too, where that is asked for', async () => {
    expect((await answer(['value'], 2)).error).toContain('--collection');
    expect((await answer(['frobnicate'], 2)).error).toContain('frobnicate');
  });
  it('hands over to the Node of the checkout where the one it was started with is too old', async () => {
    const older = `data:text/javascript,${encodeURIComponent(
      `Object.defineProperty(process, 'versions', { value: { ...process.versions, node: '20.11.0' } })`,
    )}`;
    const run = (words: string[]) =>
      spawnSync(process.execPath, ['--import', older, command, ...words], { encoding: 'utf8' });
    expect(run(['--version']).stdout).toMatch(/^\d+\.\d+\.\d+\n$/);
    expect(run(['value']).status).toBe(2);
    expect(run(['value', '--collection', join(folder, 'nowhere')]).status).toBe(1);
  });
  it('explains itself', async () => {
    const { code, stdout } = await playwornProcess(['--help']);
    expect(code).toBe(0);
    for (const name of ['demo', 'import', 'value', 'decide', 'report', 'backup', 'restore', 'check'])
      expect(stdout).toContain(name);
    for (const help of [stdout, (await playworn(['help', 'import'])).stdout])
      expect(help).toMatch(/Exit codes:\n +0 +done\n +1 .*\n +2 .*\n +130 /);
  });
});
