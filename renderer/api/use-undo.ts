import { type QueryClient, useQueryClient } from '@tanstack/react-query';
import { useCallback } from 'react';
import { showNotice, showProblem, showUndoNotice } from '../components/notices/undo-notice.tsx';
import { api } from './client.ts';
import { errorSentence } from './error-sentence.ts';

/** After a write everything shown is asked anew, but for photographs, whose names say what they hold. */
export const askEverythingAnew = (client: QueryClient): Promise<void> =>
  client.invalidateQueries({ predicate: query => query.meta?.immutable !== true });

/** Takes the newest action back, or does it again, and says which one it was. */
export const useUndo = (): { undo: () => Promise<void>; redo: () => Promise<void> } => {
  const client = useQueryClient();
  const redo = useCallback(async (): Promise<void> => {
    try {
      const done = await api.collection.redo();
      if (!done) return showNotice('Nothing to do again.');
      await askEverythingAnew(client);
      showNotice(`Done again: ${done.label}`);
    } catch (error) {
      showProblem('Could not do that again', errorSentence(error));
    }
  }, [client]);
  const undo = useCallback(async (): Promise<void> => {
    try {
      const undone = await api.collection.undo();
      if (!undone) return showNotice('Nothing to undo.');
      await askEverythingAnew(client);
      showNotice(`Undone: ${undone.label}`);
    } catch (error) {
      showProblem('Could not undo', errorSentence(error));
    }
  }, [client]);
  return { undo, redo };
};

/** Offers the undo of what was just written. */
export const useUndoOffer = (): ((label: string) => void) => {
  const { undo } = useUndo();
  return useCallback((label: string) => showUndoNotice(label, () => void undo()), [undo]);
};
