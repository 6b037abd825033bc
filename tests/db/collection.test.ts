import { copyFileSync, existsSync, readdirSync, readFileSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { sql } from 'kysely';
import { describe, expect, it } from 'vitest';
import { applicationId, layout } from '../../db/file/layout.ts';
import { checkRuntime } from '../../db/file/runtime.ts';
import { runAction } from '../../db/history/history.ts';
import { collectionExists, createCollection, openCollection } from '../../db/open-collection.ts';
import { readReportingCurrency } from '../../db/records/collection/settings.ts';
import { schemaVersion } from '../../migrations/index.ts';
import { at, collectionErrorOf, newCollection, opened, temporaryFolder } from '../helpers/collections.ts';

const open = (dir: string) => openCollection(dir, { at, host: 'window' });

const created = async () => {
  const dir = temporaryFolder();
  await createCollection(dir, { at, reportingCurrency: 'EUR', newId: () => 'an id' });
  return dir;
};

describe('creating a collection', () => {
  it('makes the folder and one whole file with our identity', async () => {
    const dir = join(temporaryFolder(), 'deeper', 'Cars');
    await createCollection(dir, { at, reportingCurrency: 'EUR' });
    expect(readdirSync(dir)).toEqual(['collection.sqlite']);
    expect(collectionExists(dir)).toBe(true);
    const file = new Database(layout(dir).database, { readonly: true });
    expect(file.pragma('application_id', { simple: true })).toBe(applicationId);
    expect(file.pragma('user_version', { simple: true })).toBe(schemaVersion);
    file.close();
    expect(await readReportingCurrency((await opened(dir)).read.db)).toBe('EUR');
  });

  it('makes the same bytes from the same input', async () => {
    const [a, b] = [await created(), await created()];
    expect(readFileSync(layout(a).database).equals(readFileSync(layout(b).database))).toBe(true);
  });

  it('refuses a folder that has one and a currency that is none', async () => {
    const dir = await created();
    const again = () => createCollection(dir, { at, reportingCurrency: 'EUR' });
    expect((await collectionErrorOf(again)).code).toBe('exists');
    const other = temporaryFolder();
    await expect(createCollection(other, { at, reportingCurrency: 'euro' })).rejects.toThrow(RangeError);
    expect(collectionExists(other)).toBe(false);
  });
});

describe('opening a collection', () => {
  it('sets what keeps an acknowledged commit', async () => {
    const { read, write } = await newCollection();
    const pragma = (name: string) => write.sqlite.pragma(name, { simple: true });
    expect(pragma('journal_mode')).toBe('wal');
    expect(pragma('synchronous')).toBe(2);
    expect(pragma('foreign_keys')).toBe(1);
    expect(pragma('trusted_schema')).toBe(0);
    expect(pragma('cell_size_check')).toBe(1);
    expect(pragma('busy_timeout')).toBe(5000);
    expect(read.sqlite.pragma('foreign_keys', { simple: true })).toBe(1);
  });

  it('begins every transaction by taking the write lock', async () => {
    const collection = await newCollection();
    const other = new Database(layout(collection.dir).database, { timeout: 0 });
    await collection.write.db.transaction().execute(async () => {
      // Nothing has been read or written yet: a deferred transaction would let this one begin.
      expect(() => other.exec('BEGIN IMMEDIATE')).toThrow(/locked/);
    });
    other.exec('BEGIN IMMEDIATE');
    other.close();
  });

  it('reads on a connection that cannot write and is not held up by an action', async () => {
    const collection = await newCollection();
    await expect(
      collection.read.db.insertInto('maker').values({ name: 'A', country: null }).execute(),
    ).rejects.toThrow(/readonly/);
    let finish = () => {};
    const waiting = new Promise<void>(resolve => {
      finish = resolve;
    });
    const action = runAction(collection, 'Added a maker', at, async trx => {
      await trx.insertInto('maker').values({ name: 'A', country: null }).execute();
      await waiting;
    });
    const count = () => collection.read.db.selectFrom('maker').selectAll().execute();
    expect(await count()).toHaveLength(0);
    finish();
    await action;
    expect(await count()).toHaveLength(1);
  });

  it('leaves no log and no mark behind when it is closed, and says so when it was not', async () => {
    const dir = await created();
    const collection = await open(dir);
    expect(existsSync(layout(dir).wal) && existsSync(layout(dir).openMark)).toBe(true);
    const mark = readFileSync(layout(dir).openMark);
    await collection.close({ at });
    expect(existsSync(layout(dir).wal) || existsSync(layout(dir).openMark)).toBe(false);
    expect((await opened(dir)).notices).toEqual([]);
    const again = await created();
    writeFileSync(layout(again).openMark, mark);
    const log = JSON.parse(mark.toString()).walSalt;
    expect(log).toBeTypeOf('number');
    expect((await opened(again)).notices[0]).toMatch(/its write-ahead file .* is gone/);
  });

  it('waits for a running action before it closes, and refuses one that comes later', async () => {
    const collection = await open(await created());
    const action = runAction(collection, 'Added a maker', at, async trx => {
      await trx.insertInto('maker').values({ name: 'A', country: null }).execute();
      await new Promise(resolve => setTimeout(resolve, 20));
    });
    await Promise.all([action, collection.close({ at })]);
    const late = () => runAction(collection, 'Too late', at, async () => {});
    expect((await collectionErrorOf(late)).code).toBe('closed');
    const again = await opened(collection.dir);
    expect(await again.read.db.selectFrom('maker').selectAll().execute()).toHaveLength(1);
  });

  it('reads beside a program that writes, without the lock', async () => {
    const collection = await newCollection();
    const beside = await opened(collection.dir, { readOnly: true });
    await runAction(collection, 'Added a maker', at, trx =>
      trx.insertInto('maker').values({ name: 'A', country: null }).execute(),
    );
    expect(await beside.read.db.selectFrom('maker').selectAll().execute()).toHaveLength(1);
    await expect(runAction(beside, 'Cannot', at, async () => {})).rejects.toThrow(/written|readonly/);
  });
});

describe('what is not a collection of ours', () => {
  const refused = async (dir: string) => {
    const before = existsSync(layout(dir).database) ? readFileSync(layout(dir).database) : null;
    const names = readdirSync(dir);
    const error = await collectionErrorOf(() => open(dir));
    if (before) expect(readFileSync(layout(dir).database).equals(before)).toBe(true);
    expect(readdirSync(dir)).toEqual(names);
    expect(error.message).toContain(layout(dir).database);
    return error.code;
  };

  it('is refused where there is none, nothing created', async () => {
    expect(await refused(temporaryFolder())).toBe('missing');
  });

  it('is refused as an empty file, which SQLite would take for an empty database', async () => {
    const dir = temporaryFolder();
    writeFileSync(layout(dir).database, '');
    expect(await refused(dir)).toBe('damaged');
  });

  it('is refused as a database of another program', async () => {
    const dir = temporaryFolder();
    const other = new Database(layout(dir).database);
    other.exec('CREATE TABLE recipe (id INTEGER PRIMARY KEY)');
    other.close();
    expect(await refused(dir)).toBe('foreign');
  });

  it('is refused as some other file', async () => {
    const dir = temporaryFolder();
    writeFileSync(layout(dir).database, 'inventory_number,casting\n'.repeat(20));
    expect(await refused(dir)).toBe('damaged');
  });

  it('is refused when a newer version made it, and stays as it was', async () => {
    const dir = await created();
    const file = new Database(layout(dir).database);
    file.pragma(`user_version = ${schemaVersion + 1}`);
    file.close();
    expect(await refused(dir)).toBe('newer');
    const error = await collectionErrorOf(() => open(dir));
    expect(error.message).toMatch(/made by a newer version of Playworn/);
  });

  it('is refused when it is cut short', async () => {
    const dir = await created();
    truncateSync(layout(dir).database, readFileSync(layout(dir).database).length - 1);
    expect(await refused(dir)).toBe('damaged');
  });

  it('is refused beside a write-ahead log that a clean close cannot have left', async () => {
    const dir = await created();
    const other = await newCollection();
    await runAction(other, 'Added a maker', at, trx =>
      trx.insertInto('maker').values({ name: 'Stranger', country: null }).execute(),
    );
    copyFileSync(layout(other.dir).wal, layout(dir).wal);
    const error = await collectionErrorOf(() => open(dir));
    expect(error.code).toBe('damaged');
    expect(error.message).toMatch(/was not left there by this collection/);
  });
});

describe('the runtime', () => {
  it('is refused by name when its Node-API is older than the database needs', () => {
    expect(() => checkRuntime({ node: '20.20.2', napi: '9' })).toThrow(
      /needs Node 22.14 or newer; this is Node 20.20.2/,
    );
    expect(() => checkRuntime({ node: '22.14.0', napi: '10' })).not.toThrow();
  });
});

it('keeps text as it was entered, whatever characters it has', async () => {
  const collection = await newCollection();
  const name = `Ünïcødé "quoted" 'single' ; DROP TABLE car; -- \u{1F697} \u202e`;
  await runAction(collection, 'Added a maker', at, trx =>
    trx.insertInto('maker').values({ name, country: null }).execute(),
  );
  const row = await sql<{ name: string }>`SELECT name FROM maker`.execute(collection.read.db);
  expect(row.rows[0]?.name).toBe(name);
});
