import type { ReactNode } from 'react';
import classes from './layout.module.css';

/**
 * What a screen says when it has nothing to show: what it is for, what to do next, and the means to do it.
 */
export const EmptyState = ({
  title,
  children,
  actions,
}: {
  title: string;
  children?: ReactNode;
  /** Buttons: the likeliest first, `variant="filled"`. */
  actions?: ReactNode;
}) => (
  <div className={classes.empty}>
    <h2>{title}</h2>
    {children ? <div className={classes.emptyText}>{children}</div> : null}
    {actions ? <div className={classes.emptyActions}>{actions}</div> : null}
  </div>
);
