import { type ComponentType, type LazyExoticComponent, lazy } from 'react';

export interface ScreenRoute {
  /** Where it is mounted; what follows belongs to the screen. */
  path: string;
  screen: LazyExoticComponent<ComponentType>;
}

/** Every screen, loaded when it is first shown. */
export const routes: readonly ScreenRoute[] = [
  { path: '/lots', screen: lazy(() => import('../screens/lots/index.tsx')) },
  { path: '/cars', screen: lazy(() => import('../screens/cars/index.tsx')) },
  { path: '/reference', screen: lazy(() => import('../screens/reference/index.tsx')) },
  { path: '/sales', screen: lazy(() => import('../screens/sales/index.tsx')) },
  { path: '/decide', screen: lazy(() => import('../screens/decide/index.tsx')) },
  { path: '/reports', screen: lazy(() => import('../screens/reports/index.tsx')) },
  { path: '/settings', screen: lazy(() => import('../screens/settings/index.tsx')) },
  { path: '/how-worth-is-estimated', screen: lazy(() => import('../screens/method/index.tsx')) },
];

export const HomeScreen = lazy(() => import('../screens/home/index.tsx'));
export const FirstStartScreen = lazy(() => import('../screens/first-start/index.tsx'));
