import type { ReactNode } from 'react';
import classes from './season.module.css';

/** What the season takes of one thing against what there is of it: "14.5 / 20" over a rule that fills. */
export const Meter = ({
  label,
  used,
  limit,
  text,
  children,
}: {
  label: ReactNode;
  used: number;
  limit: number | null;
  /** The used amount as text. */
  text: ReactNode;
  /** The limit: a field, or plain text. */
  children: ReactNode;
}) => {
  const over = limit !== null && used > limit + 1e-9;
  const share = limit === null ? 0 : limit === 0 ? (used > 0 ? 1 : 0) : Math.min(1, used / limit);
  return (
    <div className={classes.meter} data-over={over || undefined}>
      <span className={classes.label}>
        {label}
        {over ? <span className={classes.over}> over</span> : null}
      </span>
      <span className={classes.figures}>
        <span className={classes.used}>{text}</span>
        <span className={classes.slash}>/</span>
        {children}
      </span>
      <span className={classes.rule} aria-hidden="true">
        <span style={{ width: `${share * 100}%` }} />
      </span>
    </div>
  );
};
