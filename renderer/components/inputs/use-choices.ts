import { useEffect, useMemo, useState } from 'react';
import { whenWritten } from '../actions/in-order.ts';
import { type Choice, filterChoices } from './choices.ts';

/** Where choices come from: a list at hand, or a search that the service answers. */
export type ChoiceSource = readonly Choice[] | ((text: string) => Promise<readonly Choice[]>);

export interface FoundChoices {
  choices: readonly Choice[];
  /** False while the choices still belong to an earlier text. */
  fresh: boolean;
}

const pause = 60;
const none: FoundChoices = { choices: [], fresh: false };

/** The choices for what is typed just now; late answers to earlier text are dropped. */
export const useChoices = (source: ChoiceSource, text: string, open: boolean): FoundChoices => {
  const [found, setFound] = useState<{ text: string; choices: readonly Choice[] } | null>(null);
  useEffect(() => {
    if (!open || typeof source !== 'function') return;
    let stale = false;
    const settle = (choices: readonly Choice[]) => {
      if (!stale) setFound({ text, choices });
    };
    // What was just written may be among what is looked for.
    const search = () => whenWritten().then(() => source(text));
    const timer = setTimeout(() => search().then(settle, () => settle([])), pause);
    return () => {
      stale = true;
      clearTimeout(timer);
    };
  }, [source, text, open]);
  return useMemo(() => {
    if (typeof source !== 'function') return { choices: filterChoices(source, text), fresh: true };
    return found ? { choices: found.choices, fresh: found.text === text } : none;
  }, [source, text, found]);
};
