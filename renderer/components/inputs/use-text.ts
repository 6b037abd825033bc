import { useEffect, useState } from 'react';

/**
 * The text of a field that is read when it is left, and what is wrong with it; both begin again where another
 * value is shown.
 */
export const useText = (shown: string) => {
  const [text, setText] = useState(shown);
  const [problem, setProblem] = useState<string | null>(null);
  useEffect(() => {
    setText(shown);
    setProblem(null);
  }, [shown]);
  return { text, setText, problem, setProblem };
};
