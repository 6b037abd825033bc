import { ActionIcon, NumberInput } from '@mantine/core';
import { IconChevronLeft, IconChevronRight } from '@tabler/icons-react';
import { useQuery } from '@tanstack/react-query';
import { type KeyboardEvent, useEffect, useState } from 'react';
import type { ReportResult } from '../../../electron/api/views.ts';
import { api } from '../../api/client.ts';
import { errorSentence } from '../../api/error-sentence.ts';
import { useKeys } from '../keys/use-keys.ts';
import classes from './papers.module.css';

/**
 * A page's picture as an address for as long as it is shown. It is shown as a picture, in which nothing runs.
 */
const usePage = (token: string, page: number) => {
  const { data, error } = useQuery({
    queryKey: ['paper-page', token, page],
    meta: { immutable: true },
    queryFn: () => api.reports.page({ token, page }),
    gcTime: 60_000,
  });
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    if (!data) return;
    const made = URL.createObjectURL(new Blob([data.svg], { type: 'image/svg+xml' }));
    setUrl(made);
    return () => {
      setUrl(null);
      // A picture that is still on its way finds its bytes yet.
      setTimeout(() => URL.revokeObjectURL(made), 60_000);
    };
  }, [data]);
  return { url, error };
};

const steps: Record<string, (page: number, pages: number) => number> = {
  PageDown: page => page + 1,
  ArrowRight: page => page + 1,
  PageUp: page => page - 1,
  ArrowLeft: page => page - 1,
  Home: () => 1,
  End: (_, pages) => pages,
};

/** A paper page by page, as it will be saved. */
export const PaperPreview = ({
  result,
}: {
  result: Pick<ReportResult, 'token' | 'fileName' | 'previewPages' | 'pages'>;
}) => {
  const pages = result.previewPages;
  const [page, setPage] = useState(1);
  const { url, error } = usePage(result.token, page);
  const go = (to: number) => setPage(Math.min(pages, Math.max(1, to)));
  useKeys('Preview of a paper', [
    { keys: 'PageUp PageDown', does: 'Previous and next page, while the page has the focus' },
    { keys: 'Home End', does: 'First and last page' },
  ]);
  const press = (event: KeyboardEvent) => {
    const step = steps[event.key];
    if (!step || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    go(step(page, pages));
  };
  return (
    <section className={classes.preview} aria-label="Preview">
      <div className={classes.bar}>
        <ActionIcon
          variant="subtle"
          aria-label="Previous page"
          disabled={page === 1}
          onClick={() => go(page - 1)}
        >
          <IconChevronLeft size={18} aria-hidden="true" />
        </ActionIcon>
        <NumberInput
          aria-label="Page"
          size="xs"
          w={64}
          hideControls
          min={1}
          max={pages}
          value={page}
          onChange={value => Number(value) >= 1 && go(Number(value))}
        />
        <span className="soft tabular">of {result.pages}</span>
        <ActionIcon
          variant="subtle"
          aria-label="Next page"
          disabled={page === pages}
          onClick={() => go(page + 1)}
        >
          <IconChevronRight size={18} aria-hidden="true" />
        </ActionIcon>
      </div>
      {pages < result.pages ? (
        <p className="soft">
          Only the first {pages} pages can be looked at here. The file that you save has all {result.pages}.
        </p>
      ) : null}
      {error ? (
        <p className="harm" role="alert">
          {errorSentence(error)}
        </p>
      ) : (
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the page is turned by keys while it has the focus
        <figure className={classes.leaf} aria-label="Page" tabIndex={0} onKeyDown={press}>
          {url ? (
            <img src={url} alt={`Page ${page} of ${result.pages} of ${result.fileName}`} />
          ) : (
            <div className={classes.coming} aria-busy="true" />
          )}
        </figure>
      )}
    </section>
  );
};
