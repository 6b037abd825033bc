import { copyFileSync, existsSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { backUp } from '../../db/backup/backup.ts';
import { holdBackups } from '../../db/backup/keep.ts';
import { listBackups } from '../../db/backup/list.ts';
import { restore } from '../../db/backup/restore.ts';
import { checkCollection } from '../../db/backup/verify.ts';
import type { Collection } from '../../db/collection.ts';
import { layout } from '../../db/file/layout.ts';
import { runAction, runBulk } from '../../db/history/history.ts';
import { createCollection, openCollection } from '../../db/open-collection.ts';
import { at, collectionErrorOf, temporaryFolder } from '../helpers/collections.ts';
import { startWorker } from './killing.ts';

/** A backup as the model knows it. */
interface Known {
  name: string;
  day: string;
  reason: string;
  lineage: number;
}

/**
 * What must still be there, said without the rule that the program follows: of the collection in the folder
 * the three made last on the day of the last, the last of each of the six days before, the newest of each
 * "before" kind; of any other collection everything.
 */
const mustStay = (made: readonly Known[], lineage: number): string[] => {
  const own = made.filter(backup => backup.lineage === lineage).toReversed();
  const days = [...new Set(own.map(backup => backup.day))];
  const ofDay = (day: string | undefined, count: number) =>
    own.filter(backup => backup.day === day).slice(0, count);
  return [
    ...made.filter(backup => backup.lineage !== lineage),
    ...ofDay(days[0], 3),
    ...days.slice(1, 6).flatMap(day => ofDay(day, 1)),
    ...own.filter(backup => backup.reason === 'before restoring').slice(0, 1),
  ].map(backup => backup.name);
};

type Move = 'change' | 'close' | 'restore' | 'import' | 'check' | 'kill' | 'back up' | 'next day' | 'lost';
const moves: Move[] = [
  'change',
  'close',
  'restore',
  'import',
  'check',
  'kill',
  'back up',
  'next day',
  'lost',
];

class Run {
  dir = temporaryFolder();
  made: Known[] = [];
  lineage = 0;
  count = 0;
  day = 1;
  collection: Collection | undefined;

  at() {
    this.count++;
    const [hours, minutes] = [Math.floor(this.count / 60), this.count % 60].map(n =>
      String(n).padStart(2, '0'),
    );
    return `2026-05-${String(this.day).padStart(2, '0')}T${hours}:${minutes}:00.000Z`;
  }

  async open() {
    this.collection ??= await openCollection(this.dir, { at: this.at(), host: 'window' });
    return this.collection;
  }

  /** Notes what has come since, and looks whether what must stay is there. */
  async look(move: Move) {
    const listed = await listBackups(this.dir);
    const known = new Set(this.made.map(backup => backup.name));
    for (const { name, at: made, reason } of listed.filter(backup => backup.kind === 'backup').toReversed())
      if (!known.has(name))
        this.made.push({ name, day: made!.slice(0, 10), reason: reason!, lineage: this.lineage });
    const there = new Set(listed.map(backup => backup.name));
    const gone = mustStay(this.made, this.lineage).filter(name => !there.has(name));
    expect(gone, `after ${move}`).toEqual([]);
    this.made = this.made.filter(backup => there.has(backup.name));
    expect(listed.filter(backup => backup.fault)).toEqual([]);
  }

  async step(move: Move, choice: number) {
    const collection = await this.open();
    const when = this.at();
    const maker = `maker ${this.count}`;
    switch (move) {
      case 'change':
        await runAction(collection, 'Added a maker', when, trx =>
          trx.insertInto('maker').values({ name: maker, country: null }).execute(),
        );
        break;
      case 'import':
        await runBulk(collection, 'Imported', when, trx =>
          trx
            .insertInto('maker')
            .values([0, 1, 2].map(part => ({ name: `${maker} ${part}`, country: null })))
            .execute(),
        );
        break;
      case 'back up':
        await backUp(collection, { at: when, reason: 'asked for' });
        break;
      case 'close':
        await this.close();
        break;
      case 'check': {
        // What is being checked stays, whatever is backed up meanwhile.
        const names = this.made.map(backup => backup.name);
        const release = holdBackups(this.dir, names);
        for (let i = 0; i < 4; i++) await backUp(collection, { at: this.at(), reason: 'asked for' });
        const folders = readdirSync(layout(this.dir).backups);
        expect(names.filter(name => !folders.includes(name))).toEqual([]);
        release();
        const findings = await checkCollection(collection);
        expect(findings.filter(finding => finding.level === 'damage')).toEqual([]);
        break;
      }
      case 'restore': {
        const own = this.made.filter(backup => backup.lineage === this.lineage);
        const chosen = own[choice % Math.max(1, own.length)];
        if (!chosen) break;
        const open = { collection, close: () => this.close() };
        await restore(this.dir, chosen.name, { at: this.at(), host: 'window', open });
        expect(existsSync(join(layout(this.dir).backups, chosen.name))).toBe(true);
        break;
      }
      case 'kill': {
        await this.close();
        const { child, lines, ended } = await startWorker(['writes', this.dir, `${this.count} `]);
        while (lines.length < 2 && child.exitCode === null)
          await new Promise(resolve => setTimeout(resolve, 5));
        child.kill('SIGKILL');
        expect(await ended).toBe('SIGKILL');
        break;
      }
      case 'next day':
        this.day = Math.min(28, this.day + 1);
        break;
      case 'lost': {
        await this.close();
        await this.look('close');
        rmSync(layout(this.dir).database);
        const made = (await listBackups(this.dir)).length;
        const founding = () => createCollection(this.dir, { at: when, reportingCurrency: 'USD' });
        if (made === 0) {
          await founding();
          this.lineage++;
          break;
        }
        expect((await collectionErrorOf(founding)).code).toBe('needs-restoring');
        const own = this.made.findLast(backup => backup.lineage === this.lineage) ?? this.made.at(-1)!;
        this.lineage = own.lineage;
        await restore(this.dir, own.name, { at: this.at(), host: 'window' });
      }
    }
  }

  async close() {
    await this.collection?.close({ at: this.at() });
    this.collection = undefined;
  }
}

/** Ten orders in every test run, fifty with FULL=1. */
const ordersTried = process.env.FULL === '1' ? 50 : 10;

describe('nobody’s backup is removed', () => {
  it('in any order of change, close, restore, import, check, kill and loss', {
    timeout: 1_200_000,
  }, async () => {
    const steps = fc.array(fc.tuple(fc.constantFrom(...moves), fc.nat(9)), { minLength: 8, maxLength: 16 });
    const orders = fc.sample(steps, { numRuns: ordersTried, seed: 20_260_514 });
    let made = 0;
    for (const order of orders) {
      const run = new Run();
      await createCollection(run.dir, { at: run.at(), reportingCurrency: 'USD' });
      for (const [move, choice] of order) {
        await run.step(move, choice);
        await run.look(move);
      }
      await run.close();
      made += run.made.length;
      rmSync(run.dir, { recursive: true, force: true });
    }
    console.log(`orders tried: ${orders.length}, backups that stand at their ends: ${made}`);
    expect(made).toBeGreaterThan(2 * ordersTried);
  });

  it('by another collection that came into its folder', async () => {
    const dir = temporaryFolder();
    const make = async (id: string, backups: number) => {
      await createCollection(dir, { at, reportingCurrency: 'USD', newId: () => id });
      const collection = await openCollection(dir, { at, host: 'window' });
      for (let i = 0; i < backups; i++) await backUp(collection, { at, reason: 'asked for' });
      await collection.close({ at });
    };
    await make('theirs', 3);
    const theirs = readdirSync(layout(dir).backups);
    // By hand: the program would not found one here.
    rmSync(layout(dir).database);
    const aside = temporaryFolder();
    await createCollection(aside, { at, reportingCurrency: 'USD', newId: () => 'ours' });
    copyFileSync(layout(aside).database, layout(dir).database);
    const collection = await openCollection(dir, { at, host: 'window' });
    for (let i = 0; i < 6; i++) await backUp(collection, { at, reason: 'asked for' });
    await collection.close({ at });
    const there = await listBackups(dir);
    expect(there.filter(backup => backup.collection === 'ours')).toHaveLength(3);
    expect(
      there
        .filter(backup => backup.collection === 'theirs')
        .map(backup => backup.name)
        .sort(),
    ).toEqual(theirs.sort());
  });
});
