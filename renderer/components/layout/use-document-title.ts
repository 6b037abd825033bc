import { useEffect } from 'react';

/** Names the window after the screen. */
export const useDocumentTitle = (title: string): void => {
  useEffect(() => {
    document.title = title === 'Playworn' ? title : `${title} · Playworn`;
  }, [title]);
};
