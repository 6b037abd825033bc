/** The command line among other programs: readers that leave, interrupts, disks and files that give out. */
import { spawnSync } from 'node:child_process';
import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { temporaryFolder } from '../../helpers/collections.ts';
import { makeReadOnly } from '../../helpers/mounts.ts';
import { command, playworn } from './run-command.ts';

const lot = (folder: string, rows: string, name = 'lot.csv'): string => {
  const path = join(folder, name);
  writeFileSync(path, `inventory_number,casting,notes\n${rows}`);
  return path;
};
const importing = (path: string, collection: string) => [
  'import',
  path,
  '--as',
  'lot',
  '--collection',
  collection,
];

/** A module that runs before the command does. */
const beforehand = (code: string): string[] => [
  '--import',
  `data:text/javascript,${encodeURIComponent(code)}`,
];

describe('a cell with control characters', () => {
  it('reaches the terminal in no command', async () => {
    const folder = temporaryFolder();
    const collection = join(folder, 'c');
    const steering = '\u001b]0;owned\u0007\u001b[31m';
    const imported = await playworn(
      importing(lot(folder, `A${steering},Dovetail${steering},x\n`), collection),
    );
    const shown = [
      imported,
      await playworn(['value', '--collection', collection]),
      await playworn(['decide', '--collection', collection]),
      await playworn(['value', '--collection', collection, '--json']),
      await playworn([
        'report',
        '--out',
        join(folder, 'x.csv'),
        '--lot',
        steering,
        '--collection',
        collection,
      ]),
    ];
    for (const { stdout, stderr } of shown) expect(stdout + stderr).not.toMatch(/[^\P{Cc}\n]/u);
    expect(shown[1]?.stdout).toContain('A\\u001b]0;owned\\u0007');
  });
});

describe('a reader that leaves', () => {
  it.skipIf(process.platform === 'win32')('ends the command without a word about it', async () => {
    const folder = temporaryFolder();
    const collection = join(folder, 'c');
    const rows = Array.from({ length: 3000 }, (_, i) => `A-${i},Dovetail,\n`).join('');
    expect((await playworn(importing(lot(folder, rows), collection))).code).toBe(0);
    const line = `"$0" "$1" value --collection "$2" | head -1; echo "ended with \${PIPESTATUS[0]}"`;
    const { stdout, stderr } = spawnSync('bash', ['-c', line, process.execPath, command, collection], {
      encoding: 'utf8',
    });
    expect(stderr).toBe('');
    expect(stdout).toMatch(/^Values on .*\nended with 0\n$/);
    expect(existsSync(join(collection, 'collection.open'))).toBe(false);
  });
});

describe('an interrupt', () => {
  const printing = (signals: number) =>
    beforehand(`
      const write = process.stdout.write;
      process.stdout.write = function (...args) {
        for (let i = 0; i < ${signals}; i++) process.kill(process.pid, 'SIGINT');
        return write.apply(this, args);
      };`);
  it.skipIf(process.platform === 'win32')(
    'while the collection is being closed is answered, and closes it whole',
    async () => {
      const folder = temporaryFolder();
      const collection = join(folder, 'c');
      await playworn(importing(lot(folder, 'A-1,Dovetail,\n'), collection));
      const words = ['value', '--collection', collection];
      const ended = spawnSync(process.execPath, [...printing(2), command, ...words], { encoding: 'utf8' });
      expect(ended.stderr).toContain('Closing the collection; this takes a moment.');
      expect({ code: ended.status, signal: ended.signal }).toEqual({ code: 0, signal: null });
      expect(existsSync(join(collection, 'collection.open'))).toBe(false);
      expect(readdirSync(join(collection, 'backups')).length).toBe(1);
    },
  );
});

describe('a first import', () => {
  it('that is refused leaves no collection behind', async () => {
    const folder = temporaryFolder();
    const deep = join(folder, 'mine', 'cars');
    const noCasting = join(folder, 'other.csv');
    writeFileSync(noCasting, 'colour\nEmber\n');
    const refused = await playworn(importing(noCasting, deep));
    expect(refused.code).toBe(1);
    expect(refused.stderr).toContain(`the empty collection in ${deep} was removed again`);
    expect(readdirSync(folder)).toEqual(['other.csv']);
  });
  it('of which no row can be taken leaves none either, and what else was there', async () => {
    const folder = temporaryFolder();
    const own = join(folder, 'mine');
    mkdirSync(join(own, 'photos'), { recursive: true });
    writeFileSync(join(own, 'photos', 'holiday.jpg'), 'x');
    writeFileSync(join(own, 'letter.txt'), 'x');
    const path = join(folder, 'lot.csv');
    writeFileSync(path, 'casting,grade\n,eleven\n');
    const refused = await playworn(importing(path, own));
    expect(refused.code, refused.stderr).toBe(1);
    expect(readdirSync(own).sort()).toEqual(['letter.txt', 'photos']);
    expect(readdirSync(join(own, 'photos'))).toEqual(['holiday.jpg']);
  });
});

describe('a collection that another program makes just before an import does', () => {
  it('stays whole', async () => {
    const folder = temporaryFolder();
    const [theirs, here] = [join(folder, 'theirs'), join(folder, 'here')];
    const path = lot(folder, 'A-1,Dovetail,\n');
    expect((await playworn(importing(path, theirs))).code).toBe(0);
    // It is not there when the command looks first, and there when it goes to make one.
    const appearing = beforehand(`
      import fs from 'node:fs';
      import { syncBuiltinESMExports } from 'node:module';
      const exists = fs.existsSync;
      let looked = 0;
      fs.existsSync = path => {
        if (path === ${JSON.stringify(join(here, 'collection.sqlite'))} && ++looked === 2)
          fs.cpSync(${JSON.stringify(theirs)}, ${JSON.stringify(here)}, { recursive: true });
        return exists(path);
      };
      syncBuiltinESMExports();`);
    const ended = spawnSync(process.execPath, [...appearing, command, ...importing(path, here)], {
      encoding: 'utf8',
    });
    expect(ended.status).toBe(1);
    expect(ended.stderr).toContain('already');
    const valued = await playworn(['value', '--collection', here]);
    expect(valued.stdout, valued.stderr).toContain('A-1');
  });
});

describe('a file that cannot be read', () => {
  it('is named, with what it is', async () => {
    const folder = temporaryFolder();
    const collection = join(folder, 'c');
    const asFolder = await playworn(importing(folder, collection));
    expect([asFolder.code, asFolder.stderr]).toEqual([
      1,
      `${folder} is a folder. Name the spreadsheet in it.\n`,
    ]);
    const missing = await playworn(importing(join(folder, 'no.csv'), collection));
    expect([missing.code, missing.stderr]).toEqual([1, `There is no file ${join(folder, 'no.csv')}.\n`]);
    expect(existsSync(collection)).toBe(false);
  });
  it('because it changes while it is read is refused with a sentence', () => {
    const folder = temporaryFolder();
    const path = lot(folder, 'A-1,Dovetail,\n');
    // The file grows once the command has taken hold of it.
    const growing = beforehand(`
      import fs from 'node:fs';
      import { syncBuiltinESMExports } from 'node:module';
      const open = fs.openAsBlob;
      fs.openAsBlob = async path => {
        const blob = await open(path);
        fs.appendFileSync(path, 'more');
        return blob;
      };
      syncBuiltinESMExports();`);
    const words = importing(path, join(folder, 'c'));
    const ended = spawnSync(process.execPath, [...growing, command, ...words], { encoding: 'utf8' });
    expect(ended.status).toBe(1);
    expect(ended.stderr).toContain('The file could not be read in full');
    expect(ended.stderr).not.toContain('Playworn itself failed');
    expect(existsSync(join(folder, 'c'))).toBe(false);
  });
});

describe('a backup that fails on closing', () => {
  it('is said, and ends with 1', async context => {
    const folder = temporaryFolder();
    const collection = join(folder, 'c');
    expect((await playworn(importing(lot(folder, 'A-1,Dovetail,\n'), collection))).code).toBe(0);
    makeReadOnly(context, join(collection, 'backups'));
    const ended = await playworn(importing(lot(folder, 'A-2,Dovetail,\n', 'more.csv'), collection));
    expect(ended.stdout).toContain('1 row imported, 0 rejected, 0 duplicates');
    expect(ended.stderr).toContain('No backup was made on closing');
    expect(ended.code).toBe(1);
  });
});
