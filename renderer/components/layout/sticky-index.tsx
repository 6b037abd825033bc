import { useEffect, useState } from 'react';
import classes from './layout.module.css';

export interface IndexEntry {
  /** The id of a `Section` on this page. */
  id: string;
  label: string;
}

const useSectionInView = (entries: readonly IndexEntry[]): string | undefined => {
  const [shown, setShown] = useState(entries[0]?.id);
  useEffect(() => {
    const inView = new Set<string>();
    const watcher = new IntersectionObserver(
      changes => {
        for (const { target, isIntersecting } of changes) {
          if (isIntersecting) inView.add(target.id);
          else inView.delete(target.id);
        }
        const first = entries.find(entry => inView.has(entry.id));
        if (first) setShown(first.id);
      },
      { rootMargin: '-96px 0px -40% 0px' },
    );
    for (const { id } of entries) {
      const section = document.getElementById(id);
      if (section) watcher.observe(section);
    }
    return () => watcher.disconnect();
  }, [entries]);
  return shown;
};

/**
 * The sections of one long page, always in sight, the one being read marked. Keep `entries` stable
 * (module scope or memo).
 */
export const StickyIndex = ({
  entries,
  label = 'On this page',
}: {
  entries: readonly IndexEntry[];
  label?: string;
}) => {
  const shown = useSectionInView(entries);
  return (
    <nav className={classes.index} aria-label={label}>
      {entries.map(entry => (
        <button
          key={entry.id}
          type="button"
          className={classes.indexEntry}
          aria-current={entry.id === shown ? 'location' : undefined}
          onClick={() => {
            const section = document.getElementById(entry.id);
            section?.scrollIntoView({ block: 'start' });
            section?.querySelector<HTMLElement>('h2')?.focus();
          }}
        >
          {entry.label}
        </button>
      ))}
    </nav>
  );
};
