import { useCallback, useEffect, useRef, useState } from 'react';
import type { SeasonChoice } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { errorSentence } from '../../../api/error-sentence.ts';

export type ChoiceState =
  | { is: 'none' }
  | { is: 'running' }
  | { is: 'done'; chosen: SeasonChoice }
  | { is: 'failed'; sentence: string };

type Wish = Parameters<typeof api.decisions.season>[0];

/**
 * Looks for the best that can be done with the cars, and can be stopped; leaving the screen stops it. `before` makes
 * ready for what was chosen to be shown.
 */
export const useChoose = () => {
  const [state, setState] = useState<ChoiceState>({ is: 'none' });
  const controller = useRef<AbortController | null>(null);
  useEffect(() => () => controller.current?.abort(), []);
  const choose = useCallback(
    async (wish: Wish, before: (chosen: SeasonChoice) => Promise<void>): Promise<SeasonChoice | null> => {
      controller.current?.abort();
      const own = new AbortController();
      controller.current = own;
      setState({ is: 'running' });
      try {
        const chosen = await api.decisions.season(wish, { signal: own.signal });
        await before(chosen);
        if (controller.current !== own) return null;
        setState({ is: 'done', chosen });
        return chosen;
      } catch (error) {
        if (controller.current !== own) return null;
        setState(own.signal.aborted ? { is: 'none' } : { is: 'failed', sentence: errorSentence(error) });
        return null;
      }
    },
    [],
  );
  const cancel = useCallback(() => controller.current?.abort(), []);
  return { state, choose, cancel };
};
