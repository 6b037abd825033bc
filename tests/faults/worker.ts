/**
 * A program that works on a collection until it is killed, telling on its standard output what
 * has been acknowledged:
 *     node tests/faults/worker.ts MODE DIR
 */
import { writeSync } from 'node:fs';
import { setTimeout as sleep } from 'node:timers/promises';
import { type Kysely, sql } from 'kysely';
import { makeArchive } from '../../db/archive/make-archive.ts';
import { takeBack } from '../../db/archive/take-back.ts';
import { backUp } from '../../db/backup/backup.ts';
import { tableHashes } from '../../db/backup/manifest.ts';
import { restore } from '../../db/backup/restore.ts';
import { runAction, runBulk } from '../../db/history/history.ts';
import { undo } from '../../db/history/undo.ts';
import { createCollection, openCollection } from '../../db/open-collection.ts';
import { addPhoto, storePhoto } from '../../db/photos/photos.ts';
import { search } from '../../db/search/search.ts';
import { migrations, schemaVersion } from '../../migrations/index.ts';
import { picture } from '../helpers/pictures/pictures.ts';

const at = '2026-03-14T09:26:53.000Z';
const host = 'browser';

/** Written at once, so that a line said before a kill is heard after it. */
const say = (line: string) => writeSync(1, `${line}\n`);

/** One more schema step, slow enough to be killed in. */
export const slowSteps = {
  ...migrations,
  [`${String(schemaVersion + 1).padStart(4, '0')}-slow`]: {
    up: async (db: Kysely<unknown>) => {
      await sql`CREATE TABLE name_length (id INTEGER PRIMARY KEY, length INTEGER NOT NULL) STRICT`.execute(
        db,
      );
      for (let id = 1; id <= 4_000; id++)
        await sql`INSERT INTO name_length SELECT id, length(name) FROM maker WHERE id = ${id}`.execute(db);
    },
  },
};

const modes: Record<string, (dir: string) => Promise<void>> = {
  /** Each action adds three makers, whose names begin with what it is given. */
  writes: async dir => {
    const collection = await openCollection(dir, { at, host });
    say('ready');
    for (let i = 0; ; i++) {
      await runAction(collection, `Action ${i}`, at, trx =>
        trx
          .insertInto('maker')
          .values([0, 1, 2].map(part => ({ name: `${process.argv[4] ?? ''}${i}-${part}`, country: null })))
          .execute(),
      );
      say(String(i));
    }
  },

  /** Each bulk action adds 4,000 cars and is every third time taken back. */
  bulk: async dir => {
    const collection = await openCollection(dir, { at, host });
    say('ready');
    for (let i = 0; ; i++) {
      await runBulk(collection, `Import ${i}`, at, async () => {
        const insert = collection.write.sqlite.prepare(
          'INSERT INTO car (inventory_number, notes, created_at, updated_at) VALUES (?, ?, ?, ?)',
        );
        for (let car = 0; car < 4_000; car++) insert.run(`${i}-${car}`, `imported ${car}`, at, at);
      });
      say(`added ${i}`);
      if (i % 3 === 2) {
        say(`undoing ${i}`);
        await undo(collection);
        say(`undone ${i}`);
      }
    }
  },

  migration: async dir => {
    say('ready');
    const collection = await openCollection(dir, { at, host, steps: slowSteps });
    say('migrated');
    await collection.close({ at });
    await sleep(60_000);
  },

  backup: async dir => {
    const collection = await openCollection(dir, { at, host });
    say('ready');
    for (let i = 0; ; i++) {
      await runAction(collection, `Action ${i}`, at, trx =>
        trx
          .insertInto('maker')
          .values({ name: `maker ${i}`, country: null })
          .execute(),
      );
      const { name } = await backUp(collection, { at, reason: 'asked for' });
      say(name);
    }
  },

  /** Archives the collection and takes each archive back, in files and folders beside it, by turns. */
  archive: async dir => {
    const collection = await openCollection(dir, { at, host });
    say('ready');
    for (let i = 0; ; i++) {
      const name = i % 2 === 0 ? `archive-${i}.zip` : `archive-${i}`;
      await makeArchive(collection, { out: `${dir}-out/${name}`, at });
      say(name);
      await takeBack({ archive: `${dir}-out/${name}`, dir: `${dir}-back/${i}`, at });
    }
  },

  /** Restores the two backups it is given by turns. */
  restore: async dir => {
    say('ready');
    for (let i = 0; ; i++) {
      await restore(dir, process.argv[4 + (i % 2)]!, { at, host });
      say(`restored ${i % 2}`);
    }
  },

  photos: async dir => {
    const collection = await openCollection(dir, { at, host });
    say('ready');
    for (let i = 0; ; i++) {
      const background = `#${(i * 2_654_435).toString(16).padStart(6, '0').slice(-6)}`;
      const photo = await storePhoto(dir, await picture('png', { width: 300 + i, height: 200, background }));
      await runAction(collection, 'Added a photograph', at, trx => addPhoto(trx, photo, { carId: 1, at }));
      say(photo.sha256);
    }
  },

  hold: async dir => {
    const collection = await openCollection(dir, { at, host });
    say('ready');
    await sleep(60_000);
    await collection.close({ at });
  },

  /** Does a little of everything and says what it comes to, to be compared between locales. */
  everything: async dir => {
    say('ready');
    await createCollection(dir, { at, reportingCurrency: 'TRY', newId: () => 'fixed' });
    const collection = await openCollection(dir, { at, host });
    await runAction(collection, 'Added', at, async trx => {
      for (const name of ['IĞDIR', 'istanbul', 'Straße', 'ñandú', '東京', 'مرحبا'])
        await trx.insertInto('maker').values({ name, country: null }).execute();
      await trx
        .insertInto('car')
        .values({ inventory_number: 'I-1', notes: 'TITLE título 1.250,5', created_at: at, updated_at: at })
        .execute();
    });
    await backUp(collection, { at, reason: 'asked for' });
    const found = [];
    for (const text of ['i-1', 'title', 'TITULO']) found.push(await search(collection.read.db, text, 5));
    say(JSON.stringify([tableHashes(collection.write.sqlite), found]));
    await collection.close({ at });
  },
};

const [, , mode, dir] = process.argv;
if (mode && dir) await modes[mode]!(dir);
