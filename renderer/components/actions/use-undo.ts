import { type QueryClient, useQueryClient } from '@tanstack/react-query';
import { useMemo } from 'react';
import { api } from '../../api/client.ts';
import { errorSentence } from '../../api/error-sentence.ts';
import { askEverythingAgain } from '../../api/query-client.ts';
import { showNotice, showProblem, showRedoNotice, showUndoNotice } from '../notices/undo-notice.tsx';
import { readerWords } from '../words.ts';
import { afterWrites } from './in-order.ts';

export interface History {
  undo: () => Promise<void>;
  redo: () => Promise<void>;
}

const historyOf = (client: QueryClient): History => {
  const undo = async (): Promise<void> => {
    try {
      const undone = await afterWrites(() => api.collection.undo());
      if (!undone) return showNotice('Nothing to undo.');
      await askEverythingAgain(client);
      showRedoNotice(`Undone: ${readerWords().action(undone.label)}`, () => void redo());
    } catch (error) {
      showProblem('Could not undo', errorSentence(error));
    }
  };
  const redo = async (): Promise<void> => {
    try {
      const done = await afterWrites(() => api.collection.redo());
      if (!done) return showNotice('Nothing to redo.');
      await askEverythingAgain(client);
      showUndoNotice(`Redone: ${readerWords().action(done.label)}`, () => void undo());
    } catch (error) {
      showProblem('Could not redo', errorSentence(error));
    }
  };
  return { undo, redo };
};

/** Takes the newest action back, or does it again, and says which one it was. */
export const useUndo = (): History => {
  const client = useQueryClient();
  return useMemo(() => historyOf(client), [client]);
};
