import { useState } from 'react';
import type { LedgerKind, LedgerResult } from '../../../../../electron/api/views.ts';
import type { WaysIn } from '../before-list.tsx';
import type { Source } from '../import-choice.ts';
import { BookResult } from './book-result.tsx';
import { BookWork } from './book-work.tsx';
import { ChooseBook } from './choose-book.tsx';

/** From a list of lots, expenses, sold cars or decisions to the books: chosen, tried, taken, and undone. */
export const ImportBooks = ({
  as,
  source,
  ways,
  onAgain,
}: {
  as: LedgerKind;
  source: Source | null;
  ways: WaysIn;
  onAgain: () => void;
}) => {
  const [result, setResult] = useState<LedgerResult | null>(null);
  if (source === null) return <ChooseBook as={as} ways={ways} />;
  return result === null ? (
    <BookWork as={as} source={source} ways={ways} onImported={setResult} />
  ) : (
    <BookResult as={as} fileName={source.file.name} result={result} onAgain={onAgain} />
  );
};
