import type { LedgerKind } from '../../../../../electron/api/views.ts';
import { bookWords } from '../import-choice.ts';

/** "1 expense"; "12 expenses". */
export const bookCount = (as: LedgerKind, count: number): string =>
  `${count.toLocaleString()} ${count === 1 ? bookWords[as].row : bookWords[as].rows}`;
