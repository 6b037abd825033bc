import type { QueryClient } from '@tanstack/react-query';
import { lateCode } from '../components/late-code.ts';
import { homeQuery } from '../screens/home/home-query.ts';
import { worthCurve } from '../screens/home/worth-curve.ts';
import { stateQuery } from './state-query.ts';

export const firstStart = lateCode(() => import('../screens/first-start/index.tsx'));
export const recovery = lateCode(() => import('../screens/recovery/index.tsx'));

/** Where each of the other screens is mounted; what follows the path belongs to the screen. */
export const routes = [
  { path: '/lots', screen: lateCode(() => import('../screens/lots/index.tsx')) },
  { path: '/cars', screen: lateCode(() => import('../screens/cars/index.tsx')) },
  { path: '/reference', screen: lateCode(() => import('../screens/reference/index.tsx')) },
  { path: '/sales', screen: lateCode(() => import('../screens/sales/index.tsx')) },
  { path: '/decide', screen: lateCode(() => import('../screens/decide/index.tsx')) },
  { path: '/bench', screen: lateCode(() => import('../screens/bench/index.tsx')) },
  { path: '/reports', screen: lateCode(() => import('../screens/reports/index.tsx')) },
  { path: '/not-understood', screen: lateCode(() => import('../screens/not-understood/index.tsx')) },
  { path: '/settings', screen: lateCode(() => import('../screens/settings/index.tsx')) },
  { path: '/how-values-are-estimated', screen: lateCode(() => import('../screens/method/index.tsx')) },
];

/**
 * Asks for what Home shows as soon as a collection is open, and fetches its curve, while the
 * frame is being drawn.
 */
export const beginHome = (client: QueryClient): void => {
  void worthCurve.fetchAhead();
  client.fetchQuery(stateQuery).then(
    ({ open }) => (open ? client.prefetchQuery(homeQuery) : undefined),
    // The frame asks too, and says what is wrong.
    () => undefined,
  );
};

/** Fetches the other screens one after the other, so that going to one is at once. */
export const fetchTheRest = async (): Promise<void> => {
  for (const { screen } of routes) await screen.fetchAhead();
};
