import { useLocalStorage, useViewportSize } from '@mantine/hooks';
import { useCallback } from 'react';

/** Below this the grid needs all the width there is, until the inspector is asked for. */
const needed = 1280;
/** From here on the grid shows every column beside the inspector. */
const plenty = 1640;

export const inspectorId = 'lot-inspector';

export interface InspectorState {
  shown: boolean;
  roomy: boolean;
  toggle: () => void;
  /** Moves the focus from the grid to the inspector and back. */
  swapFocus: () => void;
}

const focusGrid = () => document.querySelector<HTMLElement>('main [role="grid"]')?.focus();

/** Whether the inspector stands beside the grid: as last chosen, else where there is room for it. */
export const useInspector = (): InspectorState => {
  const { width } = useViewportSize();
  const [chosen, setChosen] = useLocalStorage<boolean | null>({
    key: 'playworn-lot-inspector',
    defaultValue: null,
    getInitialValueInEffect: false,
  });
  const shown = chosen ?? (width === 0 ? window.innerWidth : width) >= needed;
  const toggle = useCallback(() => {
    setChosen(!shown);
    if (shown) focusGrid();
  }, [setChosen, shown]);
  const swapFocus = useCallback(() => {
    const panel = document.getElementById(inspectorId);
    if (!panel || panel.contains(document.activeElement)) return focusGrid();
    panel.focus();
  }, []);
  return { shown, roomy: (width || window.innerWidth) >= plenty, toggle, swapFocus };
};
