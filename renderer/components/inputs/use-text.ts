import { type RefObject, useEffect, useState } from 'react';

/**
 * The text of a field that is read when it is left, and what is wrong with it; both begin again where another
 * value is shown, but for one that follows from what is being typed (`typed`).
 */
export const useText = (shown: string, typed?: RefObject<string | null>) => {
  const [text, setText] = useState(shown);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    if (typed?.current === shown) return;
    setText(shown);
    setProblem(null);
  }, [shown, typed]);
  return { text, setText, problem, setProblem };
};
