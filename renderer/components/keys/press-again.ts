const inputsWithoutText = /^(radio|checkbox|range|color|file|button|submit|reset|image)$/;

/** True where a press is text for what has the focus; a choice, a tick or a slider takes none. */
export const inField = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  (target.isContentEditable ||
    /^(TEXTAREA|SELECT)$/.test(target.tagName) ||
    (target instanceof HTMLInputElement && !inputsWithoutText.test(target.type)));

/** True where the browser itself presses the link or button that has the focus. */
export const activatesFocused = (event: KeyboardEvent): boolean =>
  /^(Enter| )$/.test(event.key) &&
  event.target instanceof Element &&
  event.target.closest('a[href], button, summary, [role="button"], [role="tab"]') !== null;

/** True for a press that a focused choice, tick or slider deals with by itself: Space, arrows and the like. */
export const movesFocused = ({ target, key, ctrlKey, metaKey, altKey }: KeyboardEvent): boolean =>
  target instanceof HTMLInputElement &&
  inputsWithoutText.test(target.type) &&
  !ctrlKey &&
  !metaKey &&
  !altKey &&
  /^( |Enter|Arrow\w+|Home|End|Page\w+)$/.test(key);

/**
 * Presses a key again where the focus is now, doing what a browser would do by itself: text goes into a
 * field and Backspace takes from it, Enter and Space press the focused link or button. False for what cannot
 * be done again, such as the browser's own Tab.
 */
export const pressAgain = (press: KeyboardEvent): boolean => {
  const target = document.activeElement ?? document.body;
  const { key, code, ctrlKey, metaKey, altKey, shiftKey } = press;
  const again = new KeyboardEvent('keydown', {
    key,
    code,
    ctrlKey,
    metaKey,
    altKey,
    shiftKey,
    bubbles: true,
    cancelable: true,
    composed: true,
  });
  if (!target.dispatchEvent(again)) return true;
  if (inField(target) && [...key].length === 1 && !ctrlKey && !metaKey && !altKey)
    return document.execCommand('insertText', false, key);
  if (inField(target) && key === 'Backspace') return document.execCommand('delete');
  if (target instanceof HTMLElement && activatesFocused(again)) target.click();
  return key !== 'Tab';
};
