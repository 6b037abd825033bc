import type { LedgerKind, LedgerResult } from '../../../../../electron/api/views.ts';
import { ImportDone } from '../import-done.tsx';
import { bookCount } from './book-count.ts';

/** Where the rows of each list are seen; spending stands on the page of its car. */
const places: Record<LedgerKind, { to: string; label: string }> = {
  lots: { to: '~/lots', label: 'Go to the lots' },
  expenses: { to: '~/cars', label: 'Go to the cars' },
  disposals: { to: '~/sales/sold', label: 'Go to the cars you sold' },
  decisions: { to: '~/decide', label: 'Go to Decide' },
  jobs: { to: '~/bench', label: 'Go to the bench' },
};

/** What an import into the books has done, with its undo and the lines that were left out. */
export const BookResult = ({
  as,
  fileName,
  result: { accepted, duplicates, rejected, notes },
  onAgain,
}: {
  as: LedgerKind;
  fileName: string;
  result: LedgerResult;
  onAgain: () => void;
}) => {
  return (
    <ImportDone
      title={`Imported ${bookCount(as, accepted)}`}
      facts={[
        duplicates > 0 ? `${duplicates.toLocaleString()} already known` : null,
        rejected.length > 0
          ? `${rejected.length.toLocaleString()} ${rejected.length === 1 ? 'line' : 'lines'} left out`
          : 'every row was read',
      ]}
      fileName={fileName}
      place={places[as]}
      took={accepted > 0}
      rejected={rejected}
      mending="Correct them and import the file again: what is known is skipped"
      notes={notes}
      onAgain={onAgain}
    />
  );
};
