import { createContext, useContext, useLayoutEffect, useRef, useSyncExternalStore } from 'react';
import type { KeyGroup, KeyRegistry, ScreenKey } from './key-registry.ts';

const Keys = createContext<KeyRegistry | null>(null);

/** Gives what is inside it the page's keys. */
export const KeysProvider = Keys.Provider;

export const useKeyRegistry = (): KeyRegistry => {
  const registry = useContext(Keys);
  if (!registry) throw new Error('Keys are used outside a KeysProvider.');
  return registry;
};

/** All groups of keys that work just now, for the sheet of keys. */
export const useKeyGroups = (): readonly KeyGroup[] => {
  const registry = useKeyRegistry();
  return useSyncExternalStore(registry.subscribe, registry.listed);
};

/**
 * Makes keys work from when the calling component is first seen, and lists them under `title` in
 * the sheet of keys.
 */
export const useKeys = (title: string, keys: readonly ScreenKey[]): void => {
  const registry = useKeyRegistry();
  const latest = useRef(keys);
  latest.current = keys;
  const listed = keys.map(key => `${key.keys}\t${key.does}`).join('\n');
  // biome-ignore lint/correctness/useExhaustiveDependencies: the list is compared by what it says, not by identity
  useLayoutEffect(() => registry.list({ title, keys: latest.current }), [registry, title, listed]);
  useLayoutEffect(() => registry.hear(() => latest.current), [registry]);
};

/** Has presses wait while the calling component is shown in the place of a screen that is loading. */
export const useKeysWait = (waits: boolean): void => {
  const registry = useKeyRegistry();
  useLayoutEffect(() => (waits ? registry.awaitScreen() : undefined), [registry, waits]);
};
