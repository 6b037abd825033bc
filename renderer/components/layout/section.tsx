import { type ReactNode, useId } from 'react';
import classes from './layout.module.css';

/** A part of a page under its own heading and a hairline; `id` lets the sticky index lead to it. */
export const Section = ({
  id,
  title,
  aside,
  children,
}: {
  id?: string;
  title: string;
  /** What stands at the right of the heading: a unit, a count, an action. */
  aside?: ReactNode;
  children: ReactNode;
}) => {
  const headingId = useId();
  return (
    <section id={id} className={classes.section} aria-labelledby={headingId}>
      <div className={classes.sectionHead}>
        <h2 id={headingId} tabIndex={-1}>
          {title}
        </h2>
        {aside ? <div className={classes.aside}>{aside}</div> : null}
      </div>
      {children}
    </section>
  );
};
