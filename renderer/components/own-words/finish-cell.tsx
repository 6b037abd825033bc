import type { CarRow } from '../../../electron/api/views.ts';
import { FinishState } from '../marks/finish-state.tsx';
import { UnreadMark } from './unread-mark.tsx';

/** The finish of a row in a grid; where a text about it waits for its meaning, that it does. */
export const FinishCell = ({ row }: { row: Pick<CarRow, 'unread' | 'finishState'> }) =>
  row.unread.some(({ field }) => field === 'finish_state') ? (
    <UnreadMark unread={row.unread} field="finish_state" />
  ) : (
    <FinishState state={row.finishState} />
  );
