import { useEffect, useRef, useState } from 'react';
import type { PlotSize } from './dots.ts';

/** The size of an element as it is laid out, and as it changes. */
export const useSize = <Element extends HTMLElement>() => {
  const ref = useRef<Element>(null);
  const [size, setSize] = useState<PlotSize>({ width: 0, height: 0 });
  useEffect(() => {
    const element = ref.current;
    if (!element) return;
    const watcher = new ResizeObserver(() =>
      setSize({ width: element.clientWidth, height: element.clientHeight }),
    );
    watcher.observe(element);
    return () => watcher.disconnect();
  }, []);
  return { ref, size };
};
