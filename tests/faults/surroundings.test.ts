import { execFileSync } from 'node:child_process';
import { existsSync, symlinkSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';
import { describe, expect, it } from 'vitest';
import { listBackups } from '../../db/backup/list.ts';
import { listHistory, runAction } from '../../db/history/history.ts';
import { undo } from '../../db/history/undo.ts';
import { createCollection, openCollection } from '../../db/open-collection.ts';
import { at, collectionErrorOf, opened, temporaryFolder } from '../helpers/collections.ts';
import { startWorker } from './killing.ts';

const root = fileURLToPath(new URL('../../', import.meta.url));

describe('two instances', () => {
  it('in one program: the second is refused and the first goes on', async () => {
    const dir = temporaryFolder();
    await createCollection(dir, { at, reportingCurrency: 'USD' });
    const first = await opened(dir, { host: 'window' });
    for (const host of ['window', 'browser', 'command line'] as const) {
      const error = await collectionErrorOf(() => openCollection(dir, { at, host }));
      expect(error.message).toMatch(
        /already open in the window \(process \d+, since 2026-03-14T09:26:53.000Z\)/,
      );
    }
    await runAction(first, 'Added a maker', at, trx =>
      trx.insertInto('maker').values({ name: 'A', country: null }).execute(),
    );
    // The refusals must not have dropped this program's own locks.
    const { child, ended, complaint } = await startWorker(['hold', dir]).catch(error => ({
      child: undefined,
      ended: undefined,
      complaint: () => String(error),
    }));
    child?.kill('SIGKILL');
    await ended;
    expect(complaint()).toMatch(/already open in the window/);
  });
});

describe('the clock', () => {
  it('set back or forward keeps the order of what was done, undo and backups', async () => {
    const dir = temporaryFolder();
    const times = ['2026-03-14', '2019-01-01', '2044-07-01', '1999-12-31'].map(day => `${day}T10:00:00.000Z`);
    await createCollection(dir, { at: times[0]!, reportingCurrency: 'USD' });
    for (const [i, time] of times.entries()) {
      const collection = await openCollection(dir, { at: time, host: 'window' });
      expect(collection.notices).toEqual([]);
      await runAction(collection, `Action ${i}`, time, trx =>
        trx
          .insertInto('maker')
          .values({ name: `maker ${i}`, country: null })
          .execute(),
      );
      await collection.close({ at: time });
    }
    expect((await listBackups(dir)).map(backup => backup.at)).toEqual(times.toReversed());
    const collection = await opened(dir, { at: times[1]! });
    expect((await listHistory(collection.read.db)).map(action => action.label)).toEqual(
      [3, 2, 1, 0].map(i => `Action ${i}`),
    );
    for (const i of [3, 2, 1, 0]) expect(await undo(collection)).toMatchObject({ label: `Action ${i}` });
  });
});

describe('the language of the machine', () => {
  it('changes nothing in what is kept or found', async () => {
    const said: string[] = [];
    for (const locale of ['en_US.UTF-8', 'tr_TR.UTF-8', 'de_DE.UTF-8', 'ar_EG.UTF-8', 'ja_JP.UTF-8']) {
      const { lines, ended, complaint } = await startWorker(['everything', join(temporaryFolder(), 'c')], {
        LC_ALL: locale,
        LANG: locale,
        TZ: 'Asia/Tokyo',
      });
      await ended;
      expect(complaint()).toBe('');
      said.push(lines.join());
    }
    expect(said[0]).toContain('"kind":"car"');
    expect(new Set(said).size).toBe(1);
  });
});

describe('a runtime that is too old', () => {
  /** A Node of the machine, older than the database's binary needs. */
  const oldNode = () =>
    (process.env.PATH ?? '')
      .split(delimiter)
      .filter(folder => !folder.includes('node_modules'))
      .map(folder => join(folder, 'node'))
      .filter(existsSync)
      .find(path => Number(execFileSync(path, ['-p', 'process.versions.napi'], { encoding: 'utf8' })) < 10);

  it('says so instead of ending without a word', async context => {
    const node = oldNode();
    if (!node) {
      console.warn('NOT TESTED: opening on too old a Node. There is none older than 22.14 on this machine.');
      return context.skip('there is no Node older than 22.14 on this machine');
    }
    const outDir = temporaryFolder();
    await build({
      root,
      configFile: false,
      logLevel: 'silent',
      build: { ssr: join(root, 'db/open-collection.ts'), outDir, minify: false },
    });
    symlinkSync(join(root, 'node_modules'), join(outDir, 'node_modules'));
    const program = `import('${join(outDir, 'open-collection.js')}')
      .then(({ openCollection }) => openCollection('${outDir}', { at: '', host: 'window' }))
      .catch(error => console.log(error.code, error.message))`;
    expect(execFileSync(node, ['-e', program], { encoding: 'utf8' })).toMatch(
      /^old-runtime A collection needs Node 22.14 or newer; this is Node \d+/,
    );
  });
});
