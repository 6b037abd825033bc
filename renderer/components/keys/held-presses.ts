import type { KeyPress } from './key-match.ts';

/**
 * More than anybody presses ahead; what comes after them is not heard, so that what is replayed is a
 * beginning and whole.
 */
export const mostHeld = 64;

const named = new Set([
  'Enter',
  'Escape',
  'F2',
  'F6',
  'Insert',
  'Home',
  'End',
  'PageUp',
  'PageDown',
  'ArrowUp',
  'ArrowDown',
  'ArrowLeft',
  'ArrowRight',
]);

/**
 * Whether a press may wait for a screen that is loading. Those that erase or take back may not, as nobody
 * should lose anything by a key pressed at a screen not yet seen; nor may those of the browser and of the
 * system. Tab moves the focus at once, unless it follows presses that wait already (`begun`): a cell typed
 * ahead is left by it.
 */
export const mayWait = (press: KeyPress & { repeat?: boolean }, begun: boolean): boolean => {
  const { key } = press;
  if (press.repeat) return false;
  if (press.altKey) return !press.ctrlKey && !press.metaKey && /^[a-z0-9]$/i.test(key);
  if (press.ctrlKey || press.metaKey)
    return /^(a|i|j|k|Enter|Home|End|Arrow(Up|Down|Left|Right))$/i.test(key);
  return key === 'Tab' ? begun : named.has(key) || [...key].length === 1;
};

/** Presses in their order, while what they are meant for is on its way. */
export class HeldPresses<Press> {
  private presses: Press[] = [];

  get any(): boolean {
    return this.presses.length > 0;
  }

  /** False where there are too many already. */
  hold(press: Press): boolean {
    if (this.presses.length >= mostHeld) return false;
    this.presses.push(press);
    return true;
  }

  /** Puts one that could not be pressed yet before all others. */
  putBack(press: Press): void {
    this.presses.unshift(press);
  }

  next(): Press | undefined {
    return this.presses.shift();
  }

  drop(): void {
    this.presses = [];
  }
}
