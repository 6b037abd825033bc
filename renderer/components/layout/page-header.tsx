import type { ReactNode } from 'react';
import classes from './layout.module.css';
import { useDocumentTitle } from './use-document-title.ts';

/** The head of a screen: its title (also the window's), one line of facts, and its actions at the right. */
export const PageHeader = ({
  title,
  facts,
  actions,
  back,
}: {
  title: string;
  facts?: ReactNode;
  actions?: ReactNode;
  /** A link to the list that the page belongs to. */
  back?: { label: string; to: string };
}) => {
  useDocumentTitle(title);
  return (
    <header className={classes.header}>
      <div className={classes.heading}>
        {back ? (
          <a className={classes.back} href={`#${back.to}`}>
            ‹ {back.label}
          </a>
        ) : null}
        <h1>{title}</h1>
        {facts ? <div className={classes.facts}>{facts}</div> : null}
      </div>
      {actions ? <div className={classes.actions}>{actions}</div> : null}
    </header>
  );
};
