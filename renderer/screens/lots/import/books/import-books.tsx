import { useState } from 'react';
import type { LedgerKind, LedgerResult } from '../../../../../electron/api/views.ts';
import type { ListKind, Source } from '../import-choice.ts';
import { BookResult } from './book-result.tsx';
import { BookWork } from './book-work.tsx';
import { ChooseBook } from './choose-book.tsx';

/** From a list of lots, expenses, sold cars or decisions to the books: chosen, tried, taken, and undone. */
export const ImportBooks = ({
  as,
  source,
  onKind,
  onFile,
  onText,
  onAgain,
}: {
  as: LedgerKind;
  source: Source | null;
  onKind: (as: ListKind) => void;
  onFile: (file: File) => void;
  onText: (text: string) => void;
  onAgain: () => void;
}) => {
  const [result, setResult] = useState<LedgerResult | null>(null);
  if (source === null) return <ChooseBook as={as} onKind={onKind} onFile={onFile} onText={onText} />;
  return result === null ? (
    <BookWork
      as={as}
      source={source}
      onKind={onKind}
      onFile={onFile}
      onText={onText}
      onImported={setResult}
    />
  ) : (
    <BookResult as={as} fileName={source.file.name} result={result} onAgain={onAgain} />
  );
};
