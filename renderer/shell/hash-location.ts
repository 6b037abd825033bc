import { useSyncExternalStore } from 'react';

/**
 * The place and the query that an address's fragment names: "#/cars?casting=3" is "/cars" and "casting=3".
 */
export const placeIn = (hash: string): { path: string; query: string } => {
  const [path = '', ...query] = hash.replace(/^#?\/?/, '').split('?');
  return { path: `/${path}`, query: query.join('?') };
};

const subscribe = (listener: () => void) => {
  window.addEventListener('hashchange', listener);
  window.addEventListener('popstate', listener);
  return () => {
    window.removeEventListener('hashchange', listener);
    window.removeEventListener('popstate', listener);
  };
};

const navigate = (
  to: string,
  { replace = false, state = null }: { replace?: boolean; state?: unknown } = {},
): void => {
  const { path, query } = placeIn(to);
  history[replace ? 'replaceState' : 'pushState'](state, '', `#${path}${query ? `?${query}` : ''}`);
  window.dispatchEvent(new Event('hashchange'));
};

const useHashQuery = (): string => useSyncExternalStore(subscribe, () => placeIn(location.hash).query);

const usePlace = (): [string, typeof navigate] => [
  useSyncExternalStore(subscribe, () => placeIn(location.hash).path),
  navigate,
];

/**
 * Keeps the whole place in the address's fragment, its query included, so that a filtered list can be linked
 * to, reloaded and gone back to, and its query does not stay behind when another place is opened.
 */
export const useHashPlace = Object.assign(usePlace, {
  hrefs: (href: string) => `#${href}`,
  searchHook: useHashQuery,
});
