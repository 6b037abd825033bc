import { useEffect, useState } from 'react';
import { type Choice, filterChoices } from './choices.ts';

/** Where choices come from: a list at hand, or a search that the service answers. */
export type ChoiceSource = readonly Choice[] | ((text: string) => Promise<readonly Choice[]>);

const pause = 60;

/** The choices for what is typed just now; late answers to earlier text are dropped. */
export const useChoices = (source: ChoiceSource, text: string, open: boolean): readonly Choice[] => {
  const [found, setFound] = useState<readonly Choice[]>([]);
  useEffect(() => {
    if (!open || typeof source !== 'function') return;
    let stale = false;
    const timer = setTimeout(() => {
      source(text).then(
        choices => {
          if (!stale) setFound(choices);
        },
        () => {
          if (!stale) setFound([]);
        },
      );
    }, pause);
    return () => {
      stale = true;
      clearTimeout(timer);
    };
  }, [source, text, open]);
  return typeof source === 'function' ? found : filterChoices(source, text);
};
