import { existsSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { newCollectionService, newService, refusalOf } from '../../../helpers/api.ts';

const addLot = (api: Awaited<ReturnType<typeof newCollectionService>>['api'], name: string) =>
  api.lots.create({ name, currency: 'USD', costs: [] });

/**
 * A closed collection with three backups of one day and a change after them, and a service that
 * has nothing open.
 */
const withBackups = async () => {
  const service = await newCollectionService();
  const { api, session, clock } = service;
  const dir = session.options.defaultDir;
  const names: string[] = [];
  for (const name of ['One', 'Two', 'Three']) {
    await addLot(api, name);
    clock.now = new Date(clock.now.getTime() + 60_000);
    names.push((await api.collection.backUp()).name);
  }
  return { ...service, dir, names, database: join(dir, 'collection.sqlite') };
};

describe('restoring', () => {
  it('does not remove the backup that was chosen, though closing would make one too many', async () => {
    const { api, names, dir } = await withBackups();
    await addLot(api, 'Four');
    await api.collection.restore({ name: names[0]! });
    expect((await api.lots.list()).map(lot => lot.name)).toEqual(['One']);
    expect(readdirSync(join(dir, 'backups'))).toEqual(expect.arrayContaining([names[0]!]));
  });

  it('finds every backup still there that was on the screen', async () => {
    const { api, names, clock } = await withBackups();
    const listed = (await api.collection.backups()).map(backup => backup.name);
    expect(listed.toSorted()).toEqual(names.toSorted());
    for (const name of ['Four', 'Five']) {
      await addLot(api, name);
      clock.now = new Date(clock.now.getTime() + 60_000);
      await api.collection.backUp();
    }
    await api.collection.restore({ name: names[0]! });
    expect((await api.lots.list()).map(lot => lot.name)).toEqual(['One']);
  });

  it('leaves the collection open as it was where it is refused', async () => {
    const { api, names, dir } = await withBackups();
    await addLot(api, 'Four');
    const database = join(dir, 'backups', names[1]!, 'collection.sqlite');
    truncateSync(database, 5_000);
    const before = readdirSync(join(dir, 'backups'));
    const refusal = await refusalOf(api.collection.restore({ name: names[1]! }));
    expect(refusal.message).toMatch(/is damaged: its database is not the one that was written/);
    expect((await api.collection.state()).open).toBe(true);
    expect((await api.lots.list()).length).toBe(4);
    expect(readdirSync(join(dir, 'backups'))).toEqual(before);
  });
});

describe('a folder that cannot be opened', () => {
  it('tells what is wrong, what its backups hold, and opens again with one of them', async () => {
    const { api, session, dir, names, database } = await withBackups();
    await session.close();
    truncateSync(database, 9_000);
    const bytes = readFileSync(database);
    expect((await refusalOf(api.collection.open({ dir }))).message).toMatch(/cut short/);
    const { problem } = await api.collection.state();
    expect(problem).toMatchObject({ dir, code: 'damaged', fault: { kind: 'cut-short', bytes: 9_000 } });

    const manifest = join(dir, 'backups', names[2]!, 'manifest.json');
    const text = readFileSync(manifest, 'utf8');
    writeFileSync(manifest, text.replace('asked for', 'asked fos'));
    const survey = await api.collection.survey();
    expect(survey).toMatchObject({ dir, hasDatabase: true, problem: { fault: { kind: 'cut-short' } } });
    expect(survey.nearest).toBe(names[1]);
    const [second, first, third] = survey.backups;
    expect(second).toMatchObject({
      name: names[1],
      reason: 'asked for',
      holds: { cars: 0, lots: 2, photographs: 0 },
      wrong: null,
      restorable: 'verified',
    });
    expect(first?.holds?.lots).toBe(1);
    expect(third).toMatchObject({
      name: names[2],
      at: null,
      holds: null,
      fault: { kind: 'description-altered' },
      restorable: 'unverified',
    });
    expect(third?.wrong).toMatch(/its description .* is not as it was written/);
    expect(readFileSync(database).equals(bytes)).toBe(true);

    const refusal = await refusalOf(api.collection.restore({ dir, name: names[2]! }));
    expect(refusal.message).toMatch(/nobody can say/);
    const state = await api.collection.restore({ dir, name: names[2]!, unverified: true });
    expect(state).toMatchObject({ open: true, problem: null });
    expect((await api.lots.list()).map(lot => lot.name).toSorted()).toEqual(['One', 'Three', 'Two']);
    const aside = (await api.collection.backups()).find(backup => backup.kind === 'set aside');
    expect(readFileSync(join(dir, 'backups', aside!.name, 'collection.sqlite')).equals(bytes)).toBe(true);
  });

  it('is a collection that needs restoring where only its backups are left, and is never founded over', async () => {
    const { api, session, dir, names, database } = await withBackups();
    await session.close();
    rmSync(database);
    for (const call of [() => api.collection.open({ dir }), () => api.collection.create({ dir })]) {
      const refusal = await refusalOf(call());
      expect(refusal.data).toEqual({ reason: 'needs-restoring' });
      expect(refusal.message).toMatch(
        /needs restoring: collection.sqlite is gone, and 3 backups of it are there/,
      );
    }
    expect(existsSync(database)).toBe(false);
    const survey = await api.collection.survey({ dir });
    expect(survey).toMatchObject({
      hasDatabase: false,
      problem: { code: 'needs-restoring', fault: { kind: 'gone', backups: 3 } },
      nearest: names[2],
    });
    await api.collection.restore({ dir, name: survey.nearest! });
    expect((await api.lots.list()).length).toBe(3);
  });

  it('has its damaged database set aside, whole, and nothing else touched', async () => {
    const { api, session, dir, names, database } = await withBackups();
    await session.close();
    writeFileSync(database, 'garbage '.repeat(2_000));
    const survey = await api.collection.setAside({ dir });
    expect(survey).toMatchObject({ hasDatabase: false, problem: { code: 'needs-restoring' } });
    const aside = survey.backups.find(backup => backup.kind === 'set aside');
    expect(readFileSync(join(dir, 'backups', aside!.name, 'collection.sqlite'), 'utf8')).toMatch(/^garbage/);
    expect(survey.backups.filter(backup => backup.kind === 'backup').map(({ name }) => name)).toEqual(
      names.toReversed(),
    );
    await api.collection.restore({ dir, name: names[0]! });
    expect((await api.lots.list()).length).toBe(1);
  });

  it('is surveyed without anything being made in a folder that holds nothing', async () => {
    const { api, dir } = newService();
    const empty = join(dir, 'nothing here');
    expect(await api.collection.survey({ dir: empty })).toMatchObject({
      hasDatabase: false,
      problem: { code: 'missing' },
      backups: [],
      nearest: null,
    });
    expect(existsSync(empty)).toBe(false);
  });
});
