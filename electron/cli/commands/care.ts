import type { BackupInfo, CheckFinding } from '../../api/views.ts';
import { withCollection } from '../collection.ts';
import { followed } from '../progress-bar.ts';
import { endRefused, print, Refused } from '../terminal.ts';

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

/** `playworn restore`: the newest backup, or the one named; the present state is kept as a backup first. */
export const restore = (name: string | undefined, { collection, json }: Common): Promise<void> =>
  withCollection({ collection }, async ({ api }) => {
    const [newest] = await api.collection.backups();
    const chosen = name ?? newest?.name;
    if (chosen === undefined) throw new Refused('This collection has no backup yet.');
    const { dir } = await api.collection.restore({ name: chosen });
    print(json, { restored: chosen, dir }, made => [`Restored ${made.restored} in ${made.dir}`]);
  });

const marks: Record<CheckFinding['level'], string> = { ok: 'ok     ', warning: 'warning', damage: 'DAMAGE ' };

/** `playworn check`: verifies the database and the photographs; damage is refused with exit code 1. */
export const check = ({ collection, json }: Common): Promise<void> =>
  withCollection({ collection }, async ({ api, signal }) => {
    const findings = await followed<CheckFinding[]>(await api.collection.check(undefined, { signal }));
    const damaged = findings.filter(finding => finding.level === 'damage').length;
    print(json, { sound: damaged === 0, findings }, shown =>
      shown.findings.map(({ level, sentence }) => `${marks[level]}  ${sentence}`),
    );
    if (damaged > 0) endRefused(`${damaged} of ${findings.length} findings are damage.`);
  });
