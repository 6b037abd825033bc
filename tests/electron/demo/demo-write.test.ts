import { execFile } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';
import sharp from 'sharp';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Collection } from '../../../db/collection.ts';
import { sha256Of } from '../../../db/file/files.ts';
import { listHistory } from '../../../db/history/history.ts';
import { createCollection, openCollection } from '../../../db/open-collection.ts';
import { readPhoto } from '../../../db/photos/photos.ts';
import { readSetting } from '../../../db/records/collection/settings.ts';
import { readMadeOf, readPlans } from '../../../db/records/plans/plans.ts';
import type { DemoTable } from '../../../electron/demo/content.ts';
import { demoContent } from '../../../electron/demo/demo-content.ts';
import { renderView } from '../../../electron/demo/drawing/render.ts';
import { newPalette } from '../../../electron/demo/drawing/surface/palette.ts';
import { inOrderOfReference } from '../../../electron/demo/table-order.ts';
import { writeDemo } from '../../../electron/demo/write-demo.ts';
import { at, newCollection } from '../../helpers/collections.ts';
import { demoDigest, sampledPhotos } from '../../helpers/demo/demo-digest.ts';
import { copyDemo } from '../../helpers/demo/demo-template.ts';

const content = demoContent();
const demoTables = Object.keys(content.tables) as DemoTable[];
/** All rows, and so few photographs that drawing them takes little. */
const fewPhotos = { ...content, photos: content.photos.slice(0, 8) };
const progress: number[] = [];
let dir: string;
let collection: Collection;
/** The whole demo, as the command line makes it. */
let made: Collection;

const range = { low: 100, mid: 200, high: 400 };
const snapshot = (carId: number, on: string) => ({
  carId,
  on,
  currency: 'USD',
  basis: 'fair market value',
  asFound: range,
  restored: null,
  originalFinish: null,
  evidence: { sales: 3 },
});

beforeAll(async () => {
  dir = mkdtempSync(join(tmpdir(), 'playworn-demo-'));
  await createCollection(dir, { at, reportingCurrency: 'USD' });
  collection = await openCollection(dir, { at, host: 'command line' });
  await writeDemo(collection, fewPhotos, {
    at,
    valuations: [snapshot(1, '2024-10-31'), snapshot(2, '2024-10-31'), snapshot(1, '2024-11-30')],
    onProgress: done => progress.push(done),
  });
  await copyDemo(join(dir, 'Demo'));
  made = await openCollection(join(dir, 'Demo'), { at, host: 'command line' });
});

afterAll(async () => {
  await collection.close({ at });
  await made.close({ at });
  rmSync(dir, { recursive: true, force: true });
});

describe('writing the demo', () => {
  it('keeps every row as the content has it, under the ids that it was given', async () => {
    for (const table of demoTables) {
      const rows = await collection.read.db.selectFrom(table).selectAll().orderBy('id').execute();
      expect(rows).toHaveLength(content.tables[table].length);
      content.tables[table].forEach((row, i) => {
        expect(rows[i]).toMatchObject(row);
      });
    }
  });

  it('leaves no reference open', () => {
    expect(collection.write.sqlite.pragma('foreign_key_check')).toEqual([]);
  });

  it('tells of every photograph that it draws', () => {
    expect(progress).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
  });

  it('stores every photograph under its hash, in its place', async () => {
    const rows = await made.read.db.selectFrom('photo').selectAll().orderBy('id').execute();
    expect(rows).toHaveLength(content.photos.length);
    for (const [i, row] of rows.entries()) {
      const photo = content.photos[i]!;
      expect([row.car_id, row.lot_id, row.state, row.position, row.taken_on]).toEqual([
        photo.carId,
        photo.lotId,
        photo.state,
        photo.position,
        photo.takenOn,
      ]);
      const { bytes } = await readPhoto(made.dir, row.sha256, 'original');
      expect(sha256Of(bytes)).toBe(row.sha256);
      expect([row.width, row.height, row.format]).toEqual([1200, 800, 'jpeg']);
    }
    expect(rows.filter(row => row.lot_id !== null)).toHaveLength(5);
    const without = content.tables.car.filter(car => !rows.some(row => row.car_id === car.id));
    expect(without).toHaveLength(3);
  });

  it('draws pictures of something: wide in tone, and no two cars the same', async () => {
    const rows = await made.read.db
      .selectFrom('photo')
      .select(['sha256', 'car_id'])
      .where('view', '=', 'near side')
      .execute();
    expect(new Set(rows.map(row => row.sha256)).size).toBe(rows.length);
    for (const row of rows.slice(0, 12)) {
      const { channels } = await sharp((await readPhoto(made.dir, row.sha256, 'original')).bytes).stats();
      for (const channel of channels) expect(channel.stdev).toBeGreaterThan(12);
    }
  });

  it('draws the same bytes again', async () => {
    const rows = await made.read.db.selectFrom('photo').select('sha256').orderBy('id').execute();
    for (const photo of sampledPhotos(content)) {
      const place = content.photos.indexOf(photo);
      expect(sha256Of(await renderView(photo.drawn, newPalette()))).toBe(rows[place]!.sha256);
    }
  });

  it('is the same in a process of its own', async () => {
    const script = fileURLToPath(new URL('../../helpers/demo/demo-digest.ts', import.meta.url));
    const { stdout } = await promisify(execFile)(process.execPath, [script]);
    expect(stdout.trim()).toBe(await demoDigest());
  });

  it('says that it is the demo, and what day it is there', async () => {
    expect(await readSetting(collection.read.db, 'demo')).toBe('yes');
    expect(await readSetting(collection.read.db, 'today')).toBe('2026-10-31');
    expect(await listHistory(collection.read.db)).toMatchObject([{ label: 'Made the demo collection', at }]);
  });

  it('plans its rough cars from the cars themselves, each line with its reason, originals from the shelf first', async () => {
    const { db } = made.read;
    const stored = await readPlans(db);
    expect([...stored.keys()]).toEqual(content.plans.map(({ carId }) => carId));
    for (const { carId, wishes, notes } of content.plans) {
      const plan = await readMadeOf(db, carId);
      expect(plan).toMatchObject({ kind: 'restore', wishes, notes, libraryVersion: 0 });
      expect(plan!.lines.length).toBeGreaterThan(8);
      for (const line of plan!.lines) expect(line.why, `${carId}: ${line.name}`).toBeTruthy();
      expect(stored.get(carId)!.deviations).toContain('visible post closure');
    }
    const fromShelf = [...stored.values()].flatMap(({ lines }) => lines.flatMap(({ part }) => part ?? []));
    expect(new Set(fromShelf)).toEqual(
      new Set(['Wheels of a Drystone, all four', 'Glazing of a Saltwhistle']),
    );
  });

  it('keeps past worths day by day', async () => {
    const rows = await collection.read.db
      .selectFrom('valuation')
      .select(['car_id', 'effective_on', 'as_found_mid'])
      .orderBy('effective_on')
      .orderBy('car_id')
      .execute();
    expect(rows).toEqual([
      { car_id: 1, effective_on: '2024-10-31', as_found_mid: 200 },
      { car_id: 2, effective_on: '2024-10-31', as_found_mid: 200 },
      { car_id: 1, effective_on: '2024-11-30', as_found_mid: 200 },
    ]);
  });

  it('weighs less than 25 MB in all', () => {
    const weigh = (path: string): number =>
      statSync(path).isDirectory()
        ? readdirSync(path).reduce((sum, name) => sum + weigh(join(path, name)), 0)
        : statSync(path).size;
    expect(weigh(made.dir)).toBeLessThan(25_000_000);
  });
});

describe('the order in which the tables are filled', () => {
  it('has every table after those that its rows point at', () => {
    const order = inOrderOfReference(collection.write.sqlite, demoTables.toReversed());
    expect(order.toSorted()).toEqual(demoTables.toSorted());
    const comesFirst = (first: DemoTable, then: DemoTable) =>
      expect(order.indexOf(first), `${first} before ${then}`).toBeLessThan(order.indexOf(then));
    comesFirst('maker', 'series');
    comesFirst('release', 'variation');
    comesFirst('variation', 'car');
    comesFirst('condition_check', 'part_grade');
    comesFirst('disposal', 'sale_record');
    comesFirst('car', 'decision');
  });

  it('refuses tables that point at each other', () => {
    collection.write.sqlite.exec(
      'CREATE TEMP TABLE hen (egg INTEGER REFERENCES egg); CREATE TEMP TABLE egg (hen INTEGER REFERENCES hen)',
    );
    try {
      expect(() => inOrderOfReference(collection.write.sqlite, ['hen', 'egg'])).toThrow(RangeError);
    } finally {
      collection.write.sqlite.exec('DROP TABLE temp.hen; DROP TABLE temp.egg');
    }
  });
});

describe('refusing to write the demo', () => {
  it('leaves a collection alone that has anything in it', async () => {
    await expect(writeDemo(collection, content, { at })).rejects.toThrow(/needs an empty collection/);
    expect(await listHistory(collection.read.db)).toHaveLength(1);
  });

  it('leaves no rows behind when it is stopped', async () => {
    const empty = await newCollection();
    const controller = new AbortController();
    const stopped = writeDemo(empty, content, {
      at,
      signal: controller.signal,
      onProgress: () => controller.abort(new Error('enough')),
    });
    await expect(stopped).rejects.toThrow('enough');
    for (const table of [...demoTables, 'photo', 'setting'] as const) {
      const row = await empty.read.db
        .selectFrom(table)
        .select(eb => eb.fn.countAll<number>().as('count'))
        .executeTakeFirstOrThrow();
      // The currency and the collection's own id.
      expect([table, row.count]).toEqual([table, table === 'setting' ? 2 : 0]);
    }
    expect(existsSync(join(empty.dir, 'collection.sqlite'))).toBe(true);
  });
});
