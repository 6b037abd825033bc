import { useCallback, useState } from 'react';
import type { AddedSaleLines, CollectionSummary } from '../../../../electron/api/views.ts';
import { api } from '../../../api/client.ts';
import { useSummary } from '../../../api/use-summary.ts';
import { useAction } from '../../../components/actions/use-action.ts';
import { ErrorState } from '../../../components/layout/error-state.tsx';
import { LoadingState } from '../../../components/layout/loading-state.tsx';
import { showProblem } from '../../../components/notices/undo-notice.tsx';
import { AddedLines } from './added-lines.tsx';
import { LookAtLines } from './look-at-lines.tsx';
import { correctionsInput, emptyPaste, type PasteDraft, usePasteDraft } from './paste-draft.ts';
import { PasteText } from './paste-text.tsx';
import { TextDrop } from './text-file.tsx';
import { readingOf, useLines } from './use-lines.ts';

const Pasting = ({ summary }: { summary: CollectionSummary }) => {
  const [draft, setDraft] = usePasteDraft(summary.dir);
  const [writing, setWriting] = useState(draft.text.trim() === '');
  const [result, setResult] = useState<AddedSaleLines | null>(null);
  const { read, rows, error, fetching } = useLines(writing ? emptyPaste : draft);
  const add = useAction(
    (lines: number[]) =>
      api.sales.addLines({ ...readingOf(draft), corrections: correctionsInput(draft), lines }),
    {
      label: (_, { added }) => (added === 1 ? 'Sale record added' : `${added} sale records added`),
      failure: 'The sale records could not be added',
      onDone: done => {
        setResult(done);
        setDraft(emptyPaste);
        setWriting(true);
      },
    },
  );
  const change = useCallback((next: PasteDraft) => setDraft(next), [setDraft]);
  const takeText = (text: string) => setDraft(before => ({ ...before, text }));
  if (result) return <AddedLines result={result} onAgain={() => setResult(null)} />;
  if (error && !writing) return <ErrorState error={error} retry={() => setWriting(true)} />;
  const drop = (text: string) => {
    takeText(text);
    setWriting(false);
  };
  return (
    <TextDrop onText={drop} onProblem={sentence => showProblem('That file cannot be read here', sentence)}>
      {writing ? (
        <PasteText text={draft.text} onText={takeText} onRead={() => setWriting(false)} />
      ) : read ? (
        <LookAtLines
          read={read}
          rows={rows}
          draft={draft}
          reporting={summary.reportingCurrency}
          today={summary.today}
          busy={fetching}
          adding={add.isPending}
          onDraft={change}
          onEditText={() => setWriting(true)}
          onAdd={() => add.mutate(rows.flatMap(row => (row.standing === 'add' ? row.line : [])))}
        />
      ) : (
        <LoadingState label="Reading the lines" />
      )}
    </TextDrop>
  );
};

/**
 * From lines of sales that somebody noted to sale records: pasted, looked at, corrected, and
 * added as one action.
 */
export const PasteScreen = () => {
  const { data: summary } = useSummary();
  return summary ? <Pasting key={summary.dir} summary={summary} /> : <LoadingState />;
};
