import { useCallback, useState } from 'react';

/**
 * One cursor for the chart and the list: the list tells where it stands, the chart and the plan
 * send it elsewhere.
 */
export const useSharedCursor = (first: number | null) => {
  const [cursor, setCursor] = useState<number | null>(null);
  const [sentTo, setSentTo] = useState<number | null>(first);
  const follow = useCallback((rowId: string | null) => {
    const id = rowId === null ? null : Number(rowId);
    setCursor(id);
    // Once it has moved on, it can be sent to the same car again.
    setSentTo(before => (before === id ? before : null));
  }, []);
  const send = useCallback((id: number) => {
    setCursor(id);
    setSentTo(id);
  }, []);
  return { cursor, sentTo: sentTo === null ? null : String(sentTo), follow, send };
};

export type SharedCursor = ReturnType<typeof useSharedCursor>;
