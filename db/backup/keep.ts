import { readdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { layout, unfinished } from '../file/layout.ts';
import { backupPaths, describedBackups } from './list.ts';

/** What the rule for keeping backups looks at. */
export interface KeptBackup {
  name: string;
  at: string;
  reason: string;
}

const mostOfToday = 3;
const mostBackups = 10;
/** Reasons whose newest backup stays: the state before something that cannot be undone. */
export const beforeReasons = ['before restoring', 'before updating'];

/**
 * Of one collection's backups given newest first, the names to keep: the newest whatever the clock says, the
 * newest of each "before" reason, three of the newest one's day, one of each other day, ten at most.
 */
export const backupsToKeep = (backups: readonly KeptBackup[]): Set<string> => {
  const day = (backup: KeptBackup) => backup.at.slice(0, 10);
  const today = backups[0] ? day(backups[0]) : '';
  const keep = new Set(backups.slice(0, 1).map(backup => backup.name));
  for (const reason of beforeReasons) {
    const newest = backups.find(backup => backup.reason === reason);
    if (newest) keep.add(newest.name);
  }
  const ofDay = new Map<string, number>();
  for (const backup of backups) {
    const soFar = ofDay.get(day(backup)) ?? 0;
    if (soFar >= (day(backup) === today ? mostOfToday : 1)) continue;
    ofDay.set(day(backup), soFar + 1);
    if (keep.size < mostBackups) keep.add(backup.name);
  }
  return keep;
};

/** Backups in use, by folder: how many hold each of them. */
const held = new Map<string, number>();
/** When each was last shown to somebody who may choose it. */
const shown = new Map<string, number>();

const lookedAtFor = 3_600_000;

/**
 * Keeps backups from being removed until the function it returns is called: while they are
 * restored or checked.
 */
export const holdBackups = (dir: string, names: readonly string[]): (() => void) => {
  const folders = names.map(name => backupPaths(dir, name).folder);
  for (const folder of folders) held.set(folder, (held.get(folder) ?? 0) + 1);
  let holding = true;
  return () => {
    if (!holding) return;
    holding = false;
    for (const folder of folders) {
      const left = (held.get(folder) ?? 1) - 1;
      if (left > 0) held.set(folder, left);
      else held.delete(folder);
    }
  };
};

/** Keeps backups from being removed for an hour: they are on somebody's screen, to be chosen from. */
export const holdWhileLookedAt = (dir: string, names: readonly string[], at: string): void => {
  const now = Date.parse(at);
  for (const [folder, then] of shown) if (Math.abs(now - then) > lookedAtFor) shown.delete(folder);
  for (const name of names) shown.set(backupPaths(dir, name).folder, now);
};

const inUse = (dir: string, name: string, at: string): boolean => {
  const { folder } = backupPaths(dir, name);
  const then = shown.get(folder);
  return held.has(folder) || (then !== undefined && Math.abs(Date.parse(at) - then) <= lookedAtFor);
};

const removeBackup = (dir: string, name: string) => {
  const { folder } = backupPaths(dir, name);
  // Renamed first, so that one half removed is never taken for a backup.
  renameSync(folder, `${folder}.part`);
  rmSync(`${folder}.part`, { recursive: true, force: true });
};

/** Removes what was left unfinished in `backups/`. Only by the holder of the collection's lock. */
export const removeUnfinished = (dir: string): void => {
  const { backups } = layout(dir);
  for (const name of readdirSync(backups))
    if (unfinished.test(name)) rmSync(join(backups, name), { recursive: true, force: true });
};

/**
 * Removes the backups of the collection `id` beyond those to keep. What belongs to another collection,
 * does not say whose it is or cannot be believed stays, and so does whatever somebody is restoring,
 * looking at or checking.
 */
export const removeSurplus = (dir: string, id: string, at: string, alsoKeep: string | undefined): void => {
  removeUnfinished(dir);
  const own = describedBackups(dir).filter(({ manifest }) => manifest.collection === id);
  const keep = backupsToKeep(own.map(({ name, manifest }) => ({ ...manifest, name })));
  for (const { name } of own)
    if (!keep.has(name) && name !== alsoKeep && !inUse(dir, name, at)) removeBackup(dir, name);
};
