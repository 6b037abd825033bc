import { drawn } from '../waiting/drawn.ts';
import { HeldPresses, mayWait } from './held-presses.ts';
import { isMac, isTyping, matchesKeys } from './key-match.ts';
import { activatesFocused, inField, movesFocused, pressAgain } from './press-again.ts';

export interface ScreenKey {
  /** "mod+K", "alt+1", "?", "F2"; several that do the same are separated by a space. */
  keys: string;
  /** What it does, as the sheet of keys says it. */
  does: string;
  /** Left out where the keys are handled elsewhere, such as in a grid, and only listed here. */
  run?: () => void;
}

export interface KeyGroup {
  title: string;
  keys: readonly ScreenKey[];
}

/** Dialogs that cover the page, the topmost last. */
const covering = '[role="dialog"][aria-modal="true"]';
const coverOf = (): Element | undefined => [...document.querySelectorAll(covering)].at(-1);
const isBeneath = (target: EventTarget | null): boolean =>
  target === document.body || (target instanceof Node && !!document.getElementById('root')?.contains(target));

export const onMac = (): boolean => isMac(navigator.platform);

/**
 * The keys that work just now. One listener hears them all, from before the first thing is drawn: while a
 * screen is loading, or a dialog that was drawn has yet to take the focus, presses that nobody takes are held and pressed again, once and in their order, when it
 * stands. They are dropped when the reader goes elsewhere meanwhile: to another place, into a text field, by
 * the mouse, or by a key that works already.
 */
export class KeyRegistry {
  private groups: readonly KeyGroup[] = [];
  private readonly listeners = new Set<() => void>();
  private readonly live = new Set<() => readonly ScreenKey[]>();
  private readonly held = new HeldPresses<KeyboardEvent>();
  private loading = 0;
  private replaying = false;
  private pressing = false;
  /** Dialogs that have had the focus. */
  private readonly entered = new WeakSet<Element>();

  readonly subscribe = (listener: () => void): (() => void) => {
    this.listeners.add(listener);
    return () => {
      this.listeners.delete(listener);
    };
  };

  readonly listed = (): readonly KeyGroup[] => this.groups;

  /** Lists keys in the sheet of keys, until the answer is called. */
  list(group: KeyGroup): () => void {
    this.change([...this.groups, group]);
    return () => this.change(this.groups.filter(other => other !== group));
  }

  /** Makes keys work, until the answer is called; of two that are the same, the one that came later. */
  hear(keys: () => readonly ScreenKey[]): () => void {
    this.live.add(keys);
    return () => {
      this.live.delete(keys);
    };
  }

  /** Says that a screen is loading, until the answer is called. */
  awaitScreen(): () => void {
    this.loading += 1;
    let ended = false;
    return () => {
      if (ended) return;
      ended = true;
      this.loading -= 1;
      if (this.loading === 0) void this.replay();
    };
  }

  /** Has a press wait for what is awaited: behind those that wait already, or before them if it was one of them. */
  hold(press: KeyboardEvent): void {
    press.preventDefault();
    press.stopPropagation();
    if (this.pressing) this.held.putBack(press);
    else this.held.hold(press);
  }

  holdsAny(): boolean {
    return this.held.any;
  }

  /** Drops the presses that wait. */
  forget(): void {
    this.held.drop();
  }

  /** Listens to the page for good. */
  listen(page: Window): this {
    page.addEventListener('keydown', this.holdBehindOthers, { capture: true });
    page.addEventListener('keydown', this.holdForDialog, { capture: true });
    page.addEventListener('keydown', this.press);
    page.addEventListener('hashchange', this.left);
    page.addEventListener('popstate', this.left);
    page.addEventListener('pointerdown', this.left);
    page.addEventListener('focusin', ({ target }) => {
      const dialog = target instanceof Element ? target.closest(covering) : null;
      if (dialog) this.entered.add(dialog);
      else if (this.loading > 0 && inField(target)) this.left();
    });
    return this;
  }

  private change(next: readonly KeyGroup[]): void {
    this.groups = next;
    for (const listener of this.listeners) listener();
  }

  private readonly left = (): void => {
    if (!this.pressing) this.held.drop();
  };

  /** What is pressed while others are being pressed again comes after them. */
  private readonly holdBehindOthers = (event: KeyboardEvent): void => {
    if (!this.replaying || this.pressing || !this.held.any || !mayWait(event, true)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    this.held.hold(event);
  };

  /** A dialog takes the focus a moment after it is drawn; what is pressed meanwhile is meant for it. */
  private readonly holdForDialog = (event: KeyboardEvent): void => {
    if (this.pressing || !isBeneath(event.target) || !mayWait(event, this.held.any)) return;
    const dialog = coverOf();
    if (!dialog || this.entered.has(dialog)) return;
    event.preventDefault();
    event.stopImmediatePropagation();
    this.held.hold(event);
    void this.awaitEntry(dialog);
  };

  private async awaitEntry(dialog: Element): Promise<void> {
    const stands = this.awaitScreen();
    while (dialog.isConnected && !this.entered.has(dialog)) await drawn();
    stands();
  }

  private readonly press = (event: KeyboardEvent): void => {
    if (event.defaultPrevented || event.isComposing) return;
    const field = inField(event.target);
    if ((field && isTyping(event)) || movesFocused(event)) return;
    const found = this.find(event);
    if (found) {
      event.preventDefault();
      this.left();
      found();
    } else if (this.loading > 0 && !field && !activatesFocused(event) && mayWait(event, this.held.any)) {
      event.preventDefault();
      this.held.hold(event);
    }
  };

  private find(event: KeyboardEvent): (() => void) | undefined {
    const mac = onMac();
    for (const keys of [...this.live].reverse())
      for (const key of keys())
        if (key.run && key.keys.split(' ').some(one => matchesKeys(one, event, mac))) return key.run;
    return undefined;
  }

  private async replay(): Promise<void> {
    if (this.replaying) return;
    this.replaying = true;
    for (;;) {
      await drawn();
      // What one press opened may be loading too: the rest waits for it.
      const next = this.loading > 0 ? undefined : this.held.next();
      if (!next) break;
      this.pressing = true;
      const done = pressAgain(next);
      this.pressing = false;
      if (!done) this.held.drop();
    }
    this.replaying = false;
  }
}
