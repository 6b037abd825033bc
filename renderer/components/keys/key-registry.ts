import { useEffect, useRef, useSyncExternalStore } from 'react';
import { isMac, isTyping, matchesKeys } from './key-match.ts';

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

let groups: readonly KeyGroup[] = [];
const listeners = new Set<() => void>();
const change = (next: readonly KeyGroup[]) => {
  groups = next;
  for (const listener of listeners) listener();
};
const subscribe = (listener: () => void) => {
  listeners.add(listener);
  return () => {
    listeners.delete(listener);
  };
};

/** All groups of keys that work just now, for the sheet of keys. */
export const useKeyGroups = (): readonly KeyGroup[] => useSyncExternalStore(subscribe, () => groups);

export const onMac = (): boolean => isMac(navigator.platform);

const inField = (target: EventTarget | null): boolean =>
  target instanceof HTMLElement &&
  (target.isContentEditable || /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName));

/** Makes keys work while the calling component is shown, and lists them under `title` in the sheet of keys. */
export const useKeys = (title: string, keys: readonly ScreenKey[]): void => {
  const latest = useRef(keys);
  latest.current = keys;
  const listed = keys.map(key => `${key.keys}\t${key.does}`).join('\n');
  // biome-ignore lint/correctness/useExhaustiveDependencies: the list is compared by what it says, not by identity
  useEffect(() => {
    const group: KeyGroup = { title, keys: latest.current };
    change([...groups, group]);
    return () => change(groups.filter(other => other !== group));
  }, [title, listed]);
  useEffect(() => {
    const press = (event: KeyboardEvent) => {
      if (event.defaultPrevented || (isTyping(event) && inField(event.target))) return;
      const found = latest.current.find(
        key => key.run && key.keys.split(' ').some(one => matchesKeys(one, event, onMac())),
      );
      if (!found?.run) return;
      event.preventDefault();
      found.run();
    };
    window.addEventListener('keydown', press);
    return () => window.removeEventListener('keydown', press);
  }, []);
};
