import { lateCode } from '../../components/late-code.ts';

/** The chart alone is as much code as all else that a start needs. */
export const worthCurve = lateCode(() => import('./worth-chart.tsx'));
