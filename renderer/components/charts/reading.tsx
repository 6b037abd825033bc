import type { ReactNode } from 'react';
import classes from './charts.module.css';

/** What a chart gives to the reading of the point under the pointer. */
export interface Pointed {
  active?: boolean;
  payload?: readonly { payload?: unknown }[];
}

/** The reading beside the pointer, of the point that is under it; nothing where there is none. */
export const Reading = <Point,>({
  active,
  payload,
  children,
}: Pointed & { children: (point: Point) => ReactNode }) => {
  const point = payload?.[0]?.payload as Point | undefined;
  return active && point ? <div className={classes.reading}>{children(point)}</div> : null;
};
