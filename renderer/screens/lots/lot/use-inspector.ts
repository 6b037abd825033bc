import { useLocalStorage, useViewportSize } from '@mantine/hooks';
import { type RefObject, useCallback, useRef } from 'react';
import type { GridHandle } from '../../../components/data-grid/types.ts';

/** Below this the grid needs all the width there is, until the inspector is asked for. */
const needed = 1280;
/** From here on the grid shows every column beside the inspector. */
const plenty = 1640;

export interface InspectorState {
  shown: boolean;
  roomy: boolean;
  grid: RefObject<GridHandle | null>;
  panel: RefObject<HTMLElement | null>;
  toggle: () => void;
  /** Moves the focus from the grid to the inspector and back. */
  swapFocus: () => void;
}

/** Whether the inspector stands beside the grid: as last chosen, else where there is room for it. */
export const useInspector = (): InspectorState => {
  const grid = useRef<GridHandle>(null);
  const panel = useRef<HTMLElement>(null);
  const { width } = useViewportSize();
  const [chosen, setChosen] = useLocalStorage<boolean | null>({
    key: 'playworn-lot-inspector',
    defaultValue: null,
    getInitialValueInEffect: false,
  });
  const shown = chosen ?? (width === 0 ? window.innerWidth : width) >= needed;
  const toggle = useCallback(() => {
    setChosen(!shown);
    if (shown) grid.current?.focus();
  }, [setChosen, shown]);
  const swapFocus = useCallback(() => {
    if (!panel.current || panel.current.contains(document.activeElement)) grid.current?.focus();
    else panel.current.focus();
  }, []);
  return { shown, roomy: (width || window.innerWidth) >= plenty, grid, panel, toggle, swapFocus };
};
