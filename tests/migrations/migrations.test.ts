import { copyFileSync, existsSync, mkdtempSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import Database from 'better-sqlite3';
import { sql } from 'kysely';
import type { Migration } from 'kysely/migration';
import { describe, expect, it, vi } from 'vitest';
import { listBackups } from '../../db/backup/list.ts';
import { tableHashes } from '../../db/backup/manifest.ts';
import { restore } from '../../db/backup/restore.ts';
import { checkCollection } from '../../db/backup/verify.ts';
import { layout } from '../../db/file/layout.ts';
import { checkOrder } from '../../db/file/migrate.ts';
import { createCollection, openCollection } from '../../db/open-collection.ts';
import { migrations, schemaVersion } from '../../migrations/index.ts';
import { at, collectionErrorOf, opened, temporaryFolder } from '../helpers/collections.ts';

const fixtures = fileURLToPath(new URL('../fixtures/', import.meta.url));
const earlier = '2020-01-01T00:00:00.000Z';

const fromFixture = (version: number) => {
  const dir = mkdtempSync(join(temporaryFolder(), 'old-'));
  copyFileSync(join(fixtures, `schema-${version}.sqlite`), layout(dir).database);
  return dir;
};

/** Everything that makes the schema, in the order of its names. */
const schemaOf = (path: string): string => {
  const file = new Database(path, { readonly: true });
  const statements = file
    .prepare(
      "SELECT sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'kysely_%' ORDER BY type, name",
    )
    .pluck()
    .all() as string[];
  file.close();
  return `${statements.join(';\n\n')};\n`;
};

/** One more step than this version has. */
const next = (up: Migration['up']) => ({
  ...migrations,
  [`${String(schemaVersion + 1).padStart(4, '0')}-next`]: { up },
});
const addWeight = next(async db => {
  await sql`ALTER TABLE car ADD COLUMN weight_gram INTEGER`.execute(db);
});

describe('the schema steps', () => {
  it('are numbered in the order in which they are listed', () => {
    expect(() => checkOrder(migrations)).not.toThrow();
    const step = { up: async () => {} };
    expect(() => checkOrder({ '0002-b': step, '0001-a': step })).toThrow('"0002-b" is in place 0001');
    expect(() => checkOrder({ '0001-a': step, '0003-c': step })).toThrow('"0003-c" is in place 0002');
    expect(() => checkOrder({ first: step })).toThrow();
  });

  it('are all taken, once and in order, and counted in the file', async () => {
    const taken: string[] = [];
    const watched = Object.fromEntries(
      Object.entries(migrations).map(([name, { up }]) => [
        name,
        {
          up: vi.fn(async (db: Parameters<typeof up>[0]) => {
            taken.push(name);
            await up(db);
          }),
        },
      ]),
    );
    const dir = temporaryFolder();
    await createCollection(dir, { at, reportingCurrency: 'USD', steps: watched });
    await (await openCollection(dir, { at, host: 'window', steps: watched })).close({ at });
    expect(taken).toEqual(Object.keys(migrations));
    for (const { up } of Object.values(watched)) expect(up).toHaveBeenCalledOnce();
    const file = new Database(layout(dir).database, { readonly: true });
    expect(file.pragma('user_version', { simple: true })).toBe(schemaVersion);
    file.close();
  });

  it('make the schema that is written down beside this test', async () => {
    const dir = temporaryFolder();
    await createCollection(dir, { at, reportingCurrency: 'USD' });
    await expect(schemaOf(layout(dir).database)).toMatchFileSnapshot('schema.sql');
  });

  it('make the columns that the types say', async () => {
    const folder = new URL('../../db/schema/', import.meta.url);
    const source = readdirSync(folder)
      .map(name => readFileSync(new URL(name, folder), 'utf8'))
      .join('\n');
    const bodies = new Map(
      [...source.matchAll(/interface (\w+) \{\n([^}]*)\}/g)].map(([, name, body]) => [name!, body!]),
    );
    const declared = [...bodies].filter(([name]) => name.endsWith('Tables')).map(([, body]) => body);
    const typed = [...declared.join('').matchAll(/^ {2}(\w+): (\w+);$/gm)].map(([, table, type]) => [
      table!,
      [...bodies.get(type!)!.matchAll(/^ {2}(\w+): (.+);$/gm)].map(([, column, of]) => ({
        column: column!,
        nullable: of!.includes('null'),
      })),
    ]);
    const dir = temporaryFolder();
    await createCollection(dir, { at, reportingCurrency: 'USD' });
    const file = new Database(layout(dir).database, { readonly: true });
    const tables = (file.pragma('table_list') as { name: string; type: string }[])
      .filter(({ name, type }) => type === 'table' && !/^(sqlite_|kysely_)/.test(name))
      .map(({ name }) => [
        name,
        (file.pragma(`table_info(${name})`) as { name: string; notnull: number; pk: number }[]).map(
          column => ({
            column: column.name,
            nullable: column.notnull === 0 && column.pk === 0,
          }),
        ),
      ]);
    file.close();
    expect(Object.fromEntries(typed)).toEqual(Object.fromEntries(tables));
  });
});

describe('a collection of an earlier schema', () => {
  const versions = Array.from({ length: schemaVersion }, (_, i) => i + 1);

  it('has a fixture for every schema there was', () => {
    expect(readdirSync(fixtures).filter(name => /^schema-\d+\.sqlite$/.test(name))).toHaveLength(
      schemaVersion,
    );
  });

  it.each(versions)('of schema %i opens, keeps every row, and has the schema of a new one', async version => {
    const dir = fromFixture(version);
    const old = new Database(layout(dir).database, { readonly: true });
    const rows = Object.entries(tableHashes(old)).map(([name, { rows }]) => [name, rows]);
    const hasId = old.prepare(`SELECT count(*) FROM setting WHERE key = 'collection-id'`).pluck().get() === 1;
    old.close();
    const collection = await openCollection(dir, { at, host: 'window' });
    for (const [name, count] of rows)
      expect([name, collection.write.sqlite.prepare(`SELECT count(*) FROM ${name}`).pluck().get()]).toEqual([
        name,
        // A collection from before they had one is given an id of its own.
        name === 'kysely_migration'
          ? schemaVersion
          : name === 'setting' && !hasId
            ? Number(count) + 1
            : count,
      ]);
    expect((await listBackups(dir)).map(backup => backup.reason)).toEqual(
      version < schemaVersion ? ['before updating'] : [],
    );
    await collection.close({ at });
    const fresh = temporaryFolder();
    await createCollection(fresh, { at, reportingCurrency: 'USD' });
    expect(schemaOf(layout(dir).database)).toBe(schemaOf(layout(fresh).database));
  });

  it('is backed up before it is brought to the newest, and can go back by restoring', async () => {
    const dir = fromFixture(schemaVersion);
    await (await openCollection(dir, { at, host: 'window', steps: addWeight })).close({ at });
    const [backup] = await listBackups(dir);
    expect(backup?.reason).toBe('before updating');
    expect((await collectionErrorOf(() => openCollection(dir, { at, host: 'window' }))).code).toBe('newer');
    await restore(dir, backup!.name, { at, host: 'window' });
    const back = await opened(dir);
    expect((await checkCollection(back)).filter(finding => finding.level === 'damage')).toEqual([
      // The fixture's one photograph is a row without its file.
      expect.objectContaining({ subject: 'photograph', sha256: 'ab'.repeat(32), fault: 'missing' }),
    ]);
    expect(await back.read.db.selectFrom('car').select('inventory_number').execute()).toHaveLength(1);
  });

  it('opens again after the clock was set back between two updates', async () => {
    const dir = fromFixture(schemaVersion);
    const open = () => openCollection(dir, { at: earlier, host: 'window', steps: addWeight });
    await (await open()).close({ at: earlier });
    await (await open()).close({ at: earlier });
  });
});

describe('a step that fails', () => {
  const failing: [string, RegExp, Migration['up']][] = [
    [
      'half-way',
      /on purpose/,
      async db => {
        await sql`CREATE TABLE half (id INTEGER PRIMARY KEY)`.execute(db);
        await sql`DELETE FROM expense`.execute(db);
        throw new Error('on purpose');
      },
    ],
    ['in SQL', /no such table/, async db => void (await sql`DROP TABLE absent`.execute(db))],
    [
      'by leaving rows that point at nothing',
      /1 row would point at nothing/,
      async db => void (await sql`DELETE FROM maker`.execute(db)),
    ],
  ];

  it.each(failing)(
    '%s throws and leaves everything as it was, with the backup made before',
    async (_, reason, up) => {
      const dir = fromFixture(schemaVersion);
      const content = () => {
        const file = new Database(layout(dir).database, { readonly: true });
        const now = [
          tableHashes(file),
          file.pragma('user_version', { simple: true }),
          schemaOf(layout(dir).database),
        ];
        file.close();
        return now;
      };
      const before = content();
      await expect(openCollection(dir, { at, host: 'window', steps: next(up) })).rejects.toThrow(reason);
      expect(content()).toEqual(before);
      expect(await listBackups(dir)).toHaveLength(1);
      const collection = await opened(dir);
      expect(await collection.read.db.selectFrom('expense').selectAll().execute()).toHaveLength(1);
    },
  );

  it('leaves no new collection', async () => {
    const dir = temporaryFolder();
    const steps = next(async () => {
      throw new Error('on purpose');
    });
    await expect(createCollection(dir, { at, reportingCurrency: 'USD', steps })).rejects.toThrow(
      'on purpose',
    );
    expect(existsSync(layout(dir).database)).toBe(false);
    expect(readdirSync(dir)).toEqual([]);
  });
});
