import { resolve } from 'node:path';
import { nearestBackup } from '../../../db/backup/list.ts';
import { collectionExists } from '../../../db/open-collection.ts';
import type { BackupInfo, CheckFinding } from '../../api/views.ts';
import { noCollection, withCollection } from '../collection.ts';
import { followed } from '../progress-bar.ts';
import { endRefused, print, Refused, say } from '../terminal.ts';

interface Common {
  collection: string;
  json?: boolean;
}

/** `playworn backup`: a backup now, beside the automatic ones. */
export const backup = ({ collection, json }: Common): Promise<void> =>
  withCollection({ collection }, async ({ api }) => {
    print<BackupInfo>(json, await api.collection.backUp(), made => [
      `Backed up as ${made.name}, ${made.bytes} bytes`,
    ]);
  });

/**
 * `playworn restore`: the backup nearest to what the collection last held, or the one named; the present
 * state is kept as a backup first. The collection need not be one that can still be opened.
 */
export const restore = async (name: string | undefined, { collection, json }: Common): Promise<void> => {
  if (!collectionExists(resolve(collection))) throw noCollection(resolve(collection));
  await withCollection({ collection, unopened: true }, async ({ api, session }) => {
    const dir = session.options.defaultDir;
    const chosen = name ?? nearestBackup(await api.collection.backups({ dir }))?.name;
    if (chosen === undefined) throw new Refused('This collection has no backup that can be restored.');
    const { notices } = await api.collection.restore({ name: chosen, dir });
    for (const notice of notices) say(notice);
    print(json, { restored: chosen, dir }, made => [`Restored ${made.restored} in ${made.dir}`]);
  });
};

const marks: Record<CheckFinding['level'], string> = { ok: 'ok     ', warning: 'warning', damage: 'DAMAGE ' };

/**
 * `playworn check`: verifies the database, the photographs and the backups; damage is refused with exit code
 * 1. With `rebuild` it rebuilds the indexes and the search index first.
 */
export const check = ({ collection, json, rebuild }: Common & { rebuild?: boolean }): Promise<void> =>
  withCollection({ collection }, async ({ api, signal }) => {
    if (rebuild) await api.collection.rebuild();
    const findings = await followed<CheckFinding[]>(await api.collection.check(undefined, { signal }));
    const damaged = findings.filter(finding => finding.level === 'damage').length;
    print(json, { sound: damaged === 0, findings }, shown =>
      shown.findings.map(({ level, sentence }) => `${marks[level]}  ${sentence}`),
    );
    if (findings.some(finding => finding.canBeRebuilt))
      say('"playworn check --rebuild" rebuilds the indexes.');
    if (damaged > 0) endRefused(`${damaged} of ${findings.length} findings are damage.`);
  });
