import { existsSync, renameSync, rmdirSync, rmSync } from 'node:fs';
import { collectionExists, createCollection, openCollection } from '../../../db/open-collection.ts';
import { refused } from '../session/errors.ts';
import type { OnProgress } from '../session/progress.ts';
import type { Session } from '../session/session.ts';
import type { CollectionState } from '../views.ts';
import { folderToMakeIn, isVacant } from './making-folder.ts';

/** Puts what was made in its place, unless another program was quicker. */
const putInPlace = (made: string, dir: string): void => {
  try {
    if (existsSync(dir)) rmdirSync(dir);
    renameSync(made, dir);
  } catch (error) {
    if (!collectionExists(dir)) throw error;
  }
};

/** Makes the demo in a folder of its own and moves it into place when it is whole. */
const make = async (session: Session, onProgress: OnProgress, signal: AbortSignal): Promise<void> => {
  const { demoDir, host, beforeOpening } = session.options;
  const aside = folderToMakeIn(demoDir);
  onProgress(0, 0, 'Working out past values');
  // Most sessions never make the demo; what draws it is loaded when one does.
  const { makeDemo } = await import('../../demo/index.ts');
  try {
    beforeOpening?.(aside);
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
    putInPlace(aside, demoDir);
  } finally {
    rmSync(aside, { recursive: true, force: true });
  }
};

/** Opens the demo, making it where it is not there yet; stopping half-way leaves nothing. */
export const openDemo = async (
  session: Session,
  onProgress: OnProgress,
  signal: AbortSignal,
): Promise<CollectionState> => {
  const { demoDir } = session.options;
  if (!collectionExists(demoDir)) {
    if (!isVacant(demoDir))
      throw refused(`The folder ${demoDir} holds other things already. Choose another folder for the demo.`);
    await make(session, onProgress, signal);
  }
  signal.throwIfAborted();
  await session.open(demoDir);
  return session.state();
};
