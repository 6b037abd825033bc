import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderToMakeIn } from '../../../../electron/api/collection/making-folder.ts';
import { newService, refusalOf } from '../../../helpers/api.ts';
import { temporaryFolder } from '../../../helpers/collections.ts';

describe('making the demo', () => {
  it('takes a folder of its own each time, sweeps those of programs that are gone, and touches no other', () => {
    const parent = temporaryFolder();
    const dir = join(parent, 'Demo');
    const others = ['Demo.part', 'Demo.making-notes', 'Demo.making-99999999', 'Other.making-99999999-abcdef'];
    const left = 'Demo.making-99999999-abcdef';
    for (const name of [...others, left]) mkdirSync(join(parent, name));
    const [first, second] = [folderToMakeIn(dir), folderToMakeIn(dir)];
    expect(first).not.toBe(second);
    expect(readdirSync(parent).sort()).toEqual([...others, basename(first), basename(second)].sort());
  });

  it('leaves nothing when it is cancelled, and nothing of anybody’s is removed', {
    timeout: 600_000,
  }, async () => {
    const { api, session } = newService();
    const { demoDir } = session.options;
    mkdirSync(`${demoDir}.part`);
    writeFileSync(join(`${demoDir}.part`, 'mine.txt'), 'mine');
    const stop = new AbortController();
    const making = async () => {
      for await (const step of await api.collection.openDemo(undefined, { signal: stop.signal }))
        if (step.type === 'progress' && step.stage === 'Drawing photographs' && step.done >= 4) stop.abort();
    };
    expect(await refusalOf(making())).toMatchObject({ data: { reason: 'cancelled' } });
    // A photograph that is still being drawn must not come after all.
    await new Promise(setImmediate);
    expect(readdirSync(dirname(demoDir)).filter(name => name.startsWith(basename(demoDir)))).toEqual([
      `${basename(demoDir)}.part`,
    ]);
    expect(existsSync(join(`${demoDir}.part`, 'mine.txt'))).toBe(true);
    expect(session.collection).toBeNull();
  });
});
