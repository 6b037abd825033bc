/** A hand that stays within so many pixels has not moved. */
const unmoved = 4;

const controls = [
  ...['button', 'a[href]', 'label', 'summary', '[data-sortable]'],
  ...['option', 'menuitem', 'tab', 'radio', 'switch'].map(role => `[role="${role}"]`),
].join();

/**
 * Lets a press count that the page has moved away from under: what comes late pushes the rest down, the press then
 * begins on one thing and ends on another, and a browser clicks neither. Where the hand stayed, what it was put on is
 * clicked.
 */
export const clickDespiteShifts = (page: Window): void => {
  let pressed: { target: Element; control: Element; x: number; y: number } | null = null;
  page.addEventListener(
    'mousedown',
    ({ button, target, clientX: x, clientY: y }) => {
      const control = button === 0 && target instanceof Element ? target.closest(controls) : null;
      pressed = control && { target: target as Element, control, x, y };
    },
    { capture: true },
  );
  page.addEventListener('mouseup', event => {
    const before = pressed;
    pressed = null;
    if (event.button !== 0 || !before?.target.isConnected) return;
    const { target, control, x, y } = before;
    const hasMoved = Math.hypot(event.clientX - x, event.clientY - y) > unmoved;
    if (hasMoved || control.contains(event.target as Node) || control.matches(':disabled')) return;
    const { clientX, clientY, shiftKey, ctrlKey, metaKey, altKey } = event;
    const keys = { shiftKey, ctrlKey, metaKey, altKey };
    target.dispatchEvent(
      new MouseEvent('click', { bubbles: true, cancelable: true, detail: 1, clientX, clientY, ...keys }),
    );
  });
};
