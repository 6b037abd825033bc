import { useQueryClient } from '@tanstack/react-query';
import { useEffect, useRef } from 'react';
import { useLocation } from 'wouter';
import type { ShellCommand } from '../../electron/api/shell.ts';
import { api } from '../api/client.ts';
import { shell } from '../api/connect.ts';
import { errorSentence, refusalReason } from '../api/error-sentence.ts';
import { askEverythingAgain } from '../api/query-client.ts';
import { useUndo } from '../components/actions/use-undo.ts';
import { places } from '../components/layout/places.ts';
import { showNotice, showProblem } from '../components/notices/undo-notice.tsx';
import { openSearch } from './search-everything.tsx';

const inTextField = (): boolean => {
  const active = document.activeElement;
  return active instanceof HTMLInputElement || active instanceof HTMLTextAreaElement;
};

/** Carries out what is chosen in the window's native menu; in a browser there is none. */
export const useMenuCommands = (showKeys: () => void): void => {
  const client = useQueryClient();
  const [, navigate] = useLocation();
  const { undo, redo } = useUndo();
  const openFolder = async (dir: string) => {
    try {
      await api.collection.open({ dir });
      navigate('/');
    } catch (error) {
      if (refusalReason(error) === 'missing') throw error;
      navigate(places.recovery);
    }
    await askEverythingAgain(client);
  };
  const carryOut = async (chosen: ShellCommand): Promise<unknown> => {
    switch (chosen.command) {
      case 'new-collection':
        await api.collection.create({ dir: chosen.dir });
        await askEverythingAgain(client);
        return navigate('/');
      case 'open-collection':
        return openFolder(chosen.dir);
      case 'import':
        return navigate('/lots/import');
      case 'export-report':
        return navigate('/reports');
      case 'back-up': {
        const { name } = await api.collection.backUp();
        await askEverythingAgain(client);
        return showNotice(`Backed up as ${name}`);
      }
      case 'undo':
        return inTextField() ? document.execCommand('undo') : undo();
      case 'redo':
        return inTextField() ? document.execCommand('redo') : redo();
      case 'search':
        return openSearch();
      case 'show-keys':
        return showKeys();
      case 'go':
        return navigate(chosen.to);
    }
  };
  const latest = useRef(carryOut);
  latest.current = carryOut;
  useEffect(() => {
    const leaving = new AbortController();
    const listen = async () => {
      const native = await shell;
      if (!native || leaving.signal.aborted) return;
      for await (const chosen of await native.commands(undefined, { signal: leaving.signal }))
        latest.current(chosen).catch(error => showProblem('That could not be done', errorSentence(error)));
    };
    listen().catch(error => {
      if (!leaving.signal.aborted) showProblem('The menu does not answer', errorSentence(error));
    });
    return () => leaving.abort();
  }, []);
};
