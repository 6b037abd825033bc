import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createRouterClient } from '@orpc/server';
import { afterAll, beforeAll, beforeEach, describe, expect, it, onTestFinished, vi } from 'vitest';
import { CollectionError } from '../../../../db/errors.ts';
import { layout } from '../../../../db/file/layout.ts';
import { openCollection } from '../../../../db/open-collection.ts';
import { fewestKept } from '../../../../electron/api/figures/held-figures.ts';
import { router } from '../../../../electron/api/router.ts';
import { createSession } from '../../../../electron/api/session/session.ts';
import { fitMarketInTurns } from '../../../../valuation/market/fit-market.ts';
import { valueCar } from '../../../../valuation/worth/value-car.ts';
import { makeLargeCollection } from '../../../helpers/large-collection.ts';

vi.mock('../../../../valuation/worth/value-car.ts', { spy: true });
vi.mock('../../../../db/open-collection.ts', { spy: true });
vi.mock('../../../../valuation/market/fit-market.ts', { spy: true });

const folder = mkdtempSync(join(tmpdir(), 'playworn-kept-'));
const made = join(folder, 'made');

/** Opens a collection as a host does whose build and day are these. */
const openOn = async (dir: string, { build = 'one', day = 14 }: { build?: string; day?: number } = {}) => {
  const session = createSession({
    host: 'command line',
    now: () => new Date(2026, 2, day, 12),
    defaultDir: dir,
    demoDir: join(dir, 'demo'),
    version: '0.0.0',
    build: () => build,
  });
  const api = createRouterClient(router, { context: { session } });
  await api.collection.open({ dir });
  return { session, api };
};
type Opened = Awaited<ReturnType<typeof openOn>>;

const anyCar = {
  ...{ lots: [], series: [], finish: [], grade: [], status: [], recommendation: [], rarity: [] },
  ...{ casting: null, variation: null, show: null, text: '' },
};
const byValue = { sort: { columnId: 'found', descending: true }, since: '', locale: 'en-GB' };
const anyDecision = {
  ...{ lot: null, finish: [], below: null, not: [], recommendation: [], decided: null },
};

/** What the screens show that the figures of all cars are needed for. */
const shown = async ({ api }: Opened) => {
  const { summary: _, ...home } = await api.collection.home();
  return {
    home,
    rows: await api.cars.window({ filter: anyCar, order: byValue, wall: false, from: 0, count: 50 }),
    facts: await api.cars.facts(anyCar),
    decide: await api.decisions.facts(anyDecision),
    left: await api.decisions.leftOut({ filter: anyDecision, taken: [], never: [] }),
    lookUp: await api.decisions.lookUp(),
  };
};

let first: Awaited<ReturnType<typeof shown>>;

beforeAll(async () => {
  await (await makeLargeCollection(made, fewestKept + 50)).close({ at: '2026-03-14T10:00:00.000Z' });
  const opened = await openOn(made);
  first = await shown(opened);
  await opened.session.close();
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));
beforeEach(() => {
  vi.clearAllMocks();
});

/** A collection as it lies there after it was closed, with the times of its files. */
const copied = (): string => {
  const dir = mkdtempSync(join(folder, 'copy-'));
  cpSync(made, dir, { recursive: true, preserveTimestamps: true });
  onTestFinished(() => rmSync(dir, { recursive: true, force: true }));
  return dir;
};
/** Makes the copy's file the very one of which the figures are: copying rounds the times of files. */
const sameFile = (dir: string) => {
  const [header = '', ...rest] = [readFileSync(layout(dir).workedOut)].flatMap(bytes => {
    const end = bytes.indexOf(10);
    return [bytes.subarray(0, end).toString(), bytes.subarray(end)];
  }) as [string, Buffer];
  const { key, ...others } = JSON.parse(header) as { key: string };
  const { size, mtimeNs } = statSync(layout(dir).database, { bigint: true });
  const [, ...more] = JSON.parse(key);
  const again = JSON.stringify({ ...others, key: JSON.stringify([`${size} ${mtimeNs}`, ...more]) });
  writeFileSync(layout(dir).workedOut, Buffer.concat([Buffer.from(again), ...rest]));
  return dir;
};
const unchanged = () => sameFile(copied());

const nothingWorkedOut = () => {
  expect(vi.mocked(valueCar).mock.calls.length).toBe(0);
  expect(vi.mocked(fitMarketInTurns).mock.calls.length).toBe(0);
};

/** Opens it, and finds that all is worked out anew and right. */
const worksOutAgain = async (dir: string, how: Parameters<typeof openOn>[1] = {}) => {
  const opened = await openOn(dir, how);
  expect(await shown(opened)).toEqual(how.day === undefined ? first : expect.anything());
  expect(vi.mocked(fitMarketInTurns).mock.calls.length).toBeGreaterThan(0);
  expect(vi.mocked(valueCar).mock.calls.length).toBeGreaterThan(500);
  await opened.session.close();
};

describe('what was worked out when the collection was last open', () => {
  it('is not worked out again where nothing has changed', async () => {
    const dir = unchanged();
    for (let time = 0; time < 2; time += 1) {
      const opened = await openOn(dir);
      expect(await shown(opened)).toEqual(first);
      nothingWorkedOut();
      await opened.session.close();
    }
  });

  it('stands for the other cars after an edit, and is saved again with it', async () => {
    const dir = unchanged();
    const opened = await openOn(dir);
    await opened.api.cars.update({ changes: [{ id: 12, patch: { grade: 9 } }] });
    await opened.api.cars.facts(anyCar);
    expect(vi.mocked(valueCar).mock.calls.length).toBe(1);
    const after = await shown(opened);
    expect(after.facts).not.toEqual(first.facts);
    await opened.session.close();
    vi.clearAllMocks();
    const again = await openOn(dir);
    expect(await shown(again)).toEqual(after);
    nothingWorkedOut();
    await again.session.close();
  });

  it('is left where a sale record changes the market', async () => {
    const opened = await openOn(unchanged());
    const sale = { soldOn: '2026-02-03', price: 4200, currency: 'USD', castingId: 1, variationId: 1 };
    await opened.api.sales.create({ ...sale, grade: 6, source: 'auction' });
    await opened.api.cars.window({ filter: anyCar, order: byValue, wall: false, from: 0, count: 50 });
    expect(vi.mocked(valueCar).mock.calls.length).toBeGreaterThan(500);
    await opened.session.close();
  });

  it('is worked out again by another build of the program, and on another day', async () => {
    await worksOutAgain(unchanged(), { build: 'two' });
    vi.clearAllMocks();
    await worksOutAgain(unchanged(), { day: 15 });
  });

  it('is worked out again where another program has edited meanwhile, though the file’s time were the same', async () => {
    const dir = unchanged();
    const kept = readFileSync(layout(dir).workedOut);
    const other = await openOn(dir, { build: 'two' });
    await other.api.cars.update({ changes: [{ id: 12, patch: { notes: 'x' } }] });
    await other.session.close();
    writeFileSync(layout(dir).workedOut, kept);
    await worksOutAgain(sameFile(dir));
  });

  it('is worked out again of a collection that was restored from a backup', async () => {
    const dir = unchanged();
    const opened = await openOn(dir);
    await opened.api.cars.update({ changes: [{ id: 12, patch: { grade: 9 } }] });
    const backups = await opened.api.collection.backups();
    await opened.session.restore(dir, backups[0]!.name, true);
    expect((await opened.api.cars.get({ id: 12 })).grade).not.toBe(9);
    const after = await shown(opened);
    expect(after.rows).toEqual(first.rows);
    await opened.session.close();
  });

  it('is read in a folder that takes no changes', async () => {
    const dir = unchanged();
    const before = readFileSync(layout(dir).workedOut);
    // As openCollection refuses such a folder; to one who may do anything no folder is.
    vi.mocked(openCollection).mockRejectedValueOnce(
      new CollectionError({ kind: 'not-writable', place: dir, detail: 'EACCES' }),
    );
    const opened = await openOn(dir);
    expect(opened.session.state().readOnly).toBe(true);
    expect(await shown(opened)).toEqual(first);
    nothingWorkedOut();
    await opened.session.close();
    expect(readFileSync(layout(dir).workedOut).equals(before)).toBe(true);
  });

  it('keeps nobody from closing where it cannot be saved', async () => {
    const dir = copied();
    rmSync(layout(dir).workedOut);
    // A folder of that name stands for all that makes writing fail.
    cpSync(join(dir, 'backups'), `${layout(dir).workedOut}.part`, { recursive: true });
    const opened = await openOn(dir);
    await shown(opened);
    await opened.session.close();
    expect(opened.session.state().notices).toEqual([]);
    expect(existsSync(layout(dir).workedOut)).toBe(false);
  });
});
