/**
 * Enter takes the option that is marked. Mantine's lists of options set a timer as they open, which forgets
 * which one is marked: on a slow machine it fires after the arrow keys, and Enter then takes nothing, or the
 * option that was chosen before.
 */
const takeMarked = (event: KeyboardEvent): void => {
  if (event.key !== 'Enter' || event.isComposing || !(event.target instanceof Element)) return;
  const field = event.target.closest('[data-expanded][aria-controls]');
  const list = document.getElementById(field?.getAttribute('aria-controls') ?? '');
  const marked = list?.querySelector<HTMLElement>('[data-combobox-selected]');
  if (!marked) return;
  event.preventDefault();
  event.stopPropagation();
  marked.click();
};

/** Listens on the whole page, before the lists do; gives what ends it. */
export const listenForEnter = (): (() => void) => {
  document.addEventListener('keydown', takeMarked, { capture: true });
  return () => document.removeEventListener('keydown', takeMarked, { capture: true });
};
