import { existsSync, readdirSync, renameSync, rmdirSync, rmSync } from 'node:fs';
import { collectionExists, createCollection, openCollection } from '../../../db/open-collection.ts';
import { refused } from '../session/errors.ts';
import type { OnProgress } from '../session/progress.ts';
import type { Session } from '../session/session.ts';
import type { CollectionState } from '../views.ts';

/**
 * Opens the demo, making it where it is not there yet: aside in a folder of its own, moved into place only when it is
 * whole, so that stopping half-way leaves nothing.
 */
export const openDemo = async (
  session: Session,
  onProgress: OnProgress,
  signal: AbortSignal,
): Promise<CollectionState> => {
  const { demoDir, host } = session.options;
  if (!collectionExists(demoDir)) {
    if (existsSync(demoDir) && readdirSync(demoDir).length > 0)
      throw refused(`The folder ${demoDir} holds other things already. Choose another folder for the demo.`);
    const aside = `${demoDir}.part`;
    rmSync(aside, { recursive: true, force: true });
    onProgress(0, 0, 'Working out past worths');
    // Most sessions never make the demo; what draws it is loaded when one does.
    const { makeDemo } = await import('../../demo/index.ts');
    try {
      session.options.beforeOpening?.(aside);
      await createCollection(aside, { at: session.at(), reportingCurrency: 'USD' });
      const made = await openCollection(aside, { at: session.at(), host });
      try {
        await makeDemo(made, {
          at: session.at(),
          onProgress: (done, total) => onProgress(done, total, 'Drawing photographs'),
          signal,
        });
      } finally {
        await made.close({ at: session.at() });
      }
      if (existsSync(demoDir)) rmdirSync(demoDir);
      renameSync(aside, demoDir);
    } catch (error) {
      rmSync(aside, { recursive: true, force: true });
      throw error;
    }
  }
  signal.throwIfAborted();
  await session.open(demoDir);
  return session.state();
};
